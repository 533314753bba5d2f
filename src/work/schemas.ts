/** The JSON Schemas (2020-12) of what the doors take and give; docs/schemas is written from here, own-limits.json apart. */
import { UNITS } from "../core/quantity/index.ts";
import { FAULTS } from "../report/index.ts";
import { answerSchema, calculators, inputSchema } from "./slate/index.ts";

type Schema = Readonly<Record<string, unknown>>;

const DIALECT = "https://json-schema.org/draft/2020-12/schema";
const TEXT: Schema = { type: "string" };
const NUMBER: Schema = { type: "number" };
const COUNT: Schema = { type: "integer", minimum: 0 };
const SHARE: Schema = { type: "number", minimum: 0, maximum: 1 };
const FLAG: Schema = { type: "boolean" };
const TIME: Schema = {
  type: "string",
  description: "RFC 3339 in UTC, or an ISO 8601 duration from the start where timeBasis is elapsed.",
  pattern: "^(\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d(\\.\\d+)?Z|-?PT\\d+(\\.\\d+)?S)$",
};
const OUTCOMES = ["exceeds", "within", "undetermined"];
const UNIT_NAMES = UNITS.map(({ unit }) => unit);

const orNull = (schema: Schema): Schema => ({ anyOf: [schema, { type: "null" }] });
const list = (items: Schema): Schema => ({ type: "array", items });
const one = (...values: readonly (string | null)[]): Schema => ({ enum: values });

/** An object with exactly these properties, all of them required. */
const object = (properties: Readonly<Record<string, Schema>>, optional: readonly string[] = []): Schema => ({
  type: "object",
  properties,
  required: Object.keys(properties).filter((name) => !optional.includes(name)),
  additionalProperties: false,
});

/** Something told apart by its type, with fields of its own. */
const typed: Schema = { type: "object", properties: { type: TEXT }, required: ["type"] };

const BEST = {
  ...orNull(NUMBER),
  description:
    "null where none can be given: an end is open, readings conflict, or only a declared worst case reaches it, which is a bound.",
};
const NO_DOSE =
  "null for oxygen and for %LEL: their limits are for moments, no amount adds up in a person, and an average would hide the moment.";
const RANGE = { low: NUMBER, best: BEST, high: { ...orNull(NUMBER), description: "null = open: no upper bound can be given." } };
const SERIES = orNull(object({ label: TEXT, value: TEXT }));
const REASON = object({ code: TEXT, line: orNull(COUNT), text: orNull(TEXT) });

const LIMIT = object({
  id: TEXT,
  regime: TEXT,
  kind: one("twa", "stel", "excursion", "ceiling", "any-shorter-period", "three-level", "immediately-dangerous"),
  value: orNull(NUMBER),
  lowered: {
    ...orNull(NUMBER),
    description:
      "What the figures are set against where the limit was lowered for the length of the shift (shiftRule says how); else null.",
  },
  unit: TEXT,
  operator: one(">", ">="),
  averagingMinutes: orNull(NUMBER),
  levels: { ...orNull(object({ ceiling: NUMBER, peak: NUMBER })), description: "The levels of Table Z-2; null for any other limit." },
  source: TEXT,
  edition: TEXT,
  mark: one("read", "memory", "computed", "common practice", "own"),
});

const PART = object({ name: TEXT, limit: NUMBER, unit: TEXT, outcome: one(...OUTCOMES, "not measured", "no limit"), ...RANGE });

const FINDING = object({
  id: TEXT,
  limit: LIMIT,
  unit: TEXT,
  outcome: one(...OUTCOMES),
  ...RANGE,
  coverage: SHARE,
  wStar: { ...orNull(NUMBER), description: "Mean of the unsampled time at which the limit would be reached." },
  shiftRule: orNull(TEXT),
  windowStart: orNull(TIME),
  windowEnd: orNull(TIME),
  parts: list(PART),
  grounds: list(typed),
  assumptions: list(typed),
  undecidedBy: list(typed),
  method: object({ id: TEXT, edition: COUNT }),
});

