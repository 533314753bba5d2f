/**
 * A site's own limits, read from a JSON file (schema: docs/schemas/own-limits.json). The file says who set them, when
 * and why. Figures are taken as the digits in the file.
 */
import { decimalFromText, MOLAR_VOLUME_EU, MOLAR_VOLUME_US, numberFromDecimal, type Unit, unitFromText } from "../quantity/index.ts";
import { given, type Result, refused } from "../result.ts";
import { substanceByName } from "./gas-name.ts";
import type { GasId, Limit, LimitKind, RegimeId, ThreeLevel } from "./limit.ts";
import { publishedLimits } from "./limit-table.ts";
import { type OwnLimitsFault, Place } from "./own-limits-place.ts";
import { PUBLISHED_REGIMES, type Regime, type ShiftTreatment } from "./regime.ts";

export type { OwnLimitsFault } from "./own-limits-place.ts";

export interface OwnLimits {
  /** Null where the file only replaces published figures. */
  readonly regime: Regime | null;
  readonly limits: readonly Limit[];
  readonly replacements: readonly Replacement[];
  readonly by: string;
  readonly on: string;
}

export interface Replacement {
  readonly replaces: Limit;
  /** The original as it holds until the replacement begins; null where the replacement names no first day. */
  readonly until: Limit | null;
  readonly limit: Limit;
  readonly by: string;
  readonly on: string;
  readonly why: string;
}

export interface OwnLimitsRefusal {
  readonly type: "own-limits-not-readable";
  readonly faults: readonly OwnLimitsFault[];
}

/** Usual averaging time of each kind; undefined = the file must say it. */
const USUAL_MINUTES: Readonly<Record<LimitKind, number | null | undefined>> = {
  twa: 480,
  stel: 15,
  excursion: undefined,
  ceiling: null,
  "any-shorter-period": undefined,
  "three-level": 480,
  "immediately-dangerous": null,
};

const KINDS = Object.keys(USUAL_MINUTES) as readonly LimitKind[]; // Keys of a record of kinds are kinds.

const SHIFT_TREATMENTS: readonly ShiftTreatment[] = ["worst-8h", "shift-8-to-10h", "any-24h-over-8h"];

/**
 * A file of own limits, checked whole.
 *
 * @param json the parsed file: { form: "lamproom-own-limits/1", by, on, regime?, limits: [{ gas, kind, value, unit, why,
 * source, … }] }. A limit with `replaces` (id of a published limit) takes its place and must name the official text in
 * `source`; every other one stands in the file's own regime, beside the published ones.
 * @returns refused: every fault, each with its place in the file and what was found there
 * @example
 * ```ts
 * import { ownLimitsFromJson } from "./own-limits.ts";
 * const file = { form: "lamproom-own-limits/1", by: "A. Keeper", on: "2026-01-05", regime: { id: "MARL-BECK", name: "Marl Beck works rule" },
 *   limits: [{ gas: "H2S", kind: "twa", value: "1.0", unit: "ppm", why: "decided by the works council" }] };
 * const own = ownLimitsFromJson(file);
 * own.ok && own.value.limits.map((limit) => [limit.id, limit.published?.value, limit.averagingMinutes]); // => [["MARL-BECK/hydrogen_sulphide/twa", 1, 480]]
 * ownLimitsFromJson({ ...file, limits: [{ gas: "H2S", kind: "twa", value: "1,0", unit: "ppm", why: "x" }] }); // => { "ok": false, "refusal": { "type": "own-limits-not-readable", "faults": [{ "at": "limits[0].value", "why": "not-a-number-above-nought", "found": "\"1,0\"" }] } }
 * ```
 *
 * Source: ours.
 */
export function ownLimitsFromJson(json: unknown): Result<OwnLimits, OwnLimitsRefusal> {
  const faults: OwnLimitsFault[] = [];
  const file = new Place(json, "", faults).record(["form", "by", "on", "regime", "limits"]);
  file.at("form").oneOf(["lamproom-own-limits/1"]);
  const by = file.at("by").words();
  const on = file.at("on").date();
  const regime = file.at("regime").isAbsent ? null : regimeOf(file.at("regime"), { by, on });
  const rows = file
    .at("limits")
    .list()
    .map((place) => rowOf(place, { regime, by, on }));
  complainOfTwins(rows, file.at("limits"));
  if (faults.length > 0) return refused({ type: "own-limits-not-readable", faults });
  return given({
    regime,
    by,
    on,
    limits: rows.filter((row) => row.replaces === null).map((row) => row.limit),
    replacements: rows.flatMap((row) =>
      row.replaces === null
        ? []
        : [{ replaces: row.replaces, until: untilReplaced(row.replaces, row.limit), limit: row.limit, by, on, why: row.why }],
    ),
  });
}

