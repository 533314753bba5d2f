/** The files on this page and what the shelf says of itself: one place, told to whoever shows it. */
import { useSyncExternalStore } from "react";
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Answers } from "../../core/table/question.ts";
import type { FileAnswer } from "../../work/answer.ts";
import { NOTHING_DECLARED } from "../../work/exposure-options.ts";
import type { Progressing } from "./desk.ts";
import type { KeptRecording } from "./kept.ts";
import type { Opened, Settings } from "./protocol.ts";

/** One file on this page: what was read, what a person chose, what follows. */
export interface Held {
  readonly id: string;
  readonly file: File;
  readonly takenAt: number;
  /** Kept in this browser: with its bytes, without them (too large), or not yet. */
  readonly kept: "whole" | "said only" | "no";
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
  /** What another window of this browser did to it, until something is chosen here. */
  readonly heard: string | null;
}

/** Recordings whose bytes were too many to keep: the page names the file that brings back what was said of it. */
export type Missing = Pick<KeptRecording, "sha256" | "id" | "name" | "size" | "takenAt">;

/** What the shelf itself has to say. */
export interface ShelfState {
  /** False until it is known what this browser kept. */
  readonly ready: boolean;
  readonly missing: readonly Missing[];
  /** Why nothing is kept here; null where it is. */
  readonly keepsNothing: string | null;
  readonly says: string | null;
  /** Put away last, until something else happens to the shelf. */
  readonly putAway: readonly Held[];
}

let files: readonly Held[] = [];
let state: ShelfState = { ready: false, missing: [], keepsNothing: null, says: null, putAway: [] };
/** Ids of files that turned out to hold the bytes of one that was here. */
export const sameAs = new Map<string, string>();
const listeners = new Set<() => void>();
/** What pages show: the files and the state as they were told last. */
let shown = { files, state };

const tell = (): void => {
  if (isPressed) return;
  shown = { files, state };
  for (const listener of listeners) listener();
};

/** A finger that stays on a word longer wants something else. */
const longestHoldMs = 5_000;
let isPressed = false;

/**
 * Whoever presses a word gets what was pressed: between press and release nothing that comes from the worker moves the
 * page, then all of it comes at once. A link that had moved away by then would not be followed, and nothing would say so.
 */
export const holdStillWhilePressed = (page: Document): void => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const release = (): void => {
    clearTimeout(timer);
    if (!isPressed) return;
    isPressed = false;
    tell();
  };
  page.addEventListener("pointerdown", ({ target }) => {
    if (!(target instanceof Element) || target.closest("a, button") === null) return;
    isPressed = true;
    clearTimeout(timer);
    timer = setTimeout(release, longestHoldMs);
  });
  // The click comes after the release.
  for (const end of ["pointerup", "pointercancel"]) page.addEventListener(end, () => setTimeout(release));
};

export const change = (next: readonly Held[]): void => {
  files = next;
  tell();
};

export const restate = (part: Partial<ShelfState>): void => {
  state = { ...state, ...part };
  tell();
};

export const alter = (id: string, part: Partial<Held>): void => change(files.map((one) => (one.id === id ? { ...one, ...part } : one)));

export const find = (id: string): Held | undefined => files.find((each) => each.id === id);

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

const awaiting = new Map<string, (opened: Opened) => void>();

/** Hears of a file that was read as soon as the worker says so, before any page shows it; gives what ends the hearing. */
export const awaitOpened = (id: string, hear: (opened: Opened) => void): (() => void) => {
  awaiting.set(id, hear);
  return () => awaiting.delete(id);
};

export const tellOpened = (id: string, opened: Opened): void => awaiting.get(id)?.(opened);

/** All files on the page, and what the shelf itself says, as they are this moment. */
export const filesHeld = (): readonly Held[] => files;
export const shelfState = (): ShelfState => state;

export const useShelf = (): readonly Held[] => useSyncExternalStore(subscribe, () => shown.files);
export const useShelfState = (): ShelfState => useSyncExternalStore(subscribe, () => shown.state);
export const useHeld = (id: string): Held | null => useShelf().find((one) => one.id === (sameAs.get(id) ?? id)) ?? null;

export const noSettings: Settings = { ...NOTHING_DECLARED, regimes: [], shifts: [] };

/** The name of a file as a part of an address; without a dot, so that it does not pass for a file of the server. */
export const plainId = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "") || "recording";

export const idFor = (name: string): string => {
  const plain = plainId(name);
  const taken = new Set([...files, ...state.missing].map((one) => one.id));
  for (let number = 1; ; number++) {
    const id = number === 1 ? plain : `${plain}-${number}`;
    if (!taken.has(id)) return id;
  }
};
