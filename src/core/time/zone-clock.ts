/**
 * Local time and instants, for columns of millions of rows. A full conversion by the calendar package costs
 * microseconds; here the offsets of a zone are asked once for a stretch of years, cut into pieces of local time in
 * which the answer is the same subtraction, and a running cursor does the rest.
 *
 * Rules of the zones: IANA time zone database, as the machine's ICU holds it, read through Temporal.
 */
import { Temporal } from "temporal-polyfill";
import { given, type Result, refused } from "../result.ts";
import { AFTER_LAST_WRITABLE, FIRST_WRITABLE, type LocalTime, MILLISECONDS_PER_DAY, MILLISECONDS_PER_MINUTE } from "./civil.ts";
import type { Instant } from "./instant.ts";
import { offsetFromText } from "./offset.ts";
import { nearZoneNames } from "./zone-name.ts";

export type ZoneRefusal = { readonly type: "unknown-zone"; readonly zone: string; readonly near: readonly string[] };

/** A half-open stretch [from, to) of wall-clock milliseconds in which every time has the same kind of answer. Offsets in milliseconds east of UTC. */
export type LocalPiece =
  /** One instant: local - offset. */
  | { readonly kind: "one"; readonly from: number; readonly to: number; readonly offset: number }
  /** The hour that happens twice: local - earlierOffset, and again local - laterOffset. */
  | { readonly kind: "two"; readonly from: number; readonly to: number; readonly earlierOffset: number; readonly laterOffset: number }
  /** The hour that does not happen: at instant `at` the clock goes from `from` to `to`. */
  | {
      readonly kind: "none";
      readonly from: number;
      readonly to: number;
      readonly at: Instant;
      readonly offsetBefore: number;
      readonly offsetAfter: number;
    };

/** What instant a local time is. "None" gives the last whole second before the missing stretch and the first moment after it. */
export type LocalInstants =
  | { readonly kind: "one"; readonly instant: Instant; readonly offset: number }
  | {
      readonly kind: "two";
      readonly earlier: Instant;
      readonly later: Instant;
      readonly earlierOffset: number;
      readonly laterOffset: number;
    }
  | {
      readonly kind: "none";
      readonly lastSecondBefore: Instant;
      readonly firstAfter: Instant;
      readonly offsetBefore: number;
      readonly offsetAfter: number;
    };

export interface ZoneClock {
  /** The zone as the database spells it, or the offset as "+hh:mm", or "UTC". */
  readonly zone: string;
  /** True where the offset never changes because an offset was given, not a place. */
  readonly isFixed: boolean;
  /** Milliseconds east of UTC at an instant. */
  readonly offsetAt: (instant: number) => number;
  /** The piece in which a local time lies. Keep it and ask again only when a time leaves [from, to). */
  readonly pieceAt: (local: number) => LocalPiece;
}

/**
 * The clock of a zone.
 *
 * @param zone an IANA name in any case ("Europe/London"), "UTC", "Z", or an offset "+02:00".
 * @returns a clock, or `unknown-zone` with the names that come nearest. A clock answers for years 0 to 9999; times
 * beyond are a broken promise of the caller.
 * @example
 * ```ts
 * import { zoneClock } from "./zone-clock.ts";
 * const clock = zoneClock("Asia/Kathmandu");
 * clock.ok && clock.value.offsetAt(0) / 60000; // => 330
 * clock.ok && clock.value.offsetAt(1735689600000) / 60000; // => 345
 * const unknown = zoneClock("Europe/Lundon");
 * unknown.ok || unknown.refusal.near[0]; // => "Europe/London"
 * ```
 */
export function zoneClock(zone: string): Result<ZoneClock, ZoneRefusal> {
  const minutes = zone === "Z" || zone === "UTC" ? 0 : offsetFromText(zone);
  if (minutes !== null) return given(fixedClock(zone === "Z" || zone === "UTC" ? "UTC" : zone, minutes * MILLISECONDS_PER_MINUTE));
  const known = clocks.get(zone);
  if (known !== undefined) return given(known);
  const name = zoneNameOf(zone);
  if (name === null) return refused({ type: "unknown-zone", zone, near: nearZoneNames(zone) });
  const clock = placeClock(name);
  clocks.set(zone, clock);
  return given(clock);
}

/**
 * The instant or instants of one local time.
 *
 * @example
 * ```ts
 * import { instantsOf, zoneClock } from "./zone-clock.ts";
 * const london = zoneClock("Europe/London");
 * london.ok && instantsOf(1761442200000, london.value).kind; // => "two"
 * ```
 */
export function instantsOf(local: number, clock: ZoneClock): LocalInstants {
  const piece = clock.pieceAt(local);
  // Each cast below gives the brand: whole local milliseconds less a whole offset are an instant.
  if (piece.kind === "one") return { kind: "one", instant: (local - piece.offset) as Instant, offset: piece.offset };
  if (piece.kind === "two") {
    const { earlierOffset, laterOffset } = piece;
    return {
      kind: "two",
      earlier: (local - earlierOffset) as Instant,
      later: (local - laterOffset) as Instant,
      earlierOffset,
      laterOffset,
    };
  }
  const { at, offsetBefore, offsetAfter } = piece;
  return { kind: "none", lastSecondBefore: (at - 1_000) as Instant, firstAfter: at, offsetBefore, offsetAfter };
}

