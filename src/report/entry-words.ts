/** What entries of the book say, in plain English: kinds, roles and codes. A test holds these lists against the forms. */
import type { Kind } from "../core/instrument/index.ts";
import { visibleText } from "./visible-text.ts";

const KINDS: Readonly<Record<Kind, string>> = {
  "book-opened": "book opened",
  "key-begun": "signing key begun",
  "key-ended": "signing key ended",
  "book-put-back": "book put back to an older copy",
  disposed: "parts disposed of",
  "model-described": "model described",
  "instrument-registered": "instrument registered",
  "tag-lent": "tag lent",
  "tag-returned": "tag returned",
  "sensor-fitted": "sensor fitted",
  "sensor-moved": "sensor moved",
  "sensor-removed": "sensor removed",
  "cylinder-registered": "cylinder registered",
  "cylinder-connected": "cylinder connected to a regulator",
  "line-part-registered": "line part registered",
  "station-registered": "station registered",
  "place-registered": "place registered",
  "person-registered": "person registered",
  "duties-set": "duties set",
  "thing-retired": "retired",
  "round-opened": "round opened",
  "round-closed": "round closed",
  "self-test-seen": "self-test seen",
  "daily-card-seen": "daily card",
  "settings-card-seen": "settings card",
  "clean-air-read": "reading in clean air",
  "zero-adjusted": "zero adjusted",
  "gas-tested": "gas test",
  "gas-test-void": "gas test without a result",
  "gas-test-cause-claimed": "cause of a failed gas test claimed",
  "function-checked": "function check",
  "calibration-checked": "calibration check",
  calibrated: "calibration",
  "charge-seen": "charge seen",
  withdrawn: "withdrawn",
  returned: "returned to use",
  "sent-away": "sent away",
  "back-from-service": "back from service",
  "brought-forward": "brought forward: declared, not seen here",
  "upset-seen": "upset that asks for a new gas test",
  "entry-voided": "entry voided",
  "thing-voided": "voided from a moment on",
  "question-answered": "question answered",
  "rules-set": "rules set",
  "rules-agreed": "change of the rules agreed to",
  "relied-on": "answer that was relied on",
};

const ROLES: Readonly<Record<string, string>> = {
  instrument: "instrument",
  "instrument-before": "instrument that it was in before",
  model: "model",
  sensor: "sensor",
  cylinder: "cylinder",
  regulator: "regulator",
  station: "station",
  "line-part": "line part",
  place: "place",
  person: "person",
  tester: "tester",
  witness: "proven instrument that showed the air to be clean",
  retired: "retired thing or person",
};