const untilReplaced = (original: Limit, { validFrom }: Limit): Limit | null =>
  validFrom === null || (original.validFrom ?? "") >= validFrom ? null : { ...original, validUntil: validFrom };

interface Signed {
  readonly by: string;
  readonly on: string;
}

function regimeOf(given: Place, { by, on }: Signed): Regime {
  const place = given.record(["id", "name", "jurisdiction", "molarVolume", "shiftTreatment"]);
  const id = place.at("id").words();
  if (!/^[A-Z][A-Z0-9-]*$/u.test(id) || PUBLISHED_REGIMES.some((regime) => regime.id === id))
    place.at("id").complain("regime-id-taken-or-not-in-capitals");
  const european = !place.at("molarVolume").isAbsent && place.at("molarVolume").oneOf(["US", "EU"]) === "EU";
  const treatment = place.at("shiftTreatment").isAbsent ? null : place.at("shiftTreatment").oneOf(SHIFT_TREATMENTS);
  return {
    id: id as RegimeId, // An own regime: the pattern above is what the brand stands for.
    name: place.at("name").words(),
    jurisdiction: place.at("jurisdiction").isAbsent ? "own" : place.at("jurisdiction").words(),
    molarVolume: european ? MOLAR_VOLUME_EU : MOLAR_VOLUME_US,
    // The treatment that gives the greatest average, where the file does not choose one.
    shiftTreatment: treatment ?? "any-24h-over-8h",
    shiftSource: `chosen by ${by}`,
    shiftMark: "own",
    edition: `set by ${by} on ${on}`,
    caution: null,
  };
}

interface Row {
  readonly limit: Limit;
  readonly replaces: Limit | null;
  readonly why: string;
}

const FIELDS = [
  "gas",
  "kind",
  "value",
  "unit",
  "averagingMinutes",
  "operator",
  "threeLevel",
  "why",
  "source",
  "edition",
  "replaces",
  "validFrom",
  "validUntil",
  "skin",
  "carcinogen",
  "notes",
];

function rowOf(given: Place, owner: Signed & { readonly regime: Regime | null }): Row {
  const place = given.record(FIELDS);
  const replaces = replacedBy(place);
  const gas = gasAt(place.at("gas"));
  const kind = kindAt(place.at("kind"));
  if (replaces !== null && (replaces.gas !== gas || replaces.kind !== kind)) place.at("replaces").complain("replaces-another-gas-or-kind");
  if (replaces === null && owner.regime === null) place.complain("own-limit-without-a-regime");
  const threeLevel = kind === "three-level" ? threeLevelAt(place.at("threeLevel")) : null;
  if (kind !== "three-level" && !place.at("threeLevel").isAbsent) place.at("threeLevel").complain("only-for-three-level");
  const regime = replaces?.regime ?? owner.regime?.id ?? ("OWN" as RegimeId); // The last only beside a complaint.
  const validFrom = place.at("validFrom").isAbsent ? null : place.at("validFrom").date();
  const validUntil = place.at("validUntil").isAbsent ? null : place.at("validUntil").date();
  if (validFrom !== null && validUntil !== null && validUntil <= validFrom) place.at("validUntil").complain("ends-before-it-begins");
  const why = place.at("why").words();
  const limit: Limit = {
    id: [regime, gas, kind, ...(replaces === null ? [] : ["replaced"]), ...(validFrom === null ? [] : [`from-${validFrom}`])].join("/"),
    gas,
    regime,
    kind,
    published:
      threeLevel !== null && place.at("value").isAbsent ? null : { value: figureAt(place.at("value")), unit: unitAt(place.at("unit")) },
    alsoPublished: null,
    operator: place.at("operator").isAbsent ? ">" : (place.at("operator").oneOf([">", ">="]) ?? ">"),
    averagingMinutes: minutesAt(place.at("averagingMinutes"), kind),
    threeLevel,
    notes: [
      ...place.at("notes").wordsIfAny(),
      `Set by ${owner.by} on ${owner.on}: ${why}`,
      ...(replaces === null ? [] : [`In place of ${nameOfFigure(replaces)} (${replaces.edition}; ${replaces.mark}).`]),
    ],
    skin: place.at("skin").truth() ?? replaces?.skin ?? false,
    carcinogen: place.at("carcinogen").truth() ?? replaces?.carcinogen ?? false,
    validFrom,
    validUntil,
    edition: place.at("edition").isAbsent ? `set by ${owner.by} on ${owner.on}` : place.at("edition").words(),
    sources: [{ id: "own", title: sourceAt(place.at("source"), replaces) }],
    mark: "own",
  };
  return { limit, replaces, why };
}

