/** Averages by hand: the 8-hour average, the short-term window. */
import {
  averageBounds,
  decidingLevel,
  levelSum,
  limitDigits,
  outcomeOfBounds,
  periodOf,
  rangeOf,
  type ShiftRule,
  windowBounds,
} from "../../core/exposure/index.ts";
import type { Range } from "../../core/finding.ts";
import type { LimitOperator, Outcome } from "../../core/outcome.ts";
import { given, type Result } from "../../core/result.ts";
import { durationText, exactText, findingFigures, permittedText, type Refusal, shiftRuleName, withUnit } from "../../report/index.ts";
import {
  type Calculator,
  choiceField,
  type Field,
  numberField,
  type OutputField,
  output,
  type SlateComputed,
  type SlateObject,
} from "./description.ts";
import { type HandSignal, handSignal, numberOrNull, PIECES, rowsOf } from "./pieces.ts";

const LIMIT_FIELDS: readonly Field[] = [
  { ...numberField("limit", "Limit", "Left out: only the average is given.", { above: 0 }), required: false },
  choiceField(
    "operator",
    "The limit is broken",
    "At exactly the limit most rules are still met.",
    [
      [">", "above the limit"],
      [">=", "at or above the limit"],
    ],
    ">",
  ),
  choiceField(
    "unit",
    "Unit",
    "The unit of levels and limit alike.",
    [
      ["ppm", "ppm"],
      ["mg/m3", "mg/m³"],
      ["ug/m3", "µg/m³"],
      ["ppb", "ppb"],
      ["vol%", "vol %"],
      ["%LEL", "%LEL"],
    ],
    "ppm",
  ),
];

const RANGE_OUTPUTS: readonly OutputField[] = [
  output("low", "Lowest that it can have been"),
  output("best", "Best figure"),
  output("high", "Highest that it can have been"),
  output("outcome", "Outcome", null, "outcome"),
  output("wStar", "At which mean of the unsampled time, or level at every moment where a window slides, the limit is reached"),
];

export const TWA_CALCULATOR: Calculator = {
  id: "twa",
  title: "8-hour average by hand",
  says: "The time-weighted average of measured pieces over the reference period, with what unsampled time does to it.",
  inputs: [
    PIECES,
    numberField(
      "unsampledMinutes",
      "Unsampled minutes",
      "Time of the shift without a measurement; left blank: the rest of 8 h. 0 says that the rest was without exposure.",
      {
        least: 0,
        most: 1440,
        unit: "min",
        required: false,
      },
    ),
    {
      ...numberField(
        "worstCase",
        "Worst case",
        "What the unsampled time can have been at any moment, by a named person's statement; left out = open.",
        { least: 0 },
      ),
      required: false,
    },
    choiceField(
      "rule",
      "What is averaged",
      "By the rule of the regime.",
      [
        ["any-24h-over-8h", "any 24 h over 8 h (UK, EU)"],
        ["worst-8h", "the shift over 8 h, of a longer one the worst 8 h (OSHA)"],
        ["shift-8-to-10h", "over the shift, 8 h to 10 h (NIOSH)"],
      ],
      "any-24h-over-8h",
    ),
    ...LIMIT_FIELDS,
  ],
  outputs: RANGE_OUTPUTS,
  examples: [
    {
      says: "the printed example of 29 CFR 1910.1000(d)(1)(ii): 81.25 ppm",
      input: {
        pieces: [
          { minutes: 120, level: 150 },
          { minutes: 120, level: 75 },
          { minutes: 240, level: 50 },
        ],
        limit: 100,
      },
    },
    {
      says: "90 minutes unsampled, at most 120 ppm: undetermined, W* 93.3 ppm",
      input: { pieces: [{ minutes: 390, level: 40 }], unsampledMinutes: 90, worstCase: 120, limit: 50 },
    },
  ],
  cautions: [
    "The divisor is the reference period, never the sampled time.",
    "Unsampled time is not nought: unless a person says what it can have been, the upper end stays open.",
  ],
  sources: [
    { title: "29 CFR 1910.1000(d)(1)(i)", mark: "read" },
    { title: "HSE EH40/2005, reference periods, as reprinted in South Africa, HCS Regulations 1995, Annexure 2", mark: "read" },
  ],
  compute: eightHours,
};

function eightHours(input: SlateObject): Result<SlateComputed, Refusal> {
  const pieces = rowsOf(input["pieces"]);
  const hand = handSignal(pieces, {
    unsampledMinutes: numberOrNull(input["unsampledMinutes"]) ?? restOfEightHours(pieces),
    worst: numberOrNull(input["worstCase"]),
    outside: "unexposed",
  });
  if (!hand.ok) return hand;
  const { signal, totalMs } = hand.value;
  const bounds = averageBounds(periodOf(signal, { from: 0, to: totalMs }, { kind: "open" }), input["rule"] as ShiftRule, []); // the choices are shift rules
  const limit = numberOrNull(input["limit"]);
  const steps = limit === null ? null : bounds.breakEven(limitDigits(limit));
  const answer = {
    holds: bounds.isSliding ? ("was at no moment above" as const) : ("averaged no more than" as const),
    range: rangeOf(bounds, 1),
    outcome: limit === null ? null : outcomeAgainst(bounds, limit, input),
    wStar: steps === null ? null : steps / 10 ** signal.decimals,
  };
  const rule = `Divided by ${durationText(bounds.divisorMs / 1000)}: ${bounds.why}.`;
  return given(computed(input, answer, hand.value, `The average (${shiftRuleName(bounds.rule)})`, [rule]));
}

