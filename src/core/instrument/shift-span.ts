/** The shift that is worked at an instant, or the next one, by a site's own clock. */
import { clockOfDay, instantsOf, localAt, MILLISECONDS_PER_DAY, type ZoneClock, zoneClock } from "../time/index.ts";
import type { RuleSet } from "./rule-set.ts";

/** From `from` on, up to and without `to`; milliseconds since 1970. */
export interface ShiftSpan {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/**
 * The shift that is running at an instant, the one begun last where several overlap; where none runs, the next to begin.
 * A shift whose end is not after its begin on the clock ends on the next day. Where the clock leaves its hour out, a shift
 * begins or ends after the gap; where it has the hour twice, it begins with the first one and ends with the second.
 *
 * @param rules zone and shifts of the rule set
 * @param at milliseconds since 1970
 * @returns null where the rule set has no shifts, or the zone or a time of them cannot be read
 * @example
 * ```ts
 * import { shiftSpan } from "./shift-span.ts";
 * const shifts = [{ name: "early", from: "06:00", to: "14:00" }, { name: "night", from: "22:00", to: "06:00" }];
 * const site = { zone: "Europe/London", shifts };
 * const named = (at: number) => shiftSpan(site, at)?.name;
 * [named(Date.UTC(2026, 2, 4, 7)), named(Date.UTC(2026, 2, 4, 15)), named(Date.UTC(2026, 2, 5, 2))]; // => ["early", "night", "night"]
 * shiftSpan({ zone: "Europe/London", shifts: [] }, 0); // => null
 * ```
 * Source: design of this book, ours. Never refuses.
 */
export function shiftSpan({ zone, shifts }: Pick<RuleSet, "zone" | "shifts">, at: number): ShiftSpan | null {
  const clock = zoneClock(zone);
  if (!clock.ok) return null;
  const spans = shifts.flatMap((shift) => spansAround(shift, at, clock.value));
  const running = spans.filter(({ from, to }) => from <= at && at < to).sort((one, other) => other.from - one.from);
  const coming = spans.filter(({ from }) => from > at).sort((one, other) => one.from - other.from);
  return running[0] ?? coming[0] ?? null;
}

function spansAround({ name, from, to }: RuleSet["shifts"][number], at: number, clock: ZoneClock): readonly ShiftSpan[] {
  const [begin, end] = [clockOfDay(from), clockOfDay(to)];
  if (!begin.ok || !end.ok) return [];
  const length = end.value > begin.value ? end.value - begin.value : end.value + MILLISECONDS_PER_DAY - begin.value;
  const today = Math.floor(localAt(at, clock) / MILLISECONDS_PER_DAY) * MILLISECONDS_PER_DAY;
  return [-1, 0, 1].map((day) => {
    const local = today + day * MILLISECONDS_PER_DAY + begin.value;
    return { name, from: instantAt(local, "first", clock), to: instantAt(local + length, "last", clock) };
  });
}

function instantAt(local: number, which: "first" | "last", clock: ZoneClock): number {
  const found = instantsOf(local, clock);
  if (found.kind === "one") return found.instant;
  if (found.kind === "two") return which === "first" ? found.earlier : found.later;
  return found.firstAfter;
}
