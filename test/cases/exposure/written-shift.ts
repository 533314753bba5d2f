/** Shifts as published examples write them: pieces of time with a level or a status, assessed by the real engine. */
import {
  type AssessmentSettings,
  assessRecording,
  type ChannelAssessment,
  type ShiftAssessment,
} from "../../../src/core/exposure/index.ts";
import type { Finding } from "../../../src/core/finding.ts";
import type { GasId, Limit, LimitKind, RegimeId, ThreeLevel } from "../../../src/core/gas/index.ts";
import type { LimitOperator } from "../../../src/core/outcome.ts";
import { type Channel, READING } from "../../../src/core/recording/index.ts";

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;

/** From, to, and a level, "gap", or "over 500". */
export type WrittenPiece = readonly [from: number, to: number, level: number | string];

const decimalsOf = (value: number): number => (/\.(\d+)$/.exec(String(value))?.[1] ?? "").length;

/** A spot log with one row where each piece begins; time between pieces is without readings. */
export function channelOf(pieces: readonly WrittenPiece[], unitMs: number, more: Partial<Channel> = {}): Channel {
  const rows: [at: number, level: number | string][] = [];
  let end = Number.NaN;
  for (const [from, to, level] of pieces) {
    if (!Number.isNaN(end) && end < from) rows.push([end, "gap"]);
    rows.push([from, level]);
    end = to;
  }
  // The last of spot readings has no length: a nought at the end closes the last piece and adds nothing.
  rows.push([end, 0]);
  const numbers = rows.map(([, level]) => Number(String(level).replace("over ", "")));
  const decimals = Math.max(...numbers.map((value) => (Number.isNaN(value) ? 0 : decimalsOf(value))));
  const steps = (value: number): number => (Number.isNaN(value) ? 0 : Math.round(value * 10 ** decimals));
  return {
    name: "C",
    series: null,
    gas: "carbon_monoxide" as GasId, // an id of the table
    unit: "ppm",
    kind: "spot",
    decimals,
    times: Float64Array.from(rows, ([at]) => at * unitMs),
    values: Int32Array.from(numbers, steps),
    uppers: null,
    codes: Uint8Array.from(rows, ([, level]) =>
      level === "gap" ? READING.none : String(level).startsWith("over") ? READING.overRange : READING.valid,
    ),
    lines: null,
    rangeTop: null,
    ...more,
  };
}

export interface WrittenLimit {
  readonly kind: LimitKind;
  readonly value: number | null;
  readonly regime?: RegimeId;
  readonly minutes?: number | null;
  readonly operator?: LimitOperator;
  readonly threeLevel?: ThreeLevel;
}

export const limitOf = ({ kind, value, regime = "US-OSHA", minutes = null, operator = ">", threeLevel }: WrittenLimit): Limit => ({
  id: `${regime}/carbon_monoxide/${kind}`,
  gas: "carbon_monoxide" as GasId, // an id of the table
  regime,
  kind,
  published: value === null ? null : { value, unit: "ppm" },
  alsoPublished: null,
  operator,
  averagingMinutes: kind === "twa" ? 480 : minutes,
  threeLevel: threeLevel ?? null,
  notes: [],
  skin: false,
  carcinogen: false,
  validFrom: null,
  validUntil: null,
  edition: "as the example states it",
  sources: [],
  mark: "read",
});

const nothing = (): null => null;

/** Every shift of one channel; largest gap without an end, so that a piece lasts as long as it is written. */
export function assessedShifts(
  channel: Channel,
  limits: readonly WrittenLimit[],
  settings: Partial<AssessmentSettings> = {},
): readonly ShiftAssessment[] {
  const recording = { file: "example", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
  const made = limits.map(limitOf);
  const assessed = assessRecording(recording, {
    limits: () => made,
    regimes: [],
    largestGapMs: 1e12,
    shifts: [],
    unsampled: { kind: "open" },
    declarations: [],
    deadBand: nothing,
    negativeFloor: nothing,
    measurableThreshold: nothing,
    meansStandForCeilings: false,
    ...settings,
  });
  if (!assessed.ok) throw new Error(JSON.stringify(assessed.refusal));
  return assessed.value;
}

export interface AssessedShift {
  readonly channel: ChannelAssessment;
  /** The finding of a kind of limit. */
  readonly found: (kind: LimitKind) => Finding;
}

/** One shift of one channel. */
export function assessedShift(
  channel: Channel,
  limits: readonly WrittenLimit[],
  settings: Partial<AssessmentSettings> = {},
): AssessedShift {
  const assessed = assessedShifts(channel, limits, settings)[0]?.channels[0];
  if (assessed === undefined) throw new Error("no channel was assessed");
  const found = (kind: LimitKind): Finding => {
    const finding = assessed.findings.find(({ limit }) => limit.kind === kind);
    if (finding === undefined) throw new Error(`no finding of the kind ${kind}`);
    return finding;
  };
  return { channel: assessed, found };
}
