// OSHA Tables Z-1 and Z-2 (April 2018), NIOSH Pocket Guide (2016-2018): published pairs and entry figures,
// goldens/exposure.json, topics units, entry_and_limits, z2, ceiling.
import { expect, test } from "vitest";
import {
  type Limit,
  lelBasis,
  limitById,
  limitFigure,
  limitsFor,
  publishedEntry,
  type RegimeId,
  substances,
} from "../../../src/core/gas/index.ts";
import { MOLAR_VOLUME_US } from "../../../src/core/quantity/index.ts";
import { convertedValue, goldenCase } from "../quantity/golden-cases.ts";

function published(id: string): Limit {
  const limit = limitById(id);
  if (limit === null) throw new Error(`no limit ${id}`);
  return limit;
}

test("exposure-units-08: published pairs are no exact conversions, so the figure in the reading's own unit is taken", () => {
  const { inputs, expected } = goldenCase("exposure", "exposure-units-08");
  inputs.pairs.forEach((pair: { readonly id: string; readonly ppm: number; readonly published_mg_m3: number }, index: number) => {
    const limit = published(`US-NIOSH/${pair.id}/stel`);
    expect(limit.published).toEqual({ value: pair.ppm, unit: "ppm" });
    expect(limit.alsoPublished).toEqual({ value: pair.published_mg_m3, unit: "mg/m3" });
    const figure = limitFigure(limit, "mg/m3", MOLAR_VOLUME_US);
    expect(figure).toMatchObject({ ok: true, value: { value: pair.published_mg_m3, how: "as also published", conversion: null } });
    const converted = limitFigure({ ...limit, alsoPublished: null }, "mg/m3", MOLAR_VOLUME_US);
    expect(converted.ok && converted.value.how).toBe("converted");
    expect(Math.abs((converted.ok ? converted.value.value : 0) - expected.calculated_mg_m3[index])).toBeLessThanOrEqual(0.01);
  });
});

test("exposure-entry-03: 10 % of the lower explosive limit of toluene is far above its toxic limits", () => {
  const { inputs, expected } = goldenCase("exposure", "exposure-entry-03");
  const basis = lelBasis("toluene", "NPG");
  if (!basis.ok) throw new Error("toluene has a limit in the Pocket Guide");
  expect(basis.value.lelVolumePercent).toBe(inputs.lel_vol_pct);
  const ppm = convertedValue({ value: 10, unit: "%LEL", gas: "toluene", lelBasis: basis.value }, { unit: "ppm" });
  expect(ppm).toBeCloseTo(expected.ten_pct_lel_ppm, 6);
  expect(ppm / (published("US-OSHA/toluene/three-level").published?.value ?? 0)).toBeCloseTo(expected.times_osha_twa, 6);
  expect(ppm / (published("US-NIOSH/toluene/twa").published?.value ?? 0)).toBeCloseTo(expected.times_niosh_twa, 6);
  expect(ppm > (published("US-NIOSH/toluene/immediately-dangerous").published?.value ?? Number.NaN)).toBe(expected.above_idlh);
});

test("exposure-entry-05: figures for carbon dioxide", () => {
  const { inputs } = goldenCase("exposure", "exposure-entry-05");
  expect(published("US-OSHA/carbon_dioxide/twa").published?.value).toBe(inputs.osha_twa_ppm);
  expect(published("US-NIOSH/carbon_dioxide/stel").published?.value).toBe(inputs.niosh_st_ppm);
  expect(published("US-NIOSH/carbon_dioxide/immediately-dangerous").published?.value).toBe(inputs.idlh_ppm);
});

// The six rows of Table Z-2 with a peak: average, ceiling, peak, minutes, within minutes, once only (handbook section 7, read).
test.each([
  ["US-OSHA/hydrogen_sulphide/three-level", null, 20, 50, 10, null, true],
  ["US-OSHA/toluene/three-level", 200, 300, 500, 10, null, false],
  ["US-OSHA/styrene/three-level", 100, 200, 600, 5, 180, false],
  ["US-OSHA/trichloroethylene/three-level", 100, 200, 300, 5, 120, false],
  ["US-OSHA/carbon_disulphide/three-level", 20, 30, 100, 30, null, false],
  ["US-OSHA/benzene/three-level/exempt-from-1910.1028", 10, 25, 50, 10, null, false],
] as const)("29 CFR 1910.1000 Table Z-2: %s", (id, average, ceiling, peak, longestMinutes, withinMinutes, onceOnly) => {
  const limit = published(id);
  expect(limit.published?.value ?? null).toBe(average);
  expect(limit.threeLevel).toEqual({ ceiling, peak, unit: "ppm", longestMinutes, withinMinutes, onceOnly });
});