const EPISODE = object({
  limit: TEXT,
  kind: TEXT,
  start: TIME,
  end: TIME,
  seconds: NUMBER,
  peak: NUMBER,
  atLeast: FLAG,
  peakAt: TIME,
  openEnd: FLAG,
});

const NOT_COMPARED = object({
  regime: TEXT,
  limit: { ...orNull(LIMIT), description: "null = the regime gives no limit for the gas." },
  why: one("unit not known", "other kind of unit", "counts a part of the molecule", "no conversion known", "no limit", "not covered"),
});

const CHANNEL = object({
  name: TEXT,
  series: SERIES,
  shift: COUNT,
  gas: orNull(TEXT),
  unit: orNull(one(...UNIT_NAMES)),
  samples: COUNT,
  start: TIME,
  end: TIME,
  sampledSeconds: NUMBER,
  mean: { ...object(RANGE), description: "Over the sampled time only." },
  twa8h: {
    ...orNull(object(RANGE)),
    description: `Over 8 hours; best and high are null where time is unsampled and nothing was declared. ${NO_DOSE}`,
  },
  stel: {
    ...orNull(object({ windowMinutes: NUMBER, ...RANGE, windowStart: TIME, windowEnd: TIME, coverage: SHARE })),
    description: `The greatest average of a short window. ${NO_DOSE}`,
  },
  peak: orNull(object({ value: NUMBER, at: TIME, atLeast: FLAG })),
  lowest: orNull(object({ value: NUMBER, at: TIME, atMost: FLAG })),
  grounds: list(typed),
  assumptions: list(typed),
  findings: list(FINDING),
  notCompared: list(NOT_COMPARED),
  episodes: list(EPISODE),
});

const GUESS = object({
  topic: TEXT,
  column: orNull(TEXT),
  chosen: TEXT,
  sureness: one("certain", "strong", "weak"),
  reasons: list(REASON),
});

const QUESTION = object({
  id: TEXT,
  topic: TEXT,
  column: orNull(TEXT),
  samples: list(object({ line: COUNT, text: TEXT })),
  choices: list(object({ value: TEXT, reasons: list(REASON) })),
  suggested: orNull(TEXT),
  blocking: FLAG,
});

const FAULT = object({
  type: one(...Object.keys(FAULTS)),
  line: COUNT,
  byteOffset: COUNT,
  column: orNull(TEXT),
  raw: TEXT,
  rejected: FLAG,
  provisional: FLAG,
  message: TEXT,
});

const FILE = object({
  file: TEXT,
  sha256: orNull({ type: "string", pattern: "^[0-9a-f]{64}$" }),
  bytes: COUNT,
  timeBasis: one("instant", "elapsed", null),
  zone: orNull(TEXT),
  shifts: list(object({ from: TIME, to: TIME })),
  channels: list(CHANNEL),
  lines: orNull(object({ lines: COUNT, header: COUNT, rows: COUNT, continued: COUNT, rejected: COUNT, skipped: COUNT })),
  guesses: list(GUESS),
  questions: list(QUESTION),
  faults: list(FAULT),
  moreFaults: { type: "object", additionalProperties: COUNT },
  notes: list(object({ line: { ...orNull(COUNT), description: "null = about the file as a whole." }, text: TEXT })),
  refusal: orNull({ type: "object", properties: { type: TEXT, message: TEXT, mend: TEXT }, required: ["type", "message", "mend"] }),
});

const EXPOSURE: Schema = {
  $schema: DIALECT,
  title: "Answer of lamproom exposure --json",
  description: "Nothing is rounded. Gases are ids of the gas table. An outcome of within means within the limit on these data.",
  ...object({ form: { const: "lamproom-exposure/1" }, files: list(FILE) }),
};

const COLUMN = object(
  {
    label: TEXT,
    role: one("time", "date", "clock", "reading", "status", "series", "sensor", "value", "unit", "text", "number", "ignored"),
    gas: orNull(TEXT),
    unit: orNull(one(...UNIT_NAMES)),
    decimalMark: one(".", ","),
    groupMark: orNull(one(",", ".", " ", "'")),
    kind: one("spot", "interval mean", "interval peak"),
    kindChosenBy: { ...one("default", "file", "person"), description: "Left out = default: nobody said it." },
    rangeTop: orNull(TEXT),
  },
  ["kindChosenBy"],
);

