// What holds for every recording: ends in order, outcomes that follow from them, causes that are named, statements that
// only ever narrow, and nothing that depends on where the clock stands or how finely equal readings were logged.
import fc from "fast-check";
import { expect, test } from "vitest";
import { type AssessmentSettings, assessRecording, type ChannelAssessment, type ShiftSpan } from "../../../src/core/exposure/index.ts";
import type { Finding, Range } from "../../../src/core/finding.ts";
import { outcomeOf } from "../../../src/core/outcome.ts";
import { type Channel, type Declaration, READING } from "../../../src/core/recording/index.ts";
import { limitOf, type WrittenLimit } from "../../cases/exposure/written-shift.ts";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const RUNS = { numRuns: 400 };

const written: readonly WrittenLimit[] = [
  { kind: "twa", value: 11 },
  { kind: "twa", value: 9, regime: "GB-WEL" },
  { kind: "twa", value: 10, regime: "US-NIOSH" },
  { kind: "stel", value: 25.5, minutes: 15 },
  { kind: "ceiling", value: 30, minutes: 10 },
  { kind: "ceiling", value: 40, regime: "US-NIOSH" },
  { kind: "any-shorter-period", value: 35, minutes: 15 },
  { kind: "immediately-dangerous", value: 45, operator: ">=" },
  {
    kind: "three-level",
    value: 12,
    threeLevel: { ceiling: 20, peak: 50, unit: "ppm", longestMinutes: 30, withinMinutes: 180, onceOnly: false },
  },
  {
    kind: "three-level",
    value: null,
    regime: "GB-WEL",
    threeLevel: { ceiling: 20, peak: 50, unit: "ppm", longestMinutes: 10, withinMinutes: null, onceOnly: true },
  },
];
const limits = written.map(limitOf);

const row = fc.record({
  afterMinutes: fc.oneof({ weight: 8, arbitrary: fc.constantFrom(1, 5, 10) }, { weight: 1, arbitrary: fc.integer({ min: 20, max: 120 }) }),
  level: fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 0, max: 15 }) }, { weight: 2, arbitrary: fc.integer({ min: -3, max: 60 }) }),
  width: fc.constantFrom(0, 0, 0, 0, 0, 1, 6),
  code: fc.constantFrom(
    ...Array.from({ length: 14 }, () => READING.valid),
    READING.none,
    READING.overRange,
    READING.underRange,
    READING.fault,
  ),
});

const channels = fc
  .record({
    rows: fc.array(row, { minLength: 1, maxLength: 60 }),
    kind: fc.constantFrom<Channel["kind"]>("spot", "spot", "interval mean", "interval peak"),
    plain: fc.boolean(),
    top: fc.constantFrom(null, null, 55),
  })
  .map(({ rows, kind, plain, top }): Channel => {
    let at = 0;
    const times = rows.map(({ afterMinutes }) => {
      at += afterMinutes * MINUTE;
      return at;
    });
    return {
      name: "C",
      series: null,
      gas: "carbon_monoxide" as Channel["gas"], // an id of the table
      unit: "ppm",
      kind,
      decimals: 0,
      times: Float64Array.from(times),
      values: Int32Array.from(rows, ({ level }) => level),
      uppers: plain ? null : Int32Array.from(rows, ({ level, width }) => level + width),
      codes: plain ? null : Uint8Array.from(rows, ({ code }) => code),
      lines: null,
      rangeTop: top,
    };
  });

const none = (): null => null;