/** Nobody said what the rest of the reference period was: it is unsampled, not nought. */
function restOfEightHours(pieces: readonly SlateObject[]): number {
  return Math.max(0, 480 - pieces.reduce((sum, { minutes }) => sum + (numberOrNull(minutes) ?? 0), 0));
}

export const STEL_CALCULATOR: Calculator = {
  id: "stel",
  title: "Short-term average by hand",
  says: "The greatest average over any window of the given length: the window slides, it is not tied to the clock.",
  inputs: [
    PIECES,
    numberField("windowMinutes", "Window", "Averaging time of the limit; 15 unless another is printed.", {
      above: 0,
      most: 1440,
      unit: "min",
      required: false,
    }),
    choiceField("outside", "Before and after", "What the time before the first and after the last piece was.", [
      ["unexposed", "declared unexposed"],
      ["unsampled", "not measured"],
    ]),
    {
      ...numberField(
        "worstCase",
        "Worst case",
        "What time without a level can have been at any moment, by a named person's statement; left out = open.",
        { least: 0 },
      ),
      required: false,
    },
    ...LIMIT_FIELDS,
  ],
  outputs: [...RANGE_OUTPUTS, output("windowStartMinutes", "Window from", "min"), output("windowEndMinutes", "Window to", "min")],
  examples: [
    {
      says: "5 min at 600 ppm, then nothing: 200 ppm",
      input: {
        pieces: [
          { minutes: 5, level: 600 },
          { minutes: 10, level: 0 },
        ],
        outside: "unexposed",
      },
    },
    {
      says: "clock blocks would miss this one",
      input: {
        pieces: [
          { minutes: 8, level: 0 },
          { minutes: 14, level: 30 },
          { minutes: 38, level: 0 },
        ],
        outside: "unexposed",
        limit: 25,
      },
    },
  ],
  cautions: [
    "Within a piece the level is taken as constant; bursts inside it are not seen.",
    "A short record inside a longer shift says nothing of the time around it.",
  ],
  sources: [
    { title: "OSHA Table Z-1-A definitions, 1989 rule (reprint: docslib.org)", mark: "read" },
    { title: "Directive 98/24/EC Annex I note 4 (reprint: reachlex.eu)", mark: "read" },
  ],
  compute: shortTerm,
};

const USUAL_WINDOW = 15;

function shortTerm(input: SlateObject): Result<SlateComputed, Refusal> {
  const outside = input["outside"] === "unsampled" ? "unsampled" : "unexposed";
  const hand = handSignal(rowsOf(input["pieces"]), { unsampledMinutes: 0, worst: numberOrNull(input["worstCase"]), outside });
  if (!hand.ok) return hand;
  const { signal, totalMs } = hand.value;
  const minutes = numberOrNull(input["windowMinutes"]) ?? USUAL_WINDOW;
  const windowMs = Math.max(1, Math.round(minutes * 60_000));
  const period = periodOf(signal, { from: 0, to: totalMs }, { kind: "open" });
  const bounds = windowBounds(period, windowMs);
  const limit = numberOrNull(input["limit"]);
  const level = limit === null ? null : levelSum(limitDigits(limit), signal.decimals, windowMs);
  const steps = level === null ? null : decidingLevel(period.around, windowMs, level, null);
  const answer = {
    holds: "was at no moment above" as const,
    range: rangeOf(bounds, 1),
    outcome: limit === null ? null : outcomeAgainst(bounds, limit, input),
    wStar: steps === null ? null : steps / 10 ** signal.decimals,
  };
  const [from, to] = [bounds.from / 60_000, bounds.to / 60_000];
  const window = `Greatest window: minute ${exactText(from)} to ${exactText(to)} from the start of the first piece.`;
  const said = computed(input, answer, hand.value, `The greatest ${durationText(windowMs / 1000)} average`, [window]);
  return given({ ...said, outputs: { ...said.outputs, windowStartMinutes: from, windowEndMinutes: to } });
}

function outcomeAgainst(bounds: Parameters<typeof outcomeOfBounds>[0], limit: number, input: SlateObject): Outcome {
  return outcomeOfBounds(bounds, { level: limitDigits(limit) }, input["operator"] as LimitOperator); // one of the choices
}

interface HandAnswer {
  /** What has to be true of the time without a level, up to W*. */
  readonly holds: "averaged no more than" | "was at no moment above";
  readonly range: Range;
  readonly outcome: Outcome | null;
  readonly wStar: number | null;
}

function computed(
  input: SlateObject,
  { range, outcome, wStar, holds }: HandAnswer,
  { totalMs, unsampledMs }: HandSignal,
  what: string,
  grounds: readonly string[],
): SlateComputed {
  const unit = String(input["unit"]);
  const limit = numberOrNull(input["limit"]);
  const figures = findingFigures({ ...range, unit, outcome: outcome ?? "", limit: { value: limit } });
  const compared = limit === null || outcome === null ? "" : `: ${OUTCOME_SENTENCES[outcome]} ${withUnit(exactText(limit), unit)}`;
  const unsampled = unsampledMs === 0 ? [] : [`Without a level: ${durationText(unsampledMs / 1000)} of ${durationText(totalMs / 1000)}.`];
  const decide =
    outcome === "undetermined" && wStar !== null
      ? [`What would decide it: a named person's statement that the time without a level ${holds} ${permittedText(wStar, unit)}.`]
      : [];
  return {
    outputs: { ...range, outcome, wStar },
    outcome,
    sentence: `${what} is ${figures}${compared}.`,
    grounds: [...grounds, ...unsampled, ...decide],
    sources: [],
  };
}

export const OUTCOME_SENTENCES: Readonly<Record<Outcome, string>> = {
  exceeds: "exceeds the limit of",
  within: "within the limit, on these data, of",
  undetermined: "undetermined against the limit of",
};
