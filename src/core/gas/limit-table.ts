import type { Unit } from "../quantity/index.ts";
import { assert } from "../result.ts";
import type { GasId, Limit, LimitsAnswer, PublishedValue, RegimeId, Source } from "./limit.ts";
import type { AlternateEntry, LimitEntry, LimitRow, LimitSource } from "./limit-entry.ts";
import { IMMEDIATELY_DANGEROUS } from "./tables/immediately-dangerous.ts";
import { LIMIT_SOURCES } from "./tables/limit-sources.ts";
import { EU_IOELV_LIMITS } from "./tables/limits-eu-ioelv.ts";
import { FR_LIMITS } from "./tables/limits-fr.ts";
import { GB_WEL_LIMITS } from "./tables/limits-gb-wel.ts";
import { US_NIOSH_LIMITS } from "./tables/limits-us-niosh.ts";
import { US_OSHA_LIMITS } from "./tables/limits-us-osha.ts";

/** One substance under one regime: what was published, and the limits made of it. */
export interface TableEntry {
  readonly gas: GasId;
  readonly regime: RegimeId;
  /** The source's own words; empty where they were not read. */
  readonly asPublished: string;
  /** Row of Table Z-1 as printed: substance | ppm | mg/m3; null where there is none. */
  readonly tableRow: string | null;
  readonly sources: readonly Source[];
  readonly mark: LimitEntry["mark"];
  readonly limits: readonly Limit[];
  readonly alternates: readonly Alternate[];
}

/** Limits that hold instead of the ordinary ones for a part of working life. */
export interface Alternate {
  readonly id: string;
  readonly for: string;
  readonly limits: readonly Limit[];
}

const ENTRIES_BY_REGIME: readonly (readonly [RegimeId, readonly LimitEntry[]])[] = [
  ["US-OSHA", US_OSHA_LIMITS],
  ["US-NIOSH", US_NIOSH_LIMITS],
  ["US-NIOSH", IMMEDIATELY_DANGEROUS],
  ["GB-WEL", GB_WEL_LIMITS],
  ["EU-IOELV", EU_IOELV_LIMITS],
  ["FR", FR_LIMITS],
];

const sourcesById: ReadonlyMap<string, LimitSource> = new Map(LIMIT_SOURCES.map((source) => [source.id, source]));

const key = (regime: RegimeId, gas: string): string => `${regime}/${gas}`;

const entriesByKey: ReadonlyMap<string, TableEntry> = tableEntries();

/** Everything the tables hold of a substance under a regime; null = not covered. */
export const publishedEntry = (gas: string, regime: RegimeId): TableEntry | null => entriesByKey.get(key(regime, gas)) ?? null;

/** Every published limit, the alternates and all dated editions included. */
export const publishedLimits: readonly Limit[] = [...entriesByKey.values()].flatMap((entry) => [
  ...entry.limits,
  ...entry.alternates.flatMap((alternate) => alternate.limits),
]);

/** The limits among these that hold on a day; with no day the latest edition of each. */
export function inForce(limits: readonly Limit[], on: string | null): readonly Limit[] {
  if (on !== null) return limits.filter((limit) => (limit.validFrom ?? "") <= on && (limit.validUntil === null || on < limit.validUntil));
  return limits.filter(
    (limit) => limit.validUntil === null || !limits.some((other) => other.kind === limit.kind && other.validFrom === limit.validUntil),
  );
}

/** The answer of one entry on a day. */
export function answerOf(entry: TableEntry | null, limits: readonly Limit[], on: string | null): LimitsAnswer {
  if (limits.length > 0) return { status: "limits", limits, editionBy: on === null ? "latest" : "date" };
  if (entry === null || entry.limits.length > 0) return { status: "not covered" };
  return { status: "no limit", asPublished: entry.asPublished, sources: entry.sources, mark: entry.mark };
}

function tableEntries(): ReadonlyMap<string, TableEntry> {
  const entries = new Map<string, TableEntry>();
  for (const [regime, rows] of ENTRIES_BY_REGIME) {
    for (const row of rows) {
      const made = tableEntry(row, regime);
      const before = entries.get(key(regime, row.gas));
      entries.set(key(regime, row.gas), before === undefined ? made : joined(before, made));
    }
  }
  return entries;
}

