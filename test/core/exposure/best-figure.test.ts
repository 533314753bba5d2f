// The best figure is what was shown. A worst case is a bound, and of readings that claim one moment neither is the better one.
import fc from "fast-check";
import { expect, test } from "vitest";
import type { AssessmentSettings } from "../../../src/core/exposure/index.ts";
import { type Channel, READING } from "../../../src/core/recording/index.ts";
import type { Instant } from "../../../src/core/time/index.ts";
import { assessedShift, assessedShifts, type WrittenLimit } from "../../cases/exposure/written-shift.ts";
import { logged } from "./made-up-channel.ts";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

const LIMITS: readonly WrittenLimit[] = [
  { kind: "twa", value: 50 },
  { kind: "stel", value: 50, minutes: 15 },
  { kind: "immediately-dangerous", value: 50 },
];

const worstCase = (from: number, to: number, levelText: string): AssessmentSettings["declarations"] => [
  {
    ...{ id: "d1", channel: "*", from: from as Instant, to: to as Instant, by: "hygienist", on: "2026-03-04", reason: "known source" }, // milliseconds of the recording's clock
    ...({ kind: "worst case", levelText, holds: "at any moment" } as const),
  },
];

interface Case {
  readonly channel: Channel;
  readonly settings?: Partial<AssessmentSettings>;
  /** Best mean of the sampled time, sum over 8 h and over the worst 15 min in ppm min, greatest level; null = none. */
  readonly mean: number | null;
  readonly dose: number | null;
  /** Where it differs from `dose`: a window can leave a negative reading out. */
  readonly shortDose?: number;
  readonly greatest: number | null;
}

const upTo = (end: number, from = 0): Partial<AssessmentSettings> => ({ shifts: [{ from: from * MINUTE, to: end * MINUTE }] });

