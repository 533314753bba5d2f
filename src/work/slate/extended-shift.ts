/** Shifts other than 8 hours: what each model makes of them, side by side and each by its name. */
import {
  averageBounds,
  briefScalaDaily,
  briefScalaWeekly,
  limitDigits,
  outcomeOfBounds,
  periodOf,
  rangeOf,
  type ShiftRule,
} from "../../core/exposure/index.ts";
import type { Outcome } from "../../core/outcome.ts";
import { given, type Result } from "../../core/result.ts";
import { decimalsFor, exactText, OUTCOME_WORDS, type Refusal, rangeText, roundedText, withUnit } from "../../report/index.ts";
import { type Calculator, numberField, output, type SlateComputed, type SlateObject, type SlateSource } from "./description.ts";
import { type HandSignal, handSignal, numberOrNull, PIECES, rowsOf } from "./pieces.ts";

export const EXTENDED_SHIFT_CALCULATOR: Calculator = {
  id: "extended-shift",
  title: "Shifts longer than 8 hours",
  says: "An 8-hour limit under the models for long shifts. They do not agree; which one applies is a declared choice.",
  inputs: [
    numberField("limit", "8-hour limit", "As published.", { above: 0 }),
    numberField("hoursPerDay", "Hours a day", "Length of the shift.", { above: 0, most: 23.999, unit: "h" }),
    numberField("hoursPerWeek", "Hours a week", "For the weekly model.", { above: 0, most: 167.999, unit: "h", required: false }),
    { ...PIECES, required: false, says: "The levels of the shift, piece by piece; with them each model gives an outcome." },
    { type: "text", name: "unit", title: "Unit", says: "Of limit and levels alike; ppm where left out.", required: false },
  ],
  outputs: [
    output("models", "Models", null, "rows", [
      output("model", "Model", null, "text"),
      output("factor", "Factor on the limit"),
      output("limit", "Limit compared with"),
      output("low", "Average, lowest"),
      output("high", "Average, highest"),
      output("outcome", "Outcome", null, "outcome"),
    ]),
  ],
  examples: [
    { says: "a 12-hour day", input: { limit: 50, hoursPerDay: 12 } },
    {
      says: "12 h with 4 h each at 20, 60 and 40 ppm: three models, two outcomes",
      input: {
        limit: 50,
        hoursPerDay: 12,
        pieces: [
          { minutes: 240, level: 20 },
          { minutes: 240, level: 60 },
          { minutes: 240, level: 40 },
        ],
      },
    },
  ],
  cautions: [
    "A factor lowers the 8-hour limit only, never a short-term limit or a ceiling, and never raises a limit for short days.",
    "In most places the factor models have no legal force.",
  ],
  sources: [
    { title: "Brief and Scala 1975, daily factor (8/h)((24 - h)/16) (reprint: safety-tidbits.blogspot.com, 2017)", mark: "read" },
    { title: "Brief and Scala, weekly factor (40/h)((168 - h)/128)", mark: "memory" },
    { title: "OSHA memo of 10 November 1999, worst 8 h, read as a summary", mark: "read" },
    { title: "HSE EH40/2005, any 24 h over 8 h, as reprinted in South Africa, HCS Regulations 1995, Annexure 2", mark: "read" },
  ],
  compute: models,
};

interface Model {
  readonly model: string;
  readonly factor: number;
  readonly rule: ShiftRule | "mean of the shift";
}

function models(input: SlateObject): Result<SlateComputed, Refusal> {
  const daily = briefScalaDaily(Number(input["hoursPerDay"]));
  if (!daily.ok) return daily;
  const hoursPerWeek = numberOrNull(input["hoursPerWeek"]);
  const weekly = hoursPerWeek === null ? null : briefScalaWeekly(hoursPerWeek);
  if (weekly !== null && !weekly.ok) return weekly;
  const hand = levels(input);
  if (!hand.ok) return hand;
  const all: Model[] = [
    { model: "Brief and Scala, daily", factor: daily.value, rule: "mean of the shift" },
    ...(weekly === null ? [] : [{ model: "Brief and Scala, weekly", factor: weekly.value, rule: "mean of the shift" } as const]),
    { model: "OSHA, worst 8 h", factor: 1, rule: "worst-8h" },
    { model: "UK and EU, any 24 h over 8 h", factor: 1, rule: "any-24h-over-8h" },
  ];
  return given(
    computed(
      input,
      all.map((model) => row(model, Number(input["limit"]), hand.value)),
    ),
  );
}

/** The levels of the shift, where they are given; they have to fill it. */
function levels(input: SlateObject): Result<HandSignal | null, Refusal> {
  const pieces = rowsOf(input["pieces"]);
  if (pieces.length === 0) return given(null);
  const givenMinutes = pieces.reduce((sum, { minutes }) => sum + Number(minutes), 0);
  const missing = Math.max(0, Number(input["hoursPerDay"]) * 60 - givenMinutes);
  return handSignal(pieces, { unsampledMinutes: missing, worst: null, outside: "unexposed" });
}

interface ModelRow {
  readonly [name: string]: string | number | null;
  readonly model: string;
  readonly factor: number;
  readonly limit: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly outcome: Outcome | null;
}

function row({ model, factor, rule }: Model, limit: number, hand: HandSignal | null): ModelRow {
  const reduced = limit * factor;
  if (hand === null) return { model, factor, limit: reduced, low: null, high: null, outcome: null };
  const period = periodOf(hand.signal, { from: 0, to: hand.totalMs }, { kind: "open" });
  // The lowered limit meets the mean of the shift itself: NIOSH's rule divides by it between 8 and 10 h, this one always.
  const eight = averageBounds(period, rule === "mean of the shift" ? "time-exposed" : rule, []);
  const range = rangeOf(eight, 1);
  const outcome = outcomeOfBounds(eight, { level: limitDigits(reduced) }, ">");
  return { model, factor, limit: reduced, low: range.low, high: range.high, outcome };
}

function computed(input: SlateObject, rows: readonly ModelRow[]): SlateComputed {
  const unit = typeof input["unit"] === "string" ? input["unit"] : "ppm";
  const said = rows.map(({ model, limit, low, high, outcome }) => {
    const against = withUnit(roundedText(limit, decimalsFor([limit]), "down", null), unit);
    if (low === null || outcome === null) return `${model}: limit ${against}`;
    return `${model}: ${rangeText({ low, best: high === low ? low : null, high }, limit, unit)} against ${against}, ${OUTCOME_WORDS[outcome]}`;
  });
  const grounds = rows.filter(({ factor }) => factor < 1).map(({ model, factor }) => `${model}: factor ${exactText(factor)}.`);
  const sources: SlateSource[] = [];
  return { outputs: { models: rows }, outcome: null, sentence: `${said.join("; ")}.`, grounds, sources };
}