/** What the wall clock of a zone shows at an instant. */
export const localAt = (instant: number, clock: ZoneClock): LocalTime => (instant + clock.offsetAt(instant)) as LocalTime; // the brand is given here

function fixedClock(zone: string, offset: number): ZoneClock {
  const piece: LocalPiece = { kind: "one", from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY, offset };
  return { zone, isFixed: true, offsetAt: () => offset, pieceAt: () => piece };
}

/** Clocks by the text that asked for them: a zone's rules do not change while a program runs. Only names found good are kept. */
const clocks = new Map<string, ZoneClock>();

function zoneNameOf(zone: string): string | null {
  try {
    return Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone).timeZoneId;
  } catch (fault) {
    if (fault instanceof RangeError) return null; // this is how Temporal says that there is no such zone
    throw fault;
  }
}

/** Offsets are asked in windows of four years, so that a file with one row of 1970 and one of 2026 asks for eight, not for sixty. */
const WINDOW = 1_461 * MILLISECONDS_PER_DAY;
/** No zone has ever been further from UTC than 16 hours, nor jumped more than a day. */
const MARGIN = 2 * MILLISECONDS_PER_DAY;

/** Between two changes of the offset: [from, to) in instants. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly offset: number;
}

interface Window {
  readonly from: number;
  readonly to: number;
  readonly stretches: readonly Stretch[];
  readonly pieces: readonly LocalPiece[];
}

function placeClock(zone: string): ZoneClock {
  const windows = new Map<number, Window>();
  let window = windowOf(zone, 0);
  const windowAt = (time: number): Window => {
    const number = Math.floor(time / WINDOW);
    const known = windows.get(number);
    if (known !== undefined) return known;
    const made = windowOf(zone, number);
    windows.set(number, made);
    return made;
  };
  let stretch = window.stretches[0] as Stretch; // a window always holds one
  const offsetAt = (instant: number): number => {
    if (instant >= stretch.from && instant < stretch.to) return stretch.offset;
    if (!(instant >= window.from && instant < window.to)) window = windowAt(instant);
    stretch = holding(window.stretches, instant);
    return stretch.offset;
  };
  const pieceAt = (local: number): LocalPiece => holding(windowAt(local).pieces, local);
  return { zone, isFixed: false, offsetAt, pieceAt };
}

/** The stretches of a window reach beyond it by the margin, so that every local time of the window finds all its instants in it. */
function windowOf(zone: string, number: number): Window {
  const from = number * WINDOW;
  const to = from + WINDOW;
  const stretches = stretchesBetween(zone, from - MARGIN, to + MARGIN);
  return { from, to, stretches, pieces: piecesOf(stretches, from, to) };
}

function stretchesBetween(zone: string, from: number, to: number): Stretch[] {
  const stretches: Stretch[] = [];
  let here = Temporal.Instant.fromEpochMilliseconds(from).toZonedDateTimeISO(zone);
  let start = from;
  while (start < to) {
    const next = here.getTimeZoneTransition("next");
    const end = next === null ? to : Math.min(next.epochMilliseconds, to);
    stretches.push({ from: start, to: end, offset: here.offsetNanoseconds / 1_000_000 });
    if (next === null) break;
    here = next;
    start = end;
  }
  return stretches;
}

/** Between two neighbouring ends of local stretches the number of instants is the same: none, one or two. */
function piecesOf(stretches: readonly Stretch[], from: number, to: number): LocalPiece[] {
  const ends = stretches.flatMap((stretch) => [stretch.from + stretch.offset, stretch.to + stretch.offset]);
  const cuts = [from, ...ends.filter((end) => end > from && end < to), to].sort((a, b) => a - b);
  const pieces: LocalPiece[] = [];
  for (let index = 0; index + 1 < cuts.length; index++) {
    const start = cuts[index] as number; // index + 1 is below the length
    const end = cuts[index + 1] as number;
    if (start < end) pieces.push(pieceOf(stretches, start, end));
  }
  return pieces;
}

function pieceOf(stretches: readonly Stretch[], from: number, to: number): LocalPiece {
  const holders = stretches.filter((stretch) => from >= stretch.from + stretch.offset && from < stretch.to + stretch.offset);
  const first = holders[0];
  const last = holders.at(-1);
  if (first !== undefined && last !== undefined) {
    if (first === last) return { kind: "one", from, to, offset: first.offset };
    return { kind: "two", from, to, earlierOffset: first.offset, laterOffset: last.offset };
  }
  const after = stretches.find((stretch) => stretch.from + stretch.offset >= to) as Stretch; // a missing hour ends where a stretch begins
  const before = stretches[stretches.indexOf(after) - 1] as Stretch; // and begins where the one before it ends
  return { kind: "none", from, to, at: after.from as Instant, offsetBefore: before.offset, offsetAfter: after.offset };
}

/** The half-open stretch that holds a time; stretches follow one another without a hole. */
function holding<Part extends { readonly from: number; readonly to: number }>(parts: readonly Part[], time: number): Part {
  let low = 0;
  let high = parts.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (time < (parts[middle] as Part).to)
      high = middle; // middle stays below the length
    else low = middle + 1;
  }
  return parts[low] as Part;
}

/** True where the calendar of four-digit years, and so every writer here, can hold a time. */
export const isWritable = (milliseconds: number): boolean => milliseconds >= FIRST_WRITABLE && milliseconds < AFTER_LAST_WRITABLE;