const CASES: Readonly<Record<string, Case>> = {
  "one reading an instant": { channel: logged([4, 4, 4]), settings: upTo(2), mean: 4, dose: 8, greatest: 4 },
  "digits finer than a step": {
    channel: logged([4, 4, 4], { uppers: Int32Array.of(4, 5, 4) }),
    ...{ settings: upTo(2), mean: 4, dose: 8, greatest: 4 },
  },
  "two readings of one instant": {
    channel: logged([4, 4, 4], { uppers: Int32Array.of(4, 6, 4) }),
    ...{ settings: upTo(2), mean: null, dose: null, greatest: null },
  },
  "two readings below another that was the greatest": {
    channel: logged([4, 20, 4], { uppers: Int32Array.of(6, 20, 4) }),
    ...{ settings: upTo(2), mean: null, dose: null, greatest: 20 },
  },
  "two readings before the shift of which one stands at its start": {
    channel: logged([4, 4, 4], { times: Float64Array.of(0, 2 * MINUTE, 3 * MINUTE), uppers: Int32Array.of(9, 4, 4) }),
    ...{ settings: upTo(3, 1), mean: null, dose: null, greatest: null },
  },
  "a mean of two claims that closes after the shift": {
    channel: logged([4, 4, 4], { kind: "interval mean", uppers: Int32Array.of(4, 4, 9) }),
    ...{ settings: { ...upTo(1.5), meansStandForCeilings: true }, mean: null, dose: null, greatest: null },
  },
  "two readings of one instant, far from the greatest 15 min": {
    channel: logged([90, 90, ...Array<number>(20).fill(4), 4, 4], { uppers: Int32Array.of(90, 90, ...Array<number>(20).fill(4), 9, 4) }),
    ...{ settings: upTo(23), mean: null, dose: null, shortDose: 2 * 90 + 13 * 4, greatest: 90 },
  },
  "two readings of one instant in windows that could be the greatest": {
    channel: logged([9, 9, ...Array<number>(20).fill(4), 4, 4], { uppers: Int32Array.of(9, 9, ...Array<number>(20).fill(4), 19, 4) }),
    ...{ settings: upTo(23), mean: null, dose: null, greatest: null },
  },
  "a last reading of two claims, which has no length": {
    channel: logged([4, 0, 4], { uppers: Int32Array.of(4, 0, 9) }),
    ...{ settings: upTo(2), mean: 2, dose: 4, greatest: null },
  },
  "two negative readings of one instant": {
    channel: logged([4, -9, 4], { uppers: Int32Array.of(4, -3, 4) }),
    ...{ settings: upTo(2), mean: null, dose: null, shortDose: 4, greatest: 4 },
  },
  "a clock set back between parts that differ": {
    channel: logged([0, 0, 0, 50, 0, 50, 0, 50, 50], {
      times: Float64Array.from([0, 1, 2, 2.5, 3, 3.5, 4, 4.5, 5.5], (at) => at * MINUTE),
      lines: Uint32Array.of(2, 3, 4, 7, 5, 8, 6, 9, 10),
    }),
    ...{ settings: { ...upTo(5.5), largestGapMs: 90_000 }, mean: null, dose: null, greatest: 50 },
  },
  "a clock set back between parts that agree": {
    channel: logged(
      Array.from({ length: 9 }, () => 10),
      {
        times: Float64Array.from([0, 1, 2, 2.5, 3, 3.5, 4, 4.5, 5.5], (at) => at * MINUTE),
        lines: Uint32Array.of(2, 3, 4, 7, 5, 8, 6, 9, 10),
      },
    ),
    ...{ settings: { ...upTo(5.5), largestGapMs: 90_000 }, mean: 10, dose: 55, greatest: 10 },
  },
  "a shown nought with a dead band": {
    channel: logged([4, 0, 4]),
    ...{ settings: { ...upTo(2), deadBand: () => "3" }, mean: 2, dose: 4, greatest: 4 },
  },
  "a negative reading": { channel: logged([4, -2, 4]), settings: upTo(2), mean: 1, dose: 2, shortDose: 4, greatest: 4 },
  "a reading known only as at most": {
    channel: logged([4, 3, 4], { codes: Uint8Array.of(READING.valid, READING.underRange, READING.valid) }),
    ...{ settings: upTo(2), mean: null, dose: null, greatest: 4 },
  },
  "a declared worst case above the readings": {
    channel: logged([4, 4, 4]),
    settings: { ...upTo(10), declarations: worstCase(2 * MINUTE, 10 * MINUTE, "30") },
    ...{ mean: 4, dose: null, greatest: null },
  },
  "a declared worst case below the readings": {
    channel: logged([40, 40, 40]),
    settings: { ...upTo(10), declarations: worstCase(2 * MINUTE, 10 * MINUTE, "30") },
    ...{ mean: 40, dose: null, greatest: 40 },
  },
};

test.each(Object.entries(CASES))("the best figure of %s", (_, { channel, settings = {}, mean, dose, shortDose = dose, greatest }) => {
  const { channel: assessed, found } = assessedShift(channel, LIMITS, { largestGapMs: null, ...settings });
  expect(assessed.mean.best).toBe(mean);
  expect(assessed.twa8h.best).toBe(dose === null ? null : dose / 480);
  expect(found("twa").best).toBe(dose === null ? null : dose / 480);
  expect(assessed.stel.best).toBe(shortDose === null ? null : shortDose / 15);
  expect(found("stel").best).toBe(shortDose === null ? null : shortDose / 15);
  expect(found("immediately-dangerous").best).toBe(greatest);
});

test.each([
  ["worst-8h", "US-OSHA"],
  ["shift-8-to-10h", "US-NIOSH"],
] as const)("the best average over %s of a longer shift is none where a worst case lifts it", (_, regime) => {
  const hours = Array.from({ length: 12 }, () => 10);
  const channel = logged(hours, { times: Float64Array.from(hours, (__, i) => i * HOUR) });
  const shifts = [{ from: 0, to: 12 * HOUR }];
  const declarations = worstCase(11 * HOUR, 12 * HOUR, "90");
  const { found } = assessedShift(channel, [{ kind: "twa", value: 50, regime }], { shifts, declarations });
  const windowHours = regime === "US-OSHA" ? 8 : 10;
  expect(found("twa")).toMatchObject({
    low: 10,
    best: null,
    high: (10 * (windowHours - 1) + 90) / windowHours,
  });
});

