// Signals of one channel after the other lie in the same memory: no answer may depend on what was assessed before, or meanwhile.
import fc from "fast-check";
import { expect, test } from "vitest";
import { type AssessmentSettings, assessRecording } from "../../../src/core/exposure/index.ts";
import { type Channel, READING, type Recording } from "../../../src/core/recording/index.ts";
import { limitOf, MINUTE } from "../../cases/exposure/written-shift.ts";
import { logged } from "./made-up-channel.ts";

const limits = [
  limitOf({ kind: "twa", value: 20 }),
  limitOf({ kind: "stel", value: 30, minutes: 15 }),
  limitOf({ kind: "ceiling", value: 45 }),
];
const none = (): null => null;

/** Uneven rows with holes, so that their pieces are laid row by row. */
const channels = fc
  .array(
    fc.record({
      level: fc.integer({ min: -2, max: 50 }),
      step: fc.constantFrom(1, 1, 1, 1, 7),
      code: fc.constantFrom(0, 0, 0, 0, 0, READING.none, READING.overRange),
    }),
    {
      minLength: 2,
      maxLength: 120,
    },
  )
  .map((rows): Channel => {
    let at = 0;
    const times = rows.map(({ step }, i) => (at += step * MINUTE + (i % 3) * 100));
    const codes = rows.map(({ code }) => code);
    const isPlain = rows.length % 2 === 0;
    return logged(
      rows.map(({ level }) => level),
      { times: Float64Array.from(times), codes: isPlain ? null : Uint8Array.from(codes) },
    );
  });

const recordingOf = (channel: Channel): Recording => ({
  ...{ file: "a.csv", sha256: "", clock: { kind: "elapsed" }, notes: [], cutOff: false },
  channels: [channel],
});

/** Two shifts, the second of which looks back on the first and on what lies before. */
function settingsFor({ times }: Channel, limitsAsked: AssessmentSettings["limits"]): AssessmentSettings {
  const [from, to] = [times[0] ?? 0, times.at(-1) ?? 0];
  const middle = Math.floor((from + to) / 2);
  return {
    ...{ limits: limitsAsked, regimes: [], largestGapMs: null, unsampled: { kind: "open" }, declarations: [] },
    shifts: [
      { from: from + MINUTE / 2, to: middle },
      { from: middle, to: to + 1 },
    ],
    ...{ deadBand: () => "1", negativeFloor: none, measurableThreshold: none, meansStandForCeilings: false },
  };
}

test("property: what was assessed before, or is assessed meanwhile, changes no answer", () => {
  fc.assert(
    fc.property(channels, channels, (first, second) => {
      const alone = (channel: Channel) =>
        assessRecording(
          recordingOf(channel),
          settingsFor(channel, () => limits),
        );
      const [one, other] = [alone(first), alone(second)];
      expect(alone(first)).toEqual(one);
      let meanwhile: unknown = null;
      const asking = settingsFor(first, () => {
        meanwhile = alone(second);
        return limits;
      });
      expect(assessRecording(recordingOf(first), asking)).toEqual(one);
      if (one.ok) expect(meanwhile).toEqual(other);
    }),
    { numRuns: 150 },
  );
});
