/** Gases that act together: the sum of their shares of their limits. */
import { type MixtureFinding, mixtureIndex } from "../../core/exposure/index.ts";
import { given, type Result } from "../../core/result.ts";
import { gasWords, OUTCOME_WORDS, type Refusal, rangeText, roundedText } from "../../report/index.ts";
import { type Calculator, numberField, output, type SlateComputed, type SlateObject } from "./description.ts";
import { numberOrNull, rowsOf } from "./pieces.ts";

export const MIXTURE_CALCULATOR: Calculator = {
  id: "mixture",
  title: "Mixture of gases that act together",
  says: "C1/L1 + C2/L2 + …: above 1 the mixture exceeds. Only for gases that a competent person has declared additive.",
  inputs: [
    {
      type: "rows",
      name: "parts",
      title: "Parts",
      says: "Averages of one kind with limits of the same kind: 8-hour with 8-hour, short-term with short-term.",
      required: true,
      fewest: 1,
      most: 50,
      fields: [
        { type: "text", name: "gas", title: "Gas", says: "Its name.", required: true },
        numberField("low", "Lowest level", "In the unit of its limit; the level where it is known.", { least: 0 }),
        { ...numberField("high", "Highest level", "Left out: as the lowest.", { least: 0 }), required: false },
        numberField("limit", "Limit", "In the unit of the level.", { above: 0 }),
        numberField("samplingError", "Sampling error", "Sampling and analytical error as a fraction, 0.1 for 10 %.", {
          least: 0,
          most: 1,
          required: false,
        }),
      ],
    },
    { type: "text", name: "additiveBy", title: "Declared additive by", says: "Who declared that their effects add up.", required: true },
  ],
  outputs: [
    output("low", "Index, lowest"),
    output("high", "Index, highest"),
    output("outcome", "Outcome", null, "outcome"),
    output("controlLimit", "Control limit with sampling errors"),
    output("outcomeWithoutErrors", "Outcome of the bare index", null, "outcome"),
    output("ratios", "Shares of the limits", null, "rows", [
      output("gas", "Gas", null, "text"),
      output("low", "Lowest"),
      output("high", "Highest"),
    ]),
  ],
  examples: [
    {
      says: "the printed example of 29 CFR 1910.1000(d)(2)(ii): 0.925",
      input: {
        parts: [
          { gas: "first", low: 500, limit: 1000 },
          { gas: "second", low: 45, limit: 200 },
          { gas: "third", low: 40, limit: 200 },
        ],
        additiveBy: "the example of the rule",
      },
    },
    {
      says: "with sampling errors: undetermined",
      input: {
        parts: [
          { gas: "first", low: 30, limit: 50, samplingError: 0.1 },
          { gas: "second", low: 9, limit: 20, samplingError: 0.15 },
        ],
        additiveBy: "A. Hygienist",
      },
    },
  ],
  cautions: [
    "Adding separate short-term maxima overstates when the peaks fall at different times.",
    "Gases that do not act on the same organ in the same way are judged each alone.",
  ],
  sources: [
    { title: "29 CFR 1910.1000(d)(2)(i) (reprint: up.codes)", mark: "read" },
    { title: "OSHA Technical Manual, appendix on mixtures, for sampling errors", mark: "memory" },
  ],
  compute: mixed,
};

function mixed(input: SlateObject): Result<SlateComputed, Refusal> {
  const parts = rowsOf(input["parts"]).map((row) => {
    const low = Number(row["low"]);
    return {
      gas: String(row["gas"]),
      low,
      high: numberOrNull(row["high"]) ?? low,
      limit: Number(row["limit"]),
      limitKind: "twa" as const,
      averagingMinutes: 480,
      samplingError: numberOrNull(row["samplingError"]),
    };
  });
  // Whether 8-hour or short-term: the caller adds like with like, as the field says.
  const found = mixtureIndex(parts, { additiveBy: String(input["additiveBy"]), operator: ">" });
  return found.ok ? given(computed(input, found.value)) : found;
}

function computed(input: SlateObject, { low, high, outcome: bare, ratios, withErrors }: MixtureFinding): SlateComputed {
  // Where errors were stated they decide: an index above 1 within its control limit proves nothing.
  const outcome = withErrors?.outcome ?? bare;
  const outputs = {
    low,
    high,
    outcome,
    controlLimit: withErrors?.upperControl ?? null,
    outcomeWithoutErrors: bare,
    ratios: ratios.map((ratio) => ({ gas: ratio.gas, low: ratio.low, high: ratio.high })),
  };
  const index = rangeText({ low, best: low, high }, 1, null);
  const errors =
    withErrors === null
      ? ["Without measurement error: no sampling error was stated."]
      : [
          `With sampling errors: the control limit is ${roundedText(withErrors.upperControl, 3, "down", 1)}. Without them: ${OUTCOME_WORDS[bare]}.`,
        ];
  const shares = ratios.map(
    (ratio) => `${gasWords(ratio.gas)}: ${rangeText({ low: ratio.low, best: ratio.low, high: ratio.high }, null, null)} of its limit.`,
  );
  return {
    outputs,
    outcome,
    sentence: `The index is ${index}: ${OUTCOME_WORDS[outcome]}${outcome === "undetermined" ? "" : " 1"}${outcome === "within" ? ", on these data" : ""}.`,
    grounds: [...shares, ...errors, `Declared additive by ${String(input["additiveBy"])}.`],
    sources: [],
  };
}
