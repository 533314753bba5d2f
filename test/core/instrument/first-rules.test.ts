import { describe, expect, test } from "vitest";
import { limitsFor, PUBLISHED_REGIMES, substances } from "../../../src/core/gas/index.ts";
import { firstRules, sayable } from "../../../src/core/instrument/index.ts";

describe("the first rules", () => {
  const now = "2026-03-04T07:31:00.000Z";
  const gases = substances.map(({ id }) => id);

  describe.each(PUBLISHED_REGIMES.map(({ id }) => id))("%s", (regime) => {
    const { rules, unset } = firstRules({ zone: "Europe/London", regime, gases });

    test("can be said as they are, and need nobody's agreement", () => {
      const happened = { earliest: now, latest: now, basis: "typed" as const };
      expect(sayable({ kind: "rules-set", happened, by: null, subjects: [], restsOn: [], body: { rules }, private: null })).toMatchObject({
        ok: true,
      });
    });

    test("every setting names where it is from", () => {
      const sources = [...JSON.stringify(rules).matchAll(/"title":"([^"]*)"/g)].map(([, title]) => title);
      expect(sources.length).toBeGreaterThan(100);
      expect(sources.filter((title) => title === "")).toEqual([]);
    });

    test("a gas that harms below its explosive limit has no alarm in parts of that", () => {
      const inLel = rules.setPoints
        .filter(({ points }) => points.some(({ value }) => value.kind === "fraction-of-lel"))
        .map(({ gas }) => gas);
      expect(inLel).toContain("methane");
      expect(inLel).not.toContain("hydrogen_sulphide");
      const limited = inLel.filter((gas) => PUBLISHED_REGIMES.some(({ id }) => limitsFor(gas, id, { on: null }).status === "limits"));
      expect(limited).toEqual([]);
    });

    test("no momentary alarm lies above every limit of its gas in ppm", () => {
      for (const { gas, points } of rules.setPoints) {
        const answer = limitsFor(gas, regime, { on: null });
        if (answer.status !== "limits") continue;
        const highest = Math.max(
          ...answer.limits.flatMap(({ kind, published, threeLevel }) =>
            kind === "immediately-dangerous"
              ? []
              : [published?.unit === "ppm" ? published.value : 0, threeLevel?.unit === "ppm" ? threeLevel.ceiling : 0],
          ),
        );
        for (const { value } of points) expect(Number(value.digits)).toBeLessThanOrEqual(highest);
      }
    });

    test("a gas has its alarms, or is named as one without", () => {
      const without = unset.filter(({ setting }) => setting === "set-points").map(({ gas }) => gas);
      expect([...rules.setPoints.map(({ gas }) => gas), ...without].sort()).toEqual([...gases].sort());
    });
  });

  test.each([
    ["oxygen, 29 CFR 1910.146(b) [read]", "GB-WEL", "oxygen", ["low 19.5 %", "high 23.5 %"], ["low"]],
    [
      "methane, 29 CFR 1910.146(b): 10 % of the LEL [read]; the high one: common practice",
      "GB-WEL",
      "methane",
      ["low 10 %", "high 20 %"],
      ["low", "high"],
    ],
    [
      "carbon monoxide, EH40/2005 [memory]",
      "GB-WEL",
      "carbon_monoxide",
      ["low 20 [ppm]", "high 100 [ppm]", "twa 20 [ppm]", "stel 100 [ppm]"],
      ["low", "high"],
    ],
    [
      "hydrogen sulphide, Table Z-2 of 29 CFR 1910.1000: ceiling 20 ppm [read]",
      "US-OSHA",
      "hydrogen_sulphide",
      ["high 20 [ppm]"],
      ["high"],
    ],
    ["chlorine, Table Z-1 of 29 CFR 1910.1000: ceiling 1 ppm [read]", "US-OSHA", "chlorine", ["high 1 [ppm]"], ["high"]],
  ] as const)("%s", (_, regime, gas, wanted, raised) => {
    const [row] = firstRules({ zone: "UTC", regime, gases: [gas] }).rules.setPoints;
    expect(row?.points.map(({ name, value }) => `${name} ${value.digits} ${value.unit}`)).toEqual(wanted);
    expect(row?.raisedByGasTest).toEqual(raised);
  });
});
