// Greatest and least reading, by definition: whatever is known beforehand of valid ones changes nothing.
import fc from "fast-check";
import { expect, test } from "vitest";
import { readingExtremes } from "../../../src/core/exposure/index.ts";
import { type Channel, PLAIN_SETTINGS, READING, signalOf } from "../../../src/core/recording/index.ts";
import { MINUTE } from "../../cases/exposure/written-shift.ts";
import { logged } from "./made-up-channel.ts";

const codes = [0, 0, 0, 0, 0, READING.overRange, READING.underRange, READING.none, READING.fault, READING.overRangeUnbounded];
const channels = fc
  .record({
    rows: fc.array(fc.record({ level: fc.integer({ min: -9, max: 12 }), code: fc.constantFrom(...codes) }), {
      minLength: 1,
      maxLength: 80,
    }),
    isCoded: fc.boolean(),
    rangeTop: fc.constantFrom(null, 10),
  })
  .map(({ rows, isCoded, rangeTop }) =>
    logged(
      rows.map(({ level }) => level),
      { rangeTop, codes: isCoded ? Uint8Array.from(rows, ({ code }) => code) : null },
    ),
  );

function byDefinition({ values, codes: of, times }: Channel, first: number, past: number) {
  const rows = [...values.keys()].filter((row) => row >= first && row < past);
  const code = (row: number): number => of?.[row] ?? READING.valid;
  const readings = rows.filter((row) => code(row) !== READING.none && code(row) !== READING.fault);
  const bounded = readings.filter((row) => code(row) !== READING.overRangeUnbounded);
  const extreme = (among: readonly number[], pick: (...steps: number[]) => number): number | undefined => {
    const steps = pick(...among.map((row) => values[row] ?? 0));
    return among.find((row) => values[row] === steps);
  };
  const greatest = extreme(
    bounded.filter((row) => code(row) !== READING.underRange),
    Math.max,
  );
  const least = extreme(bounded, Math.min);
  const unbounded = readings.find((row) => code(row) === READING.overRangeUnbounded);
  const at = (row: number) => ({ steps: values[row], at: times[row] });
  return {
    rows: rows.length,
    readings: readings.length,
    overRangeAt: unbounded === undefined ? null : times[unbounded],
    greatest: greatest === undefined ? null : { ...at(greatest), atLeast: code(greatest) === READING.overRange },
    least: least === undefined ? null : { ...at(least), atMost: code(least) === READING.underRange },
  };
}

test("property: as by definition, over all rows and over some", () => {
  fc.assert(
    fc.property(channels, fc.nat(90), fc.nat(90), fc.constantFrom(null, "4"), (channel, one, other, negativeFloor) => {
      const made = signalOf(channel, { ...PLAIN_SETTINGS, negativeFloor }, [], null);
      if (!made.ok) throw new Error(made.refusal.type);
      const last = (channel.times.length - 1) * MINUTE;
      const whole = byDefinition(channel, 0, channel.times.length);
      expect(readingExtremes(channel, 0, last, made.value.shown)).toMatchObject(whole);
      expect(readingExtremes(channel, 0, last)).toMatchObject(whole);
      const [first, past] = [Math.min(one, other), Math.max(one, other)];
      const part = readingExtremes(channel, first * MINUTE, (past - 1) * MINUTE, made.value.shown);
      if (first < past) expect(part).toMatchObject(byDefinition(channel, first, past));
    }),
    { numRuns: 1000 },
  );
});
