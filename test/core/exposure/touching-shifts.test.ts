// "At any time" knows no end of a shift: a window that ends in one shift may have begun in the one before.
import fc from "fast-check";
import { expect, test } from "vitest";
import { assessedShifts, channelOf, HOUR, MINUTE, type WrittenPiece } from "../../cases/exposure/written-shift.ts";

const limits = [{ kind: "stel", value: 100, minutes: 15, regime: "GB-WEL" }] as const;
const two = (change: number, end: number, second = change) => [
  { from: 0, to: change * MINUTE },
  { from: second * MINUTE, to: end * MINUTE },
];

test("16 min at 150 ppm across a change of shift exceed 100 in the shift in which the window ends", () => {
  const pieces: WrittenPiece[] = [
    [0, 232, 1],
    [232, 248, 150],
    [248, 480, 1],
  ];
  const assessed = assessedShifts(channelOf(pieces, MINUTE), limits, { shifts: two(240, 480) });
  const [first, second] = assessed.map(({ channels }) => channels[0]?.findings[0]);
  expect(first).toMatchObject({ outcome: "within", low: (8 * 150 + 7) / 15 });
  expect(second).toMatchObject({ outcome: "exceeds", low: 150, high: 150, best: 150, coverage: 1 });
  expect(second?.window).toEqual({ from: 232 * MINUTE, to: 247 * MINUTE });
  expect(assessed[1]?.channels[0]?.episodes.length).toBe(1);
});

test("time between shifts is without exposure, and an earlier gap that no window reaches opens nothing", () => {
  const pieces: WrittenPiece[] = [
    [0, 10, 1],
    [10, 20, "gap"],
    [20, 230, 1],
    [230, 240, 90],
    [250, 300, 1],
  ];
  const assessed = assessedShifts(channelOf(pieces, MINUTE), limits, { shifts: two(240, 300, 250) });
  const [first, second] = assessed.map(({ channels }) => channels[0]?.findings[0]);
  expect(first?.high).toBeNull();
  expect(second).toMatchObject({ outcome: "within", low: (5 * 90 + 0) / 15 - 0, high: 30 });
});

test("an open stretch just before a shift leaves its first windows open", () => {
  const pieces: WrittenPiece[] = [
    [0, 230, 1],
    [230, 240, "gap"],
    [240, 300, 1],
  ];
  const [, second] = assessedShifts(channelOf(pieces, MINUTE), limits, { shifts: two(240, 300) });
  expect(second?.channels[0]?.findings[0]).toMatchObject({ outcome: "undetermined", high: null });
});

test("shifts that touch answer together what one shift answers", () => {
  const levels = fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 40, maxLength: 90 });
  fc.assert(
    fc.property(levels, fc.integer({ min: 5, max: 35 }), (written, change) => {
      const pieces = written.map((level, i): WrittenPiece => [i, i + 1, level]);
      const channel = channelOf(pieces, MINUTE);
      const greatest = (shifts: { from: number; to: number }[]) =>
        Math.max(...assessedShifts(channel, limits, { shifts }).map(({ channels }) => channels[0]?.stel.low ?? 0));
      expect(greatest(two(change, written.length))).toBe(greatest([{ from: 0, to: written.length * MINUTE }]));
      expect(greatest(two(change, written.length))).toBeLessThanOrEqual(300);
    }),
    { numRuns: 200 },
  );
});

test("a shift of hours ago is not reached", () => {
  const pieces: WrittenPiece[] = [
    [0, 1, 300],
    [9, 10, 1],
  ];
  const [, second] = assessedShifts(channelOf(pieces, HOUR), limits, {
    shifts: [
      { from: 0, to: HOUR },
      { from: 9 * HOUR, to: 10 * HOUR },
    ],
  });
  expect(second?.channels[0]?.stel.low).toBe(1);
});
