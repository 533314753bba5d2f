/** What a page does with files: takes them in, has them read and set against limits, keeps and forgets what was said of them. */
import type { Declaration } from "../../core/recording/declaration.ts";
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Answers } from "../../core/table/question.ts";
import { remember } from "../parts/remember.ts";
import { Cancelled, desk } from "./desk.ts";
import { alter, change, filesHeld, find, type Held, idFor, noSettings, restate, sameAs, shelfState, tellOpened } from "./held-files.ts";
import { agreeOn, forget, hearOtherWindows, keep, reasonOf } from "./keeping.ts";
import { type KeptRecording, keptRecording, keptRecordings } from "./kept.ts";
import { forgetMappings, keepMapping, mappingKept } from "./mappings.ts";
import type { Opened, Settings, Told } from "./protocol.ts";

export { type Held, type Missing, noSettings, plainId, useHeld, useShelf, useShelfState } from "./held-files.ts";

const cancels = new Map<string, () => void>();

const blank = (id: string, file: File, takenAt: number): Held => ({
  id,
  file,
  takenAt,
  kept: "no",
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
  heard: null,
});

/**
 * Puts files on the shelf and reads each on its own: one refused file keeps no other from its answer. What this browser
 * kept is there first, so that no address is given twice.
 */
export const takeIn = async (files: readonly File[]): Promise<readonly string[]> => {
  await recall();
  restate({ says: null, putAway: [] });
  return files.map((file) => {
    const one = blank(idFor(file.name), file, Date.now());
    change([...filesHeld(), one]);
    void read(one.id);
    return one.id;
  });
};

let recalling: Promise<void> | null = null;

/** What this browser kept is put on the shelf again; nothing is read before a page asks for it. */
export const recall = (): Promise<void> => {
  recalling ??= keptRecordings().then(
    (all) => {
      all.forEach(agreeOn);
      const back = all.flatMap((kept) => (kept.file === null ? [] : [heldFrom(kept, kept.file)]));
      change([...back, ...filesHeld()]);
      restate({ ready: true, missing: all.filter((kept) => kept.file === null) });
    },
    (fault) => restate({ ready: true, keepsNothing: reasonOf(fault) }),
  );
  return recalling;
};

const heldFrom = (kept: KeptRecording, file: File): Held => ({
  ...blank(kept.id, file, kept.takenAt),
  kept: kept.file === null ? "said only" : "whole",
  given: kept.given,
  mapping: kept.mapping,
  settings: kept.settings,
});

let waking = false;

/** Reads, one after the other, what was put back on the shelf and not read yet; the one that is looked at first. */
export const wake = async (first: string | null): Promise<void> => {
  await recall();
  if (first !== null) await wakeOne(find(sameAs.get(first) ?? first));
  if (waking || first !== null) return;
  waking = true;
  for (let next = filesHeld().find(sleeps); next !== undefined; next = filesHeld().find(sleeps)) await wakeOne(next);
  waking = false;
};

const sleeps = (one: Held): boolean => one.kept !== "no" && one.opened === null && one.progress === null && one.fault === null;

const wakeOne = async (one: Held | undefined): Promise<void> => {
  if (one !== undefined && sleeps(one)) await read(one.id);
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
    const opened = await pending.reply;
    if (opened.channels.length > 0) performance.mark("lamproom-opened");
    tellOpened(id, opened);
    return opened;
  } catch (fault) {
    alter(id, { progress: null, fault: fault instanceof Cancelled ? null : String(fault) });
    // What was never opened has nothing to go back to; what was kept of it stays kept.
    if (fault instanceof Cancelled && one.opened === null) remove(id);
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
  if (one === undefined || isSecond(one, opened)) return;
  const before = await saidBefore(one, opened);
  if (before !== null) return read(before);
  // Shifts that were set before are placed on the clock of the file, which is known only now.
  if (one.opened === null && opened.keptInPart && one.settings.shifts.length > 0) {
    alter(id, { opened });
    return read(id);
  }
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
  // The first drawing goes before the findings, the worker does one thing at a time; and before bytes are written to a disk.
  if (opened.channels.length > 0) await nextFrames();
  keep(id);
  if (opened.channels.length > 0) await assess(id);
};

