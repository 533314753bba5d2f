import { describe, expect, test } from "vitest";
import {
  ENTRY_RULES,
  flammable,
  flammableSource,
  lelBases,
  lelBasis,
  limitById,
  limitFigure,
  publishedEntry,
  publishedLimits,
  regimes,
  substance,
  substances,
} from "../../../src/core/gas/index.ts";
import { isIsoDate } from "../../../src/core/gas/iso-date.ts";
import { FLAMMABLES } from "../../../src/core/gas/tables/flammables.ts";
import { decimalFromNumber, MOLAR_VOLUME_US, textFromDecimal } from "../../../src/core/quantity/index.ts";

const regimeIds = regimes().map(({ id }) => id);

describe("substances", () => {
  test("at least 60 have limits or a table's own word that there are none", () => {
    const covered = substances.filter(({ id }) => regimeIds.some((regime) => publishedEntry(id, regime) !== null));
    expect(covered.length).toBeGreaterThanOrEqual(60);
  });

  test("ids, names and CAS numbers are given once, and CAS numbers have their check digit", () => {
    for (const field of ["id", "name", "cas"] as const) expect(new Set(substances.map((one) => one[field])).size).toBe(substances.length);
    for (const { cas } of substances) {
      const digits = [...cas.split(/[^\d-]/)[0]!.replaceAll("-", "")].map(Number);
      const check = digits.pop();
      expect([cas, digits.reverse().reduce((sum, digit, index) => sum + digit * (index + 1), 0) % 10]).toEqual([cas, check]);
    }
  });

  test("molar masses follow from the formulas", () => {
    // IUPAC abridged standard atomic weights, in g/mol.
    const weights: Readonly<Record<string, number>> = {
      H: 1.008,
      B: 10.81,
      C: 12.011,
      N: 14.007,
      O: 15.999,
      F: 18.998,
      Si: 28.085,
      P: 30.974,
      S: 32.06,
      Cl: 35.45,
      Ge: 72.63,
      As: 74.922,
      Se: 78.971,
      Br: 79.904,
    };
    for (const { formula, molarMassGramsPerMole } of substances) {
      if (formula === null) expect(molarMassGramsPerMole).toBeNull();
      else {
        const sum = [...formula.matchAll(/([A-Z][a-z]?)(\d*)/g)].reduce(
          (total, [, element = "", count]) => total + (weights[element] ?? Number.NaN) * Number(count || 1),
          0,
        );
        expect([formula, Math.abs(sum - (molarMassGramsPerMole ?? Number.NaN)) < 0.02]).toEqual([formula, true]);
      }
    }
  });
});

describe("limits", () => {
  test("every limit has an id of its own, a known gas and regime, sources, an edition and a mark", () => {
    expect(publishedLimits.length).toBeGreaterThan(250);
    expect(new Set(publishedLimits.map(({ id }) => id)).size).toBe(publishedLimits.length);
    for (const limit of publishedLimits) {
      expect(substance(limit.gas)).not.toBeNull();
      expect(regimeIds).toContain(limit.regime);
      expect(limit.id.startsWith(`${limit.regime}/${limit.gas}/${limit.kind}`)).toBe(true);
      expect(limitById(limit.id)).toBe(limit);
      expect(limit.sources.length).toBeGreaterThan(0);
      for (const source of limit.sources) expect(source.title.length).toBeGreaterThan(5);
      expect(limit.edition.length).toBeGreaterThan(3);
      expect(["read", "memory"]).toContain(limit.mark);
    }
  });

  test("kinds have the figures and the minutes that they need", () => {
    for (const { id, kind, published, threeLevel, averagingMinutes, operator, validFrom, validUntil } of publishedLimits) {
      expect([id, threeLevel !== null]).toEqual([id, kind === "three-level"]);
      expect([id, published !== null || id === "US-OSHA/hydrogen_sulphide/three-level"]).toEqual([id, true]);
      const minutesFit = {
        twa: [480, 600],
        stel: [15],
        excursion: [15],
        ceiling: [null, 10, 15, 120],
        "any-shorter-period": [15],
        "three-level": [480],
        "immediately-dangerous": [null],
      }[kind];
      expect([id, minutesFit.includes(averagingMinutes as never)]).toEqual([id, true]);
      if (kind === "immediately-dangerous") expect([id, operator]).toEqual([id, ">="]);
      for (const date of [validFrom, validUntil]) if (date !== null) expect(isIsoDate(date)).toBe(true);
      if (threeLevel !== null)
        expect([id, threeLevel.peak > threeLevel.ceiling, (published?.value ?? 0) < threeLevel.ceiling]).toEqual([id, true, true]);
    }
  });

  test("figures keep the digits as published: text and number are two forms of one thing", () => {
    for (const { published, alsoPublished } of publishedLimits) {
      for (const one of [published, alsoPublished]) {
        if (one === null) continue;
        const digits = decimalFromNumber(one.value);
        expect(digits.ok && Number(textFromDecimal(digits.value))).toBe(one.value);
        expect(one.value).toBeGreaterThan(0);
      }
    }
  });

  test("British figures are marked as recalled and stand in ppm and mg/m3 within 6 % of M/24.055", () => {
    const british = publishedLimits.filter(({ regime }) => regime === "GB-WEL");
    expect(british.length).toBeGreaterThan(50);
    for (const limit of british) {
      expect(limit.mark).toBe("memory");
      const mass = substance(limit.gas)?.molarMassGramsPerMole ?? null;
      // Hydrogen chloride is published as 1 ppm / 2 mg/m3, a rounding; hydrogen cyanide and LPG count parts or mixtures.
      if (mass === null || limit.alsoPublished === null || ["hydrogen_chloride"].includes(limit.gas)) continue;
      const ratio = ((limit.published?.value ?? 0) * mass) / 24.055 / limit.alsoPublished.value;
      expect([limit.id, Math.abs(ratio - 1) < 0.065]).toEqual([limit.id, true]);
    }
  });

  test("a figure of a part of the molecule is not converted, one of the whole is", () => {
    const fluoride = limitById("US-OSHA/hydrogen_fluoride/twa")!;
    expect(limitFigure(fluoride, "vol%", MOLAR_VOLUME_US)).toMatchObject({ ok: true, value: { value: 0.0003, how: "as published" } });
    expect(limitFigure(fluoride, "mg/m3", MOLAR_VOLUME_US)).toEqual({
      ok: false,
      refusal: { type: "limit-stated-as-part", limit: fluoride.id, statedAs: "F" },
    });
    expect(limitFigure(limitById("US-OSHA/ethylene_oxide/twa")!, "mg/m3", MOLAR_VOLUME_US)).toMatchObject({
      ok: true,
      value: { how: "converted", value: 44.053 / 24.45 },
    });
    expect(limitFigure(fluoride, "%LEL", MOLAR_VOLUME_US)).toMatchObject({ ok: false });
    expect(limitFigure(limitById("GB-WEL/lpg/twa")!, "mg/m3", MOLAR_VOLUME_US)).toMatchObject({
      ok: true,
      value: { how: "as also published" },
    });
    expect(limitFigure({ ...limitById("GB-WEL/lpg/twa")!, alsoPublished: null }, "mg/m3", MOLAR_VOLUME_US)).toMatchObject({
      ok: false,
      refusal: { type: "limit-not-convertible" },
    });
    expect(limitFigure(limitById("US-OSHA/hydrogen_sulphide/three-level")!, "ppm", MOLAR_VOLUME_US)).toMatchObject({
      ok: false,
      refusal: { type: "limit-without-figure" },
    });
  });
});

