import { useSyncExternalStore } from "react";
import type { Declaration } from "../../core/recording/declaration.ts";
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Answers } from "../../core/table/question.ts";
import type { FileAnswer } from "../../work/answer.ts";
import { Cancelled, desk, type Progressing } from "./desk.ts";
import { keepMapping, mappingKept } from "./mappings.ts";
import type { Opened, Settings, Told } from "./protocol.ts";

/** One file on this page: what was read, what a person chose, what follows. */
export interface Held {
  readonly id: string;
  readonly file: File;
  readonly given: Answers;
  readonly mapping: TableMapping | null;
  readonly progress: Progressing | null;
  readonly opened: Opened | null;
  /** The reading before the last correction, to show what it changed. */
  readonly before: Opened | null;
  readonly settings: Settings;
  readonly answer: FileAnswer | null;
  readonly computing: boolean;
  /** A fault of the program itself, not of the file. */
  readonly fault: string | null;
  readonly undo: { readonly says: string; readonly settings: Settings } | null;
}

let held: readonly Held[] = [];
const listeners = new Set<() => void>();
const cancels = new Map<string, () => void>();

const change = (next: readonly Held[]): void => {
  held = next;
  for (const listener of listeners) listener();
};

const alter = (id: string, part: Partial<Held>): void => change(held.map((one) => (one.id === id ? { ...one, ...part } : one)));

const find = (id: string): Held | undefined => held.find((each) => each.id === id);

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

export const useShelf = (): readonly Held[] => useSyncExternalStore(subscribe, () => held);
export const useHeld = (id: string): Held | null => useShelf().find((one) => one.id === id) ?? null;

export const noSettings: Settings = { regimes: [], shifts: [], unsampled: { kind: "open" }, declarations: [], largestGapMs: null };

/** The name of a file as a part of an address; without a dot, so that it does not pass for a file of the server. */
export const plainId = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "") || "recording";

const idFor = (name: string): string => {
  const plain = plainId(name);
  const taken = new Set(held.map((one) => one.id));
  for (let number = 1; ; number++) {
    const id = number === 1 ? plain : `${plain}-${number}`;
    if (!taken.has(id)) return id;
  }
};

/** Puts files on the shelf and reads each on its own: one refused file keeps no other from its answer. */
export const takeIn = (files: readonly File[]): readonly string[] => {
  const ids: string[] = [];
  for (const file of files) {
    const id = idFor(file.name);
    ids.push(id);
    const one: Held = {
      id,
      file,
      given: {},
      mapping: null,
      progress: null,
      opened: null,
      before: null,
      settings: noSettings,
      answer: null,
      computing: false,
      fault: null,
      undo: null,
    };
    change([...held, one]);
    void read(id);
  }
  return ids;
};

/** As the command line writes them: instants, or seconds from the start. */
const shiftTexts = (one: Held): readonly string[] => {
  if (one.opened?.keptInPart !== true) return [];
  const text = (ms: number): string => (one.opened?.clock?.kind === "elapsed" ? String(ms / 1000) : new Date(ms).toISOString());
  return one.settings.shifts.map(({ from, to }) => `${text(from)}/${text(to)}`);
};

/** Asks the worker to read a file; null where a person stopped it or the program failed. */
const reading = async (id: string): Promise<Opened | null> => {
  const one = find(id);
  if (one === undefined) return null;
  alter(id, { progress: { stage: "reading", done: 0, of: one.file.size }, fault: null });
  const { file, given, mapping, settings } = one;
  const pending = desk().ask({ type: "open", id, file, given, mapping, shifts: shiftTexts(one), settings }, (progress) =>
    alter(id, { progress }),
  );
  cancels.set(id, pending.cancel);
  try {
    return await pending.reply;
  } catch (fault) {
    alter(id, { progress: null, fault: fault instanceof Cancelled ? null : String(fault) });
    // What was never opened has nothing to go back to.
    if (fault instanceof Cancelled && one.opened === null) putAway(id);
    return null;
  } finally {
    cancels.delete(id);
  }
};

const read = async (id: string): Promise<void> => {
  const opened = await reading(id);
  if (opened !== null) await tookIn(id, opened);
};