/** The same whatever member they stand in. */
const CODES: Readonly<Record<string, string>> = {
  ...{ yes: "yes", no: "no", "not-looked": "not looked at", none: "none", other: "other", unknown: "unknown", ed25519: "Ed25519" },
  ...{ passed: "passed", failed: "failed", undecided: "undecided", "not-tested": "not tested", interrupted: "interrupted", set: "set" },
  ...{ "conditionally-passed": "passed, inside the doubt", "conditionally-failed": "failed, inside the doubt" },
  ...{ "cannot-decide": "cannot be decided with this gas", adjusted: "adjusted", "left-as-found": "left as found" },
  // What a display shows
  ...{ "over-range": "over range", "under-range": "under range", fault: "fault shown", "not-ready": "not ready" },
  ...{ "volume-fraction": "share of the volume", "fraction-of-lel": "share of the lower explosive limit" },
  "mass-concentration": "mass in a volume",
  // Sources
  ...{ read: "read there", memory: "from memory", "common-practice": "common practice", own: "the site's own" },
  ...{ certificate: "certificate", list: "list", label: "label on the instrument", "word-of-mouth": "by word of mouth" },
  // Gas and air
  ...{ cap: "by a cap", docked: "in a station", pump: "by the pump", "pump-and-working-line": "by the pump through its working line" },
  ...{ "proven-instrument": "a proven instrument", "zero-air": "zero air", "outdoor-air": "outdoor air", "not-shown": "nothing" },
  ...{
    air: "air",
    nitrogen: "nitrogen",
    "expanded-uncertainty": "by the expanded uncertainty",
    "one-sided-5-percent": "for a risk of 5 % at one side",
  },
  // Sensors and instruments
  ...{ electrochemical: "electrochemical", catalytic: "catalytic", infrared: "infrared", photoionisation: "photoionisation" },
  ...{ "oxygen-partial-pressure": "oxygen, by its partial pressure", "oxygen-mole-fraction": "oxygen, by its share" },
  ...{ "thermal-conductivity": "thermal conductivity", semiconductor: "semiconductor" },
  ...{ "built-in": "built in", attached: "attached", spot: "spot readings", mean: "means", peak: "peaks" },
  ...{ site: "the site's own", visiting: "visiting", rising: "when rising", falling: "when falling" },
  ...{ momentary: "on the reading", averaged: "on an average" },
  ...{
    "read-from-file": "read from a file",
    "compared-by-eye": "compared by eye",
    "taken-from-last-card": "taken from the last card, not looked at",
  },
  // Things, places, people
  ...{ hose: "hose", probe: "probe", filter: "filter", trap: "trap", regulator: "regulator", tubing: "tubing" },
  ...{ bench: "bench", counter: "counter", store: "store", space: "space", room: "room", field: "field" },
  ...{ "by-hand": "by hand", automatic: "automatic", body: "what was said", private: "private part" },
  ...{ tester: "tester", keeper: "keeper", hygienist: "hygienist", auditor: "auditor", worker: "worker", administrator: "administrator" },
  ...{ service: "service", calibration: "calibration", loan: "loan", calibrated: "calibrated", checked: "checked", nothing: "nothing" },
  ...{
    "sensor-changed": "sensor changed",
    repaired: "repaired",
    "function-checked": "function check",
    "calibration-checked": "calibration check",
  },
  // Rules and their periods
  ...{
    "daily-card": "daily card",
    settings: "settings",
    "clean-air": "clean air",
    "gas-test": "gas test",
    "function-check": "function check",
  },
  ...{ "calibration-check": "calibration check", charge: "charge", "each-use": "before each use", "each-shift": "before each shift" },
  ...{ "working-day": "once a working day", hours: "within hours", days: "within days", months: "within months" },
  ...{
    monday: "Monday",
    tuesday: "Tuesday",
    wednesday: "Wednesday",
    thursday: "Thursday",
    friday: "Friday",
    saturday: "Saturday",
    sunday: "Sunday",
  },
  // Causes
  ...{
    flow: "flow wrong",
    empty: "cylinder empty",
    "wrong-cylinder": "wrong cylinder",
    replaced: "replaced",
    lost: "lost",
    disclosed: "disclosed",
  },
  ...{ "worn-out": "worn out", damaged: "damaged", doubted: "doubted", recalled: "recalled", expired: "expired", decayed: "decayed" },
  ...{ "calibrated-and-tested": "calibrated and tested", "found-again": "found again", "doubt-cleared": "doubt cleared" },
  ...{ "recall-answered": "recall answered", "withdrawn-by-mistake": "withdrawn by mistake", "wrong-gas": "wrong gas", leaking: "leaking" },
  ...{
    "wrong-flow": "wrong flow",
    faulty: "faulty",
    "not-entitled": "not entitled",
    "wrong-thing": "wrong thing",
    "wrong-person": "wrong person",
  },
  ...{ "wrong-time": "wrong time", "wrong-figure": "wrong figure", "entered-twice": "entered twice", "done-wrongly": "done wrongly" },
  "evidence-bad": "evidence found bad",
  // Upsets
  ...{
    dropped: "dropped",
    wet: "wet inside",
    silicone: "met silicone",
    solvent: "met solvent vapour",
    "catalyst-poison": "met a poison of the catalyst",
  },
  ...{
    "corrosive-gas": "met corrosive gas",
    "extreme-conditions": "heat, cold, dust or damp beyond its limits",
    "clock-changed": "clock changed",
  },
  ...{ "settings-changed": "settings changed", "firmware-changed": "firmware changed", "filter-changed": "filter changed" },
  "reading-doubted": "reading doubted",
  // Questions of the book
  ...{ "device-clock": "clock of a device", "hole-in-chain": "hole in a device's chain", "chain-forks": "two chains of one device" },
  "unknown-kind": "entry of an unknown kind",
};

/** Where a code means something else in one member. */
const CODES_OF_MEMBER: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  cause: { cap: "cap not tight", interrupted: "interrupted" },
  done: { calibrated: "calibrated" },
  of: { calibrated: "calibration" },
  part: { pump: "pump", cap: "cap" },
  pump: { none: "by itself, without a pump" },
  guard: { none: "without a guard band" },
  sort: { spot: "spot" },
  what: { "over-range": "met gas over its range" },
};

/**
 * An entry's kind in words; a kind of another release as it stands in the book.
 *
 * @example
 * ```ts
 * import { kindWords } from "./entry-words.ts";
 * kindWords("gas-tested"); // => "gas test"
 * kindWords("gas-sung-to"); // => "gas-sung-to"
 * ```
 */
export const kindWords = (kind: string): string => wordsIn(KINDS, kind);

/** The part that somebody or something has in an entry, in words. */
export const roleWords = (role: string): string => wordsIn(ROLES, role);

/**
 * A code of an entry in words; one of another release as it stands in the book.
 *
 * @param member name of the member that holds it
 * @example
 * ```ts
 * import { codeWords } from "./entry-words.ts";
 * codeWords("cause", "cap"); // => "cap not tight"
 * codeWords("gasPath", "cap"); // => "by a cap"
 * ```
 */
export const codeWords = (member: string, code: string): string => {
  const ofMember = CODES_OF_MEMBER[member];
  return ofMember !== undefined && Object.hasOwn(ofMember, code) ? wordsIn(ofMember, code) : wordsIn(CODES, code);
};

/** Whether there are words of our own; what a test asks of every code of every form. */
export const hasWords = (list: "kind" | "role" | "code", code: string): boolean =>
  Object.hasOwn({ kind: KINDS, role: ROLES, code: CODES }[list], code);

const wordsIn = (words: Readonly<Record<string, string>>, code: string): string =>
  (Object.hasOwn(words, code) ? words[code] : undefined) ?? visibleText(code);