/** The recommended limits and the immediately dangerous concentration of one substance stand in two tables. */
function joined(first: TableEntry, second: TableEntry): TableEntry {
  const more = second.sources.filter((source) => !first.sources.some((other) => other.id === source.id));
  return {
    ...first,
    asPublished: `${first.asPublished}; immediately dangerous: ${second.asPublished}`,
    sources: [...first.sources, ...more],
    limits: [...first.limits, ...second.limits],
  };
}

function tableEntry(entry: LimitEntry, regime: RegimeId): TableEntry {
  const sources = entry.sources.map(sourceOf);
  return {
    // An id of the tables is a GasId; a test holds every one against the substances.
    gas: entry.gas as GasId,
    regime,
    asPublished: entry.asPublished ?? "",
    tableRow: entry.tableRow ?? null,
    sources,
    mark: entry.mark,
    limits: entry.limits.map((row) => limitOf(row, entry, regime, null)),
    alternates: (entry.alternates ?? []).map((alternate) => ({
      id: alternate.id,
      for: alternate.for,
      limits: alternate.limits.map((row) => limitOf(row, entry, regime, alternate)),
    })),
  };
}

function limitOf(row: LimitRow, entry: LimitEntry, regime: RegimeId, alternate: AlternateEntry | null): Limit {
  const sources = alternate?.sources ?? entry.sources;
  return {
    id: limitId(row, entry.gas, regime, alternate),
    gas: entry.gas as GasId, // As above.
    regime,
    kind: row.kind,
    published: publishedValue(row.published),
    alsoPublished: publishedValue(row.also ?? null),
    operator: row.operator ?? ">",
    averagingMinutes: row.minutes,
    threeLevel: row.threeLevel ?? null,
    notes: alternate === null ? (entry.notes ?? []) : [`Holds for ${alternate.for} only.`],
    ...(row.textNeedsPerson === undefined ? {} : { textNeedsPerson: row.textNeedsPerson }),
    ...(row.statedAs === undefined ? {} : { statedAs: row.statedAs }),
    skin: entry.skin ?? false,
    carcinogen: entry.carcinogen ?? false,
    validFrom: row.validFrom ?? null,
    validUntil: row.validUntil ?? null,
    edition: editionOf(sources[0] ?? ""),
    sources: sources.map(sourceOf),
    mark: alternate?.mark ?? entry.mark,
  };
}

/** Dated editions and alternates have a last part of their own, so that an id never changes its meaning. */
function limitId(row: LimitRow, gas: string, regime: RegimeId, alternate: AlternateEntry | null): string {
  const plain = `${regime}/${gas}/${row.kind}`;
  if (alternate !== null) return `${plain}/${alternate.id}`;
  if (row.validFrom !== undefined) return `${plain}/from-${row.validFrom}`;
  return row.validUntil === undefined ? plain : `${plain}/until-${row.validUntil}`;
}

function publishedValue(pair: readonly [number, Unit] | null): PublishedValue | null {
  return pair === null ? null : { value: pair[0], unit: pair[1] };
}

/** `NPG:0105` is record 0105 of the source NPG. */
function sourceOf(id: string): Source {
  const { source, part } = sourceAndPart(id);
  const title = part === "" ? source.title : `${source.title}, ${part}`;
  return { id, title, ...(source.reprint === undefined ? {} : { reprint: source.reprint }) };
}

function editionOf(id: string): string {
  const { source, part } = sourceAndPart(id);
  return part === "" ? source.edition : `${source.edition}, ${part}`;
}

function sourceAndPart(id: string): { readonly source: LimitSource; readonly part: string } {
  const colon = id.indexOf(":");
  const source = sourcesById.get(colon === -1 ? id : id.slice(0, colon));
  assert(source !== undefined, `the source ${id} stands in the table of sources`);
  return { source, part: colon === -1 ? "" : (source.part ?? "{part}").replace("{part}", id.slice(colon + 1)) };
}