/** Answers remembered for this heading are given again at once, so that the page shows the reading that follows from them. */
const tookIn = async (id: string, opened: Opened): Promise<void> => {
  const one = find(id);
  if (one === undefined) return;
  const fresh = one.mapping === null && one.opened === null && Object.keys(one.given).length === 0;
  const kept = fresh && opened.channels.length === 0 && opened.mapping !== null ? mappingKept(opened.mapping.fingerprint) : null;
  if (kept !== null) {
    alter(id, { given: kept.given, opened });
    await read(id);
    return;
  }
  // Under a loaded mapping the reader makes no proposal: what the file alone says stays beside it.
  const proposal = opened.proposal ?? (one.mapping === null ? null : (one.opened?.proposal ?? null));
  // While a correction asks back, the reading before it stays what the next one is compared with.
  const asksBack = one.opened !== null && one.opened.channels.length === 0 && one.before !== null;
  alter(id, { opened: { ...opened, proposal }, before: asksBack ? one.before : one.opened, progress: null });
  if (opened.channels.length === 0) return;
  performance.mark("lamproom-opened");
  // The first drawing goes before the findings: the worker does one thing at a time.
  await nextFrames();
  await assess(id);
};

/** Two frames on, the page of a recording has asked for its drawing. A page in the background has no frames: it waits a moment. */
const nextFrames = (): Promise<void> =>
  new Promise((done) => {
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)));
    setTimeout(done, 100);
  });

/** Answers go back with everything that was said before; the file is read again from its start. */
export const answerQuestions = async (id: string, answers: Answers): Promise<void> => {
  const before = find(id);
  if (before === undefined) return;
  alter(id, { given: { ...before.given, ...answers } });
  const opened = await reading(id);
  const refusal = opened?.refusal ?? null;
  if (opened === null || (refusal !== null && refusal.type !== "questions-open" && before.opened !== null)) {
    await takeBack(before, refusal);
    return;
  }
  await tookIn(id, opened);
  const one = find(id);
  if (one?.opened?.mapping && one.opened.channels.length > 0) keepMapping({ mapping: one.opened.mapping, given: one.given });
};

/** An answer that the reader refuses is not kept: the file stands as it stood before, with the refusal beside it. */
const takeBack = async ({ id, given, opened }: Held, refusal: Told | null): Promise<void> => {
  alter(id, { given });
  // The worker has let the recording go with the refused reading.
  if (refusal !== null && opened !== null && opened.channels.length > 0) await reading(id);
  if (opened !== null) alter(id, { opened: { ...opened, refusal }, before: null, progress: null });
};

export const applyMapping = async (id: string, mapping: TableMapping): Promise<void> => {
  alter(id, { mapping, given: {} });
  await read(id);
};

export const cancelReading = (id: string): void => cancels.get(id)?.();

export const putAway = (id: string): void => {
  void desk().ask({ type: "close", id }).reply;
  change(held.filter((one) => one.id !== id));
};

let turn = 0;

const assess = async (id: string): Promise<void> => {
  const one = find(id);
  if (one === undefined) return;
  const mine = ++turn;
  alter(id, { computing: true });
  try {
    const answer = await desk().ask({ type: "assess", id, settings: one.settings }).reply;
    // A later choice has asked again: its answer counts.
    if (mine === turn || find(id)?.settings === one.settings) alter(id, { answer, computing: false });
  } catch (fault) {
    alter(id, { computing: false, fault: String(fault) });
  }
};

/** Every choice recomputes at once; `says` names the act where it can be undone. */
export const settle = (id: string, settings: Partial<Settings>, says: string | null = null): void => {
  const one = find(id);
  if (one === undefined) return;
  alter(id, { settings: { ...one.settings, ...settings }, undo: says === null ? null : { says, settings: one.settings } });
  // Of a long file only the stretches around its shifts are kept: other shifts are read from the file.
  if (settings.shifts !== undefined && one.opened?.keptInPart === true) void read(id);
  else void assess(id);
};

export const undo = (id: string): void => {
  const before = find(id)?.undo;
  if (before) settle(id, before.settings);
};

export const declare = (id: string, declaration: Declaration, says: string): void => {
  const one = find(id);
  if (one !== undefined) settle(id, { declarations: [...one.settings.declarations, declaration] }, says);
};

export const withdraw = (id: string, declaration: string, says: string): void => {
  const one = find(id);
  if (one !== undefined) settle(id, { declarations: one.settings.declarations.filter((each) => each.id !== declaration) }, says);
};