describe("flammable limits", () => {
  test("every figure names a source of the table, and lower limits lie below upper ones", () => {
    expect(FLAMMABLES.length).toBeGreaterThanOrEqual(73);
    for (const row of FLAMMABLES) {
      const sources = [
        ...row.limits.map((limits) => limits.source),
        ...[
          row.molarMass,
          row.relativeVapourDensity,
          row.netHeatKilojoulesPerMole,
          row.grossHeatKilojoulesPerMole,
          row.oxygenPerMole,
          row.diffusionVolume,
          row.diffusionSquareCentimetresPerSecond,
        ].flatMap((one) => (one === undefined ? [] : [one.source])),
        ...(row.ionisationElectronvolts ?? []).map((one) => one.source),
        ...(row.netHeatKilojoulesPerMole === undefined ? [] : [row.netHeatKilojoulesPerMole.heatOfFormationSource]),
      ];
      for (const source of sources) expect([row.gas, source, flammableSource(source) !== null]).toEqual([row.gas, source, true]);
      expect(new Set(row.limits.map(({ source }) => source)).size).toBe(row.limits.length);
      for (const { lelVolumePercent, uelVolumePercent } of row.limits) {
        if (lelVolumePercent !== null && uelVolumePercent !== null)
          expect([row.gas, lelVolumePercent < uelVolumePercent]).toEqual([row.gas, true]);
      }
    }
  });

  test("a source without the gas is refused, never replaced; a missing figure is no basis", () => {
    expect(lelBasis("methane", "NPG")).toMatchObject({
      ok: false,
      refusal: { type: "no-limit-in-source", sources: ["IEC", "NFPA", "BM627"] },
    });
    expect(lelBasis("oxygen", "IEC")).toEqual({ ok: false, refusal: { type: "no-flammable-limit", gas: "oxygen" } });
    // The record of liquefied petroleum gas prints the limits of two of its parts, none of the mixture.
    expect(lelBases("lpg")).toEqual([]);
    expect(flammable("lpg")?.limits.find(({ source }) => source === "NPG")?.asPublished).toMatch("1.9% (Butane)");
    expect(lelBases("ethane").find(({ source }) => source === "BM627m")?.mark).toBe("memory");
  });

  test("limits measured hot say so", () => {
    expect(lelBases("mek").filter((basis) => basis.measuredAtCelsius !== null).length).toBeGreaterThan(0);
  });
});

test("entry rules name gas, source and a bound", () => {
  for (const rule of ENTRY_RULES) {
    expect([rule.low, rule.high, rule.percentOfLel].some((bound) => bound !== null)).toBe(true);
    expect(rule.source.length).toBeGreaterThan(10);
  }
  expect(ENTRY_RULES.find((rule) => rule.gas === "oxygen")).toMatchObject({ low: { volumePercent: 19.5 }, high: { volumePercent: 23.5 } });
});