const TIME_FORMS = [
  "year-month-day",
  "day-month-year",
  "month-day-year",
  "seconds-from-start",
  "milliseconds-from-start",
  "minutes-from-start",
  "hours-from-start",
  "unix-seconds",
  "unix-milliseconds",
  "day-number-1900",
  "day-number-1904",
];

const MAPPING: Schema = {
  $schema: DIALECT,
  title: "Saved mapping",
  description: "What a person confirmed about files with one heading; used again for every file with the same fingerprint.",
  ...object({
    form: { const: "lamproom-mapping/1" },
    fingerprint: TEXT,
    dialect: object({
      encoding: TEXT,
      delimiter: TEXT,
      quote: TEXT,
      quoteInside: one("doubled", "backslash", "lenient"),
      commentPrefix: orNull(TEXT),
      wrapped: FLAG,
      trim: FLAG,
    }),
    headerLines: list({ type: "integer", minimum: 1 }),
    unitLine: orNull({ type: "integer", minimum: 1 }),
    shape: one("wide", "long"),
    columns: list(COLUMN),
    channels: list(COLUMN),
    time: object(
      {
        form: one(...TIME_FORMS),
        zone: orNull(TEXT),
        twoDigitYearsFrom: orNull({ type: "integer" }),
        start: orNull(TEXT),
        repeatedHour: orNull(one("earlier", "later")),
        halfDay: orNull(one("as written", "before noon", "after noon", "before noon, newest first", "after noon, newest first")),
        zoneLetters: { type: "object", additionalProperties: TEXT },
      },
      ["halfDay"],
    ),
    words: object({ overRange: list(TEXT), underRange: list(TEXT), noReading: list(TEXT), fault: list(TEXT), badStatus: list(TEXT) }),
  }),
};

const BOUND = { level: { ...TEXT, description: "Digits in the unit of the channel." }, holds: one("at any moment", "as an average") };
const STATEMENT = {
  channel: { ...TEXT, description: "Name of the channel in the file; left out or * = every channel." },
  from: {
    ...orNull(TEXT),
    description:
      "An instant, a local time in the file's zone, or seconds from its start; null or left out = from the beginning of the shift.",
  },
  to: { ...orNull(TEXT), description: "As from; null or left out = to the end of the shift." },
  by: { ...TEXT, minLength: 1, description: "Who says it." },
  on: { ...TEXT, format: "date", description: "When it was said." },
  reason: { ...TEXT, minLength: 1 },
};
const MAY_BE_LEFT_OUT = ["channel", "from", "to"];

const DECLARATIONS: Schema = {
  $schema: DIALECT,
  title: "Declarations of named persons",
  description:
    "What lamproom exposure --declare takes: statements about time without readings (unexposed, like the sampled time, worst case) and about readings over range (over-range bound).",
  ...list({
    anyOf: [
      object({ ...STATEMENT, kind: one("unexposed", "like the sampled time") }, MAY_BE_LEFT_OUT),
      object({ ...STATEMENT, kind: one("worst case", "over-range bound"), ...BOUND }, MAY_BE_LEFT_OUT),
    ],
  }),
  examples: [
    [
      {
        channel: "*",
        from: "2026-03-04T12:30:00Z",
        to: "2026-03-04T14:00:00Z",
        by: "A. Hallam",
        on: "2026-03-05",
        reason: "in the canteen, away from the plant",
        kind: "worst case",
        level: "2",
        holds: "at any moment",
      },
    ],
  ],
};

/** Name in docs/schemas, and the text of the file. */
export function schemaFiles(): ReadonlyMap<string, string> {
  const slate = calculators.flatMap((calculator) => [
    [`slate-${calculator.id}-input.json`, inputSchema(calculator)] as const,
    [`slate-${calculator.id}-answer.json`, answerSchema(calculator)] as const,
  ]);
  const files = [["exposure.json", EXPOSURE], ["mapping.json", MAPPING], ["declarations.json", DECLARATIONS], ...slate] as const;
  return new Map(files.map(([name, schema]) => [name, `${JSON.stringify(schema, null, 2)}\n`]));
}