// Ceilings with minutes of their own and without (handbook section 6, NIOSH Pocket Guide, read).
test.each([
  ["US-NIOSH/hydrogen_sulphide/ceiling", 10, 10],
  ["US-NIOSH/chlorine/ceiling", 0.5, 15],
  ["US-NIOSH/hydrogen_fluoride/ceiling", 6, 15],
  ["US-NIOSH/formaldehyde/ceiling", 0.1, 15],
  ["US-NIOSH/hydrazine/ceiling", 0.03, 120],
  ["US-NIOSH/carbon_monoxide/ceiling", 200, null],
  ["US-NIOSH/ozone/ceiling", 0.1, null],
  ["US-OSHA/vinyl_chloride/any-shorter-period", 5, 15],
  ["US-OSHA/ethylene_oxide/excursion", 5, 15],
] as const)("%s is %d ppm over %s min", (id, value, minutes) => {
  expect([published(id).published?.value, published(id).averagingMinutes]).toEqual([value, minutes]);
});

test("NIOSH ethylene oxide: below 0.1 is printed, so exactly 0.1 breaks it; the 10 minutes a day need a person", () => {
  expect(published("US-NIOSH/ethylene_oxide/twa").operator).toBe(">=");
  expect(published("US-NIOSH/ethylene_oxide/ceiling").textNeedsPerson).toMatch("10-min/day");
});

/** The figures of the text as printed, thousands mark away: "C 0.5 ppm (1.45 mg/m3) [15-minute]". */
const figuresOf = (text: string): readonly string[] =>
  [...text.replaceAll(/(\d),(\d{3})/g, "$1$2").matchAll(/\d+(?:\.\d+)?/g)].map(([figure]) => figure);

const printed = substances.flatMap(({ id }) =>
  (["US-OSHA", "US-NIOSH", "GB-WEL", "EU-IOELV"] as const satisfies readonly RegimeId[]).flatMap((regime) => {
    const entry = publishedEntry(id, regime);
    return entry === null || entry.asPublished === "" || entry.limits.length === 0
      ? []
      : [[`${regime} ${id}: ${entry.asPublished}`, entry] as const];
  }),
);

test("enough rows carry their printed text", () => expect(printed.length).toBeGreaterThan(100));

test.each(printed)("the digits of every limit stand in the text as printed: %s", (_, entry) => {
  const figures = figuresOf(entry.asPublished);
  for (const limit of entry.limits) {
    for (const one of [limit.published, limit.alsoPublished]) if (one !== null) expect(figures).toContain(String(one.value));
    if (limit.threeLevel !== null)
      expect(figures).toEqual(expect.arrayContaining([String(limit.threeLevel.ceiling), String(limit.threeLevel.peak)]));
  }
});

const tableRows = substances.flatMap(({ id }) => {
  const entry = publishedEntry(id, "US-OSHA");
  const figures = entry?.tableRow?.split(" | ").slice(1) ?? [];
  return entry === null || !figures.some((figure) => /^(?:\(C\) )?[\d.]+$/.test(figure))
    ? []
    : [[entry.tableRow ?? "", entry, figures] as const];
});

test("enough rows of Table Z-1 hold figures", () => expect(tableRows.length).toBeGreaterThan(35));

test.each(tableRows)("29 CFR 1910.1000 Table Z-1: %s", (_, entry, [ppm = "", milligrams = ""]) => {
  const [limit] = entry.limits;
  expect(entry.limits).toHaveLength(1);
  expect(limit?.kind).toBe(ppm.startsWith("(C)") ? "ceiling" : "twa");
  expect(String(limit?.published?.value)).toBe(ppm.replace("(C) ", ""));
  expect(String(limit?.alsoPublished?.value)).toBe(milligrams.replace("(C) ", ""));
});

test("2022/431: the European benzene limit changes on its own days", () => {
  const on = (date: string) => {
    const answer = limitsFor("benzene", "EU-IOELV", { on: date });
    return answer.status === "limits" ? answer.limits.map((limit) => limit.published?.value) : answer.status;
  };
  expect(["2024-04-04", "2024-04-05", "2026-04-04", "2026-04-05"].map(on)).toEqual([[1], [0.5], [0.5], [0.2]]);
});