/** The bytes of one that is here already: the first one stays, with all that was said of it. */
const isSecond = (one: Held, { sha256 }: Opened): boolean => {
  const first =
    sha256 === null || one.opened !== null ? undefined : filesHeld().find((each) => each !== one && each.opened?.sha256 === sha256);
  if (first === undefined) return false;
  sameAs.set(one.id, first.id);
  remove(one.id);
  const name =
    one.file.name === first.file.name
      ? `${first.file.name} is here already`
      : `${one.file.name} holds the same bytes as ${first.file.name}`;
  restate({ says: `${name}: it stands once, with what was said of it.` });
  return true;
};

/**
 * Files that were here before find their answers, declarations and choices again, by their bytes and not by their name,
 * and the address of their page with them. Gives the id to read them under; null where nothing was said before.
 */
const saidBefore = async (one: Held, { sha256 }: Opened): Promise<string | null> => {
  if (sha256 === null || one.opened !== null || one.kept !== "no" || Object.keys(one.given).length > 0) return null;
  const kept = await keptRecording(sha256).catch(() => null); // `recall` has said that this browser keeps nothing
  if (kept === null) return null;
  agreeOn(kept);
  const { id, given, mapping, settings, takenAt } = kept;
  remove(one.id);
  sameAs.set(one.id, id);
  // The same file may lie on the shelf unread.
  change([...filesHeld().filter((each) => each.id !== id), { ...one, id, given, mapping, settings, takenAt, kept: "said only" }]);
  restate({
    missing: shelfState().missing.filter((each) => each.sha256 !== sha256),
    says: `What was said of ${kept.name} before stands again.`,
  });
  return id;
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

/** Off the page and out of the worker. */
const remove = (id: string): void => {
  void desk().ask({ type: "close", id }).reply;
  change(filesHeld().filter((one) => one.id !== id));
};

/** Off the page, and forgotten by this browser; as long as the page is open it can be brought back. */
export const putAway = (ids: readonly string[]): void => {
  const gone = filesHeld().filter((one) => ids.includes(one.id));
  for (const one of gone) {
    remove(one.id);
    const sha256 = one.opened?.sha256 ?? null;
    if (sha256 !== null && one.kept !== "no") void forget(sha256);
  }
  restate({ putAway: gone, says: null });
};

/** All that this browser keeps of recordings, also the answers that it would give again to files of the same heading. */
export const putAllAway = (): void => {
  for (const one of shelfState().missing) forgetMissing(one.sha256);
  const answers = forgetMappings();
  remember("declared-by", null);
  putAway(filesHeld().map((one) => one.id));
  const headings = answers === 0 ? "" : `answers for ${answers === 1 ? "1 heading" : `${answers} headings`} and `;
  restate({ says: `Forgotten too: ${headings}the name last signed with.` });
};

export const bringBack = (): void => {
  const back = shelfState().putAway;
  restate({ putAway: [] });
  for (const one of back) {
    change([...filesHeld(), { ...one, opened: null, before: null, progress: null, answer: null, kept: "no" }]);
    void read(one.id);
  }
};

/** What was said of a file that is not here; nothing brings it back. */
export const forgetMissing = (sha256: string): void => {
  restate({ missing: shelfState().missing.filter((one) => one.sha256 !== sha256) });
  void forget(sha256);
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
  alter(id, { settings: { ...one.settings, ...settings }, heard: null, undo: says === null ? null : { says, settings: one.settings } });
  keep(id);
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

hearOtherWindows((id, isReadAnew) => void (isReadAnew ? read(id) : assess(id)));