function assessedAll(channel: Channel, more: Partial<AssessmentSettings>): readonly ChannelAssessment[] {
  const recording = { file: "a", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
  const assessed = assessRecording(recording, {
    ...{ limits: () => limits, regimes: [], largestGapMs: 15 * MINUTE, shifts: [], unsampled: { kind: "open" }, declarations: [] },
    ...{ deadBand: none, negativeFloor: none, measurableThreshold: () => "1", meansStandForCeilings: false },
    ...more,
  });
  if (!assessed.ok) throw new Error(JSON.stringify(assessed.refusal));
  return assessed.value.flatMap((shift) => shift.channels);
}

function assessed(channel: Channel, more: Partial<AssessmentSettings>): ChannelAssessment {
  const [only] = assessedAll(channel, more);
  if (only === undefined) throw new Error("no channel was assessed");
  return only;
}

/** Minutes before the first row and after the last one; below nought within. Null: no shift is declared. */
type Margins = readonly [before: number, after: number] | null;

const margins: fc.Arbitrary<Margins> = fc.option(fc.tuple(fc.constantFrom(0, 0, 7, 90, -3), fc.constantFrom(0, 0, 7, 90, 700, -4)), {
  freq: 3,
});

function shiftsFor({ times }: Channel, around: Margins): readonly ShiftSpan[] {
  if (around === null) return [];
  const [before, after] = around;
  const shift = { from: (times[0] ?? 0) - before * MINUTE, to: (times.at(-1) ?? 0) + after * MINUTE };
  return shift.to > shift.from && times.some((time) => time >= shift.from && time <= shift.to) ? [shift] : [];
}

/** On a clock that counts from its own start an instant is a number of milliseconds. */
const instant = (ms: number) => ms as NonNullable<Declaration["from"]>;

const by = { channel: "*", by: "hygienist", on: "2026-03-04", reason: "asked at the place" } as const;

const statements = fc
  .record({
    from: fc.integer({ min: -100, max: 600 }),
    length: fc.integer({ min: 1, max: 400 }),
    what: fc.constantFrom(
      { kind: "unexposed" } as const,
      { kind: "like the sampled time" } as const,
      { kind: "worst case", levelText: "18", holds: "at any moment" } as const,
      { kind: "worst case", levelText: "18", holds: "as an average" } as const,
      { kind: "over-range bound", levelText: "70", holds: "at any moment" } as const,
      { kind: "over-range bound", levelText: "70", holds: "as an average" } as const,
    ),
  })
  .map(
    ({ from, length, what }): Declaration => ({
      id: `${what.kind} ${from}`,
      ...by,
      from: instant(from * MINUTE),
      to: instant((from + length) * MINUTE),
      ...what,
    }),
  );

const unsampledKinds = fc.constantFrom<AssessmentSettings["unsampled"]>(
  { kind: "open" },
  { kind: "open" },
  { kind: "zero" },
  { kind: "like" },
  { kind: "level", text: "17" },
);

interface Case {
  readonly channel: Channel;
  readonly around: Margins;
  readonly unsampled: AssessmentSettings["unsampled"];
  readonly declarations: readonly Declaration[];
  readonly meansStandForCeilings: boolean;
}

const cases: fc.Arbitrary<Case> = fc.record({
  channel: channels,
  around: margins,
  unsampled: unsampledKinds,
  declarations: fc.array(statements, { maxLength: 3 }),
  meansStandForCeilings: fc.boolean(),
});

const settingsOf = ({ channel, around, unsampled, declarations, meansStandForCeilings }: Case): Partial<AssessmentSettings> => ({
  ...{ unsampled, declarations, meansStandForCeilings },
  shifts: shiftsFor(channel, around),
});

function expectInOrder({ low, best, high }: Range, what: string): void {
  const slack = 1e-9 * (1 + Math.abs(low));
  if (high !== null) expect(high + slack, `${what}: high`).toBeGreaterThanOrEqual(low);
  if (best === null) return;
  expect(best + slack, `${what}: best above low`).toBeGreaterThanOrEqual(low);
  expect(high, `${what}: a best figure has an upper end`).not.toBeNull();
  expect(best - slack, `${what}: best below high`).toBeLessThanOrEqual(high ?? Number.NaN);
}

const whatOf = ({ limit }: Finding): string => `${limit.regime} ${limit.kind}`;

test("ends stand in order, for the channel, for every finding and for every part", () => {
  fc.assert(
    fc.property(cases, (one) => {
      const channel = assessed(one.channel, settingsOf(one));
      expectInOrder(channel.mean, "mean");
      expectInOrder(channel.twa8h, "8-hour average");
      expectInOrder(channel.stel, "15-min mean");
      for (const finding of channel.findings) {
        expectInOrder(finding, whatOf(finding));
        for (const part of finding.parts) expectInOrder(part, `${whatOf(finding)}, ${part.name}`);
        expect(finding.coverage).toBeGreaterThanOrEqual(0);
        expect(finding.coverage).toBeLessThanOrEqual(1);
      }
    }),
    RUNS,
  );
});

test("outcomes are those of the ends shown, and worse ones stand first", () => {
  const severity = { exceeds: 0, undetermined: 1, within: 2 };
  fc.assert(
    fc.property(cases, (one) => {
      const { findings } = assessed(one.channel, settingsOf(one));
      for (const finding of findings) {
        const { limit, outcome } = finding;
        if (limit.published === null || limit.threeLevel !== null) continue;
        const level = limit.published.value;
        // Ends are compared as whole numbers, shown as doubles: at the limit itself only the former decide.
        if ([finding.low, finding.high].some((end) => end !== null && Math.abs(end - level) < 1e-9)) continue;
        expect(outcome, whatOf(finding)).toBe(outcomeOf(finding, level, limit.operator));
      }
      const order = findings.map(({ outcome }) => severity[outcome]);
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }),
    RUNS,
  );
});

test("what is undetermined says why, and names open time as open time", () => {
  fc.assert(
    fc.property(cases, (one) => {
      for (const finding of assessed(one.channel, settingsOf(one)).findings) {
        const types = finding.undecidedBy.map(({ type }) => type);
        expect(types.length > 0, `${whatOf(finding)}: ${types.join()}`).toBe(finding.outcome === "undetermined");
        if (finding.outcome === "exceeds") expect(finding.wStar).toBeNull();
        // How often an interval of readings was measurable has no upper end, although nothing went unmeasured.
        const ends = [finding, ...finding.parts.filter(({ name }) => name !== "once only")];
        if (finding.outcome !== "undetermined" || !ends.some(({ high }) => high === null)) continue;
        expect(types, `${whatOf(finding)} is open`).not.toContain("sensor-or-conflict");
      }
    }),
    RUNS,
  );
});

test("W*: unsampled time at or below it decides for the limit, above it no longer does", () => {
  fc.assert(
    fc.property(
      channels,
      margins,
      fc.constantFrom<AssessmentSettings["unsampled"]>({ kind: "open" }, { kind: "level", text: "44" }),
      (channel, around, unsampled) => {
        const shifts = shiftsFor(channel, around);
        for (const finding of assessed(channel, { shifts, unsampled }).findings) {
          const [cause, ...others] = finding.undecidedBy;
          if (cause?.type !== "unsampled-time" || cause.wStar === null || others.length > 0) continue;
          expect(finding.wStar).toBe(cause.wStar);
          // Levels are whole steps of the channel.
          const said = (level: number) =>
            assessed(channel, { shifts, unsampled: { kind: "level", text: String(level) } }).findings.find(
              ({ limit }) => limit === finding.limit,
            )?.outcome;
          const at = Math.floor(cause.wStar + 1e-9);
          expect(said(at), `${whatOf(finding)} at ${cause.wStar}`).toBe("within");
          expect(said(at + 1), `${whatOf(finding)} above ${cause.wStar}`).not.toBe("within");
        }
      },
    ),
    RUNS,
  );
});

test("a statement about unmeasured time never turns a firm outcome, and never raises an upper end", () => {
  fc.assert(
    fc.property(cases, statements, (one, statement) => {
      if (statement.kind === "like the sampled time") return; // the lower end of an average rises to the sampled mean
      const before = assessed(one.channel, settingsOf({ ...one, declarations: [], unsampled: { kind: "open" } }));
      const after = assessed(one.channel, settingsOf({ ...one, declarations: [statement], unsampled: { kind: "open" } }));
      for (const finding of before.findings) {
        const then = after.findings.find(({ limit }) => limit === finding.limit);
        if (finding.outcome !== "undetermined") expect(then?.outcome, whatOf(finding)).toBe(finding.outcome);
        expect(then?.low, whatOf(finding)).toBe(finding.low);
        if (finding.high !== null) expect(then?.high, whatOf(finding)).toBeLessThanOrEqual(finding.high);
      }
    }),
    RUNS,
  );
});

test("unexposed allows no more than a level, a level no more than nothing said", () => {
  const ends = (range: Range | undefined): number => range?.high ?? Number.POSITIVE_INFINITY;
  fc.assert(
    fc.property(channels, margins, (channel, around) => {
      const shifts = shiftsFor(channel, around);
      const kinds = [{ kind: "zero" }, { kind: "level", text: "5" }, { kind: "level", text: "44" }, { kind: "open" }] as const;
      const answers = kinds.map((unsampled) => {
        const { twa8h, stel, mean, findings } = assessed(channel, { shifts, unsampled });
        return [twa8h, stel, mean, ...limits.flatMap((limit) => findings.filter((finding) => finding.limit === limit))];
      });
      for (let i = 1; i < answers.length; i += 1) {
        answers[i - 1]?.forEach((less, which) => {
          const more = answers[i]?.[which];
          expect(less.low).toBe(more?.low);
          expect(ends(less), `figure ${which}`).toBeLessThanOrEqual(ends(more) + 1e-9);
        });
      }
    }),
    RUNS,
  );
});

const TIMES = new Set(["from", "to", "at", "start", "end", "windowStart", "windowEnd", "peakAt"]);

/** Everything that is a time, moved; ends of episodes lie between milliseconds. */
function moved(channel: ChannelAssessment, later: number): unknown {
  const text = JSON.stringify(channel, (key, value) => (TIMES.has(key) && typeof value === "number" ? Math.round(value + later) : value));
  return JSON.parse(text);
}

test("moving the clock moves the answer and changes nothing else", () => {
  fc.assert(
    fc.property(cases, fc.integer({ min: -1e6, max: 1e6 }), (one, later) => {
      const { channel, declarations } = one;
      const settings = settingsOf(one);
      const shift = ({ from, to }: ShiftSpan) => ({ from: from + later, to: to + later });
      const after = assessed(
        { ...channel, times: channel.times.map((time) => time + later) },
        {
          ...settings,
          shifts: settings.shifts?.map(shift) ?? [],
          declarations: declarations.map((said) => ({
            ...said,
            from: instant((said.from ?? 0) + later),
            to: instant((said.to ?? 0) + later),
          })),
        },
      );
      expect(moved(after, 0)).toEqual(moved(assessed(channel, settings), later));
    }),
    RUNS,
  );
});

const figuresOf = ({ mean, twa8h, stel, peak, findings, episodes }: ChannelAssessment): unknown => ({
  mean,
  twa8h,
  stel: [stel.low, stel.best, stel.high],
  peak: peak?.value,
  findings: findings.map(({ id, low, best, high, outcome, wStar, parts }) => ({ id, low, best, high, outcome, wStar, parts })),
  // Their ends lie between milliseconds.
  episodes: episodes.map((episode) => ({ ...episode, from: Math.round(episode.from), to: Math.round(episode.to) })),
});

test("logging the same level twice as often changes no figure", () => {
  fc.assert(
    fc.property(cases, (one) => {
      const plain = { ...one.channel, kind: "spot", uppers: null, codes: null } as const;
      // A gap begins the largest gap after the last reading before it, which must not move.
      const rows = [...plain.times].flatMap((time, i): (readonly [time: number, level: number])[] => {
        const [level, next] = [plain.values[i] ?? 0, plain.times[i + 1]];
        return next === undefined || next - time > 15 * MINUTE
          ? [[time, level]]
          : [
              [time, level],
              [time + MINUTE / 2, level],
            ];
      });
      const finer = { ...plain, times: Float64Array.from(rows, ([time]) => time), values: Int32Array.from(rows, ([, level]) => level) };
      const settings = settingsOf(one);
      expect(figuresOf(assessed(finer, settings))).toEqual(figuresOf(assessed(plain, settings)));
    }),
    RUNS,
  );
});

test("two shifts more than a day apart are answered as each alone, in order of time", () => {
  fc.assert(
    fc.property(channels, channels, unsampledKinds, (first, second, unsampled) => {
      const late = second.times.map((time) => time + 60 * HOUR);
      const both = {
        ...first,
        ...{ rangeTop: null, uppers: null, codes: null },
        times: Float64Array.from([...first.times, ...late]),
        values: Int32Array.from([...first.values, ...second.values]),
      };
      const shifts = [...shiftsFor(first, [5, 5]), ...shiftsFor({ ...second, times: late }, [5, 5])];
      // Alone, the rows of the other shift stand outside of any.
      const inside = (all: readonly ChannelAssessment[]): unknown =>
        JSON.parse(JSON.stringify(all), (_, value) =>
          Array.isArray(value) ? value.filter((one: unknown) => (one as { type?: string } | null)?.type !== "outside-shift") : value,
        );
      const together = assessedAll(both, { shifts: [...shifts].reverse(), unsampled });
      expect(inside(together)).toEqual(inside(shifts.flatMap((shift) => assessedAll(both, { shifts: [shift], unsampled }))));
    }),
    { numRuns: 100 },
  );
});