test.each([
  ["digits finer than a step", [0, 1, 0, 0, 0], 10 / 8],
  ["readings that conflict in the shift before", [0, 5, 0, 0, 0], null],
  ["readings that conflict in the shift itself", [0, 0, 0, 0, 5], null],
])("the best average of any 24 h with %s", (_, wider, best) => {
  const levels = [2, 2, 0, 3, 3];
  const channel = logged(levels, {
    times: Float64Array.of(0, HOUR, 2 * HOUR, 10 * HOUR, 11 * HOUR),
    uppers: Int32Array.from(levels, (level, i) => level + (wider[i] ?? 0)),
  });
  const shifts = [
    { from: 0, to: 2 * HOUR },
    { from: 10 * HOUR, to: 12 * HOUR },
  ];
  const held = [...channel.times, 12 * HOUR];
  const whole = {
    ...channel,
    times: Float64Array.from(held),
    values: Int32Array.from([...levels, 0]),
    uppers: Int32Array.from([...(channel.uppers ?? []), 0]),
  };
  const assessed = assessedShifts(whole, [{ kind: "twa", value: 50, regime: "GB-WEL" }], { shifts });
  expect(assessed[1]?.channels[0]?.findings[0]?.best).toBe(best);
});

test("property: the greatest 15 min keep their best figure where no claim in doubt makes other ones greater", () => {
  const claims = fc.record({ level: fc.integer({ min: 0, max: 40 }), wider: fc.constantFrom(...Array<number>(12).fill(0), 1, 7, 30) });
  fc.assert(
    fc.property(fc.array(claims, { minLength: 20, maxLength: 60 }), (minutes) => {
      const channel = logged([...minutes.map(({ level }) => level), 0], {
        uppers: Int32Array.from([...minutes.map(({ level, wider }) => level + wider), 0]),
      });
      const greatest = (of: (claim: { level: number; wider: number }) => number): number =>
        Math.max(...minutes.map((_, end) => minutes.slice(Math.max(0, end - 14), end + 1).reduce((sum, claim) => sum + of(claim), 0)));
      const word = greatest(({ level }) => level);
      const isMoved = greatest(({ level, wider }) => (wider > 1 ? level + wider : level)) > word;
      const isDecided = greatest(({ level, wider }) => level + wider) === word;
      const { channel: assessed } = assessedShift(channel, LIMITS, { ...upTo(minutes.length), largestGapMs: null });
      expect(assessed.stel.best).toBe(isMoved && !isDecided ? null : word / 15);
    }),
    { numRuns: 300 },
  );
});

const reading = fc.record({
  level: fc.integer({ min: -3, max: 40 }),
  wider: fc.constantFrom(0, 0, 0, 1, 7),
  code: fc.constantFrom(0, 0, 0, 1, 2, 3),
});

test("the best figure lies between both ends, and is there wherever they are one", () => {
  fc.assert(
    fc.property(
      fc.array(reading, { minLength: 2, maxLength: 40 }),
      fc.constantFrom<AssessmentSettings["unsampled"]>({ kind: "open" }, { kind: "zero" }, { kind: "level", text: "25" }),
      fc.constantFrom("spot", "interval mean", "interval peak"),
      (readings, unsampled, kind) => {
        const channel = logged(
          readings.map(({ level }) => level),
          {
            kind: kind as Channel["kind"], // one of the three
            uppers: Int32Array.from(readings, ({ level, wider }) => level + wider),
            codes: Uint8Array.from(readings, ({ code }) => code),
          },
        );
        const shifts = [{ from: 0, to: readings.length * MINUTE }];
        const { channel: assessed } = assessedShift(channel, LIMITS, { shifts, unsampled, largestGapMs: null });
        for (const { low, best, high } of [assessed.mean, assessed.twa8h, assessed.stel, ...assessed.findings]) {
          if (best !== null) expect(best).toBeGreaterThanOrEqual(low);
          if (best !== null && high !== null) expect(best).toBeLessThanOrEqual(high);
          if (low === high && assessed.sampledSeconds > 0) expect(best).toBe(low);
        }
      },
    ),
    { numRuns: 400 },
  );
});
