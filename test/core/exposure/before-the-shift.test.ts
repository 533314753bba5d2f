// A short-term window that ends in a named shift may have begun before it: in an earlier named shift, or among readings that
// stand in none. Those are nought at the least and as read at the most, since nobody said that this person breathed them.
import fc from "fast-check";
import { expect, test } from "vitest";
import type { ShiftSpan } from "../../../src/core/exposure/index.ts";
import { assessedShifts, channelOf, MINUTE, type WrittenPiece } from "../../cases/exposure/written-shift.ts";

const WINDOW = 15;
const limits = [{ kind: "stel", value: 100, minutes: WINDOW }] as const;
const minutes = (from: number, to: number): ShiftSpan => ({ from: from * MINUTE, to: to * MINUTE });

/** One level a minute from minute 0; null = a gap. */
const piecesOf = (levels: readonly (number | null)[]): readonly WrittenPiece[] =>
  levels.map((level, minute) => [minute, minute + 1, level ?? "gap"]);

interface Ends {
  readonly low: number;
  readonly high: number | null;
  readonly best: number | null;
}

/** Every window of whole minutes that ends in the shift, its start included: shifts and levels change on minutes only. */
function everyWindow(levels: readonly (number | null)[], shifts: readonly ShiftSpan[], shift: ShiftSpan): Ends {
  const ends = { low: 0, high: 0 };
  let isOpen = false;
  for (let end = shift.from / MINUTE; end <= shift.to / MINUTE; end += 1) {
    const sums = { low: 0, high: 0 };
    for (let minute = end - WINDOW; minute < end; minute += 1) {
      const level = levels[minute];
      const named = shifts.some(({ from, to }) => minute >= from / MINUTE && minute < to / MINUTE);
      if (named && level === null) isOpen = true;
      if (named) sums.low += level ?? 0;
      sums.high += level ?? 0;
    }
    ends.low = Math.max(ends.low, sums.low / WINDOW);
    ends.high = Math.max(ends.high, sums.high / WINDOW);
  }
  return { low: ends.low, high: isOpen ? null : ends.high, best: isOpen || ends.high > ends.low ? null : ends.low };
}

/** A quiet log with something in it, two shifts that do not overlap, and what may be between them. */
const day = fc
  .record({
    levels: fc.array(fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 0, max: 90 }) }, { weight: 1, arbitrary: fc.constant(null) }), {
      ...{ minLength: 60, maxLength: 90 },
    }),
    cuts: fc.uniqueArray(fc.integer({ min: 0, max: 59 }), { minLength: 4, maxLength: 4 }),
    isQuiet: fc.boolean(),
  })
  .map(({ levels, cuts, isQuiet }) => {
    const [a = 0, b = 1, c = 2, d = 3] = [...cuts].sort((first, second) => first - second);
    return { levels: isQuiet ? levels.map((level) => level ?? 0) : levels, shifts: [minutes(a, b), minutes(c, d)] };
  });

test("property: the greatest 15 min that end in a shift, among named and unnamed readings before it", () => {
  fc.assert(
    fc.property(day, ({ levels, shifts }) => {
      const assessed = assessedShifts(channelOf(piecesOf(levels), MINUTE), limits, { shifts });
      for (const { shift, channels } of assessed) {
        const { low = NaN, high, best } = channels[0]?.stel ?? {};
        const expected = shift === null ? null : everyWindow(levels, shifts, shift);
        expect({ low: low.toFixed(9), high: high?.toFixed(9), best: best?.toFixed(9) }).toEqual({
          ...{ low: expected?.low.toFixed(9), high: expected?.high?.toFixed(9), best: expected?.best?.toFixed(9) },
        });
      }
    }),
    { numRuns: 400 },
  );
});

const quiet: WrittenPiece = [60, 180, 2];
const outsideShift = { type: "readings-outside-shift" };
const unsampledFor = (minutesLong: number) => ({ type: "unsampled-time", seconds: minutesLong * 60, wStar: 100, holds: "at any moment" });

test.each<readonly [string, readonly WrittenPiece[], object]>([
  [
    "gas just before the shift",
    [[40, 60, 300], quiet],
    { low: 2, best: null, high: 300, outcome: "undetermined", undecidedBy: [outsideShift] },
  ],
  ["gas that no window reaches", [[20, 45, 300], [45, 60, 2], quiet], { low: 2, best: 2, high: 2, outcome: "within", undecidedBy: [] }],
  ["little before the shift", [[40, 60, 90], quiet], { low: 2, best: null, high: 90, outcome: "within", undecidedBy: [] }],
  ["a gap before the shift", [[40, 50, 290], [59, 60, 2], quiet], { low: 2, high: (5 * 290 + 2) / 15, outcome: "within" }],
  [
    "over range before the shift",
    [[58, 60, "over 500"], quiet],
    { low: 2, best: null, high: null, wStar: null, outcome: "undetermined", undecidedBy: [outsideShift] },
  ],
  [
    "gas before the shift, and a gap in it",
    [
      [58, 60, 9000],
      [60, 100, 2],
      [100, 130, "gap"],
      [130, 180, 2],
    ],
    { low: 2, high: null, wStar: null, outcome: "undetermined", undecidedBy: [outsideShift, { ...unsampledFor(30), wStar: null }] },
  ],
  [
    "little before the shift, and a gap in it",
    [
      [58, 60, 5],
      [60, 100, 2],
      [100, 130, "gap"],
      [130, 180, 2],
    ],
    { low: 2, high: null, wStar: 100, outcome: "undetermined", undecidedBy: [unsampledFor(30)] },
  ],
  [
    "gas in the shift itself",
    [
      [40, 60, 300],
      [60, 180, 150],
    ],
    { low: 150, best: null, high: 300, outcome: "exceeds", undecidedBy: [] },
  ],
])("%s", (_, pieces, expected) => {
  const [assessed] = assessedShifts(channelOf(pieces, MINUTE), limits, { shifts: [minutes(60, 180)] });
  expect(assessed?.channels[0]?.findings[0]).toMatchObject(expected);
});