/** An average stands in where a complaint was made, so that the row's other faults are found too. */
const kindAt = (place: Place): LimitKind => place.oneOf(KINDS) ?? "twa";

function replacedBy(place: Place): Limit | null {
  if (place.at("replaces").isAbsent) return null;
  const id = place.at("replaces").words();
  const found = publishedLimits.find((limit) => limit.id === id) ?? null;
  if (found === null) place.at("replaces").complain("no-such-limit");
  return found;
}

function gasAt(place: Place): GasId {
  const text = place.words();
  const found = text === "" ? null : substanceByName(text);
  if (found?.ok === true) return found.value.id;
  if (found !== null) place.complain("unknown-gas");
  return "" as GasId; // Only beside a complaint.
}

function unitAt(place: Place): Unit {
  const unit = unitFromText(place.words());
  if (unit === "%LEL") place.complain("unit-without-a-basis");
  else if (unit === null || unit === "ambiguous per cent") place.complain("unknown-unit");
  else return unit;
  return "ppm";
}

/** Digits as text keep what the author wrote; a JSON number is taken at its shortest digits. */
function figureAt(place: Place): number {
  const read = typeof place.value === "string" || typeof place.value === "number" ? decimalFromText(String(place.value)) : null;
  if (read?.ok === true && read.value.mantissa > 0) return numberFromDecimal(read.value);
  place.complain("not-a-number-above-nought");
  return 1;
}

function minutesAt(place: Place, kind: LimitKind): number | null {
  const usual = USUAL_MINUTES[kind];
  if (place.isAbsent && usual !== undefined) return usual;
  if (place.value === null && kind === "ceiling") return null;
  if (kind === "immediately-dangerous") place.complain("never-averaged");
  if (typeof place.value === "number" && Number.isFinite(place.value) && place.value > 0 && place.value <= 1440) return place.value;
  place.complain("minutes-above-nought-up-to-1440");
  return null;
}

function threeLevelAt(given: Place): ThreeLevel {
  const place = given.record(["ceiling", "peak", "unit", "longestMinutes", "withinMinutes", "onceOnly"]);
  const level: ThreeLevel = {
    ceiling: figureAt(place.at("ceiling")),
    peak: figureAt(place.at("peak")),
    unit: unitAt(place.at("unit")),
    longestMinutes: figureAt(place.at("longestMinutes")),
    withinMinutes:
      place.at("withinMinutes").isAbsent || place.at("withinMinutes").value === null ? null : figureAt(place.at("withinMinutes")),
    onceOnly: place.at("onceOnly").truth() ?? false,
  };
  if (level.peak < level.ceiling) place.at("peak").complain("peak-below-ceiling");
  return level;
}

/** A replacement speaks for an official text and must name it; a limit of the site's own may rest on itself. */
function sourceAt(place: Place, replaces: Limit | null): string {
  if (!place.isAbsent) return place.words();
  if (replaces !== null) place.complain("replacement-without-official-text");
  return "own limit of the site";
}

const nameOfFigure = ({ published, id }: Limit): string => (published === null ? id : `${published.value} ${published.unit}`);

function complainOfTwins(rows: readonly Row[], list: Place): void {
  rows.forEach(({ limit }, index) => {
    if (rows.findIndex((other) => other.limit.id === limit.id) < index) list.item(index).complain("given-twice");
  });
}
