/** The limits of a gas by the date of exposure: a shift of last year is set against last year's figures. */

import type { ShiftSpan } from "../core/exposure/assessment.ts";
import { limitsFor, type OwnLimits, regimes as publishedRegimes } from "../core/gas/index.ts";
import type { Limit, RegimeId } from "../core/gas/limit.ts";
import type { Recording } from "../core/recording/channel.ts";
import { localAt, localText, zoneClock } from "../core/time/index.ts";

/** The published limits and those of the user's own. */
export interface LimitBook {
  readonly own: OwnLimits | null;
  readonly regimes: readonly RegimeId[];
}

/** A regime that gives no limit of a gas: it was looked at and sets none, or its tables do not hold the gas. */
export interface WithoutLimit {
  readonly regime: RegimeId;
  readonly why: "no limit" | "not covered";
}

export interface DatedLimits {
  /** Every limit that holds on one of the dates. */
  readonly all: (gas: string) => readonly Limit[];
  /** Whether a limit holds on the date of the shift with this index. */
  readonly holds: (limit: Limit, shift: number) => boolean;
  /** The regimes that give no limit of a gas on the date of the shift with this index. */
  readonly without: (gas: string, shift: number) => readonly WithoutLimit[];
}

export function limitBook(own: OwnLimits | null): LimitBook {
  return { own, regimes: publishedRegimes(own).map(({ id }) => id) };
}

export function limitsOnDates(book: LimitBook, regimes: readonly RegimeId[], dates: readonly (string | null)[]): DatedLimits {
  const known = new Map<string, readonly Limit[]>();
  const on = (gas: string, date: string | null): readonly Limit[] => {
    const key = `${gas} ${date}`;
    const found = known.get(key) ?? regimes.flatMap((regime) => limitsOf(book, gas, regime, date));
    known.set(key, found);
    return found;
  };
  return {
    all: (gas) => [...new Set(dates.flatMap((date) => on(gas, date)))],
    holds: (limit, shift) => on(limit.gas, dates[shift] ?? null).includes(limit),
    without: (gas, shift) => regimes.flatMap((regime) => withoutLimit(book, gas, regime, dates[shift] ?? null)),
  };
}

function limitsOf({ own }: LimitBook, gas: string, regime: RegimeId, date: string | null): readonly Limit[] {
  const answer = limitsFor(gas, regime, { on: date, own });
  return answer.status === "limits" ? answer.limits : [];
}

function withoutLimit({ own }: LimitBook, gas: string, regime: RegimeId, date: string | null): readonly WithoutLimit[] {
  const { status } = limitsFor(gas, regime, { on: date, own });
  return status === "limits" ? [] : [{ regime, why: status }];
}

/** The local date on which each shift begins; of the whole file where no shift is named. Null = the file has no date. */
export function shiftDates({ clock, channels }: Recording, shifts: readonly ShiftSpan[]): readonly (string | null)[] {
  if (clock.kind === "elapsed") return [null];
  const zone = zoneClock(clock.zone ?? "UTC");
  const starts =
    shifts.length > 0 ? shifts.map(({ from }) => from) : [Math.min(...channels.map(({ times }) => times[0] ?? Number.POSITIVE_INFINITY))];
  return starts.map((start) => (zone.ok && Number.isFinite(start) ? localText(localAt(start, zone.value)).slice(0, 10) : null));
}
