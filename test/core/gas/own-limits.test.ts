import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import schema from "../../../docs/schemas/own-limits.json" with { type: "json" };
import {
  alternatesFor,
  limitById,
  limitsFor,
  type OwnLimits,
  ownLimitsFromJson,
  publishedLimits,
  regimeById,
  regimes,
  substances,
} from "../../../src/core/gas/index.ts";

const signed = { form: "lamproom-own-limits/1", by: "R. Okafor, hygienist", on: "2026-01-05" };
const regime = { id: "MARL-BECK", name: "Marl Beck works rule" };
const strict = { gas: "H2S", kind: "twa", value: "1.0", unit: "ppm", why: "decided by the works council" };
const newer = {
  gas: "ammonia",
  kind: "twa",
  value: "20",
  unit: "ppm",
  why: "the table was checked against the text in force",
  source: "EH40/2005, text in force on the day",
  edition: "as read on 2026-01-05",
  replaces: "GB-WEL/ammonia/twa",
};

const fitsSchema = new Ajv2020({ strict: false }).compile(schema);

/** Reads a file that must be right, and holds it against the published schema as well. */
function read(json: unknown): OwnLimits {
  const own = ownLimitsFromJson(json);
  if (!own.ok) throw new Error(JSON.stringify(own.refusal));
  expect([fitsSchema(json), fitsSchema.errors]).toEqual([true, null]);
  return own.value;
}

const faultsOf = (json: unknown) => {
  const own = ownLimitsFromJson(json);
  return own.ok ? [] : own.refusal.faults.map(({ at, why }) => `${at}: ${why}`);
};

const figures = (answer: ReturnType<typeof limitsFor>) =>
  answer.status === "limits" ? answer.limits.map((limit) => [limit.id, limit.published?.value]) : answer.status;

describe("the published table", () => {
  test("no limit, not covered and limits are three answers", () => {
    expect(limitsFor("hydrogen", "GB-WEL", { on: null })).toMatchObject({
      status: "no limit",
      asPublished: "no WEL listed",
      mark: "memory",
    });
    expect(limitsFor("carbon_monoxide", "FR", { on: null })).toEqual({ status: "not covered" });
    expect(limitsFor("vinyl_chloride", "US-NIOSH", { on: null })).toMatchObject({
      status: "no limit",
      asPublished: "Ca See Appendix A; immediately dangerous: Ca [N.D.]",
    });
    expect(limitsFor("argon", "US-OSHA", { on: null })).toEqual({ status: "not covered" });
    for (const { id } of substances)
      for (const one of regimes()) expect(["limits", "no limit", "not covered"]).toContain(limitsFor(id, one.id, { on: null }).status);
  });

  test("without a date the latest edition is taken and says so", () => {
    expect(limitsFor("benzene", "EU-IOELV", { on: null })).toMatchObject({
      status: "limits",
      editionBy: "latest",
      limits: [{ published: { value: 0.2 } }],
    });
    expect(limitsFor("benzene", "EU-IOELV", { on: "2030-01-01" })).toMatchObject({
      editionBy: "date",
      limits: [{ published: { value: 0.2 } }],
    });
  });

  test("alternates hold only when asked for, and only as long as they last", () => {
    expect(alternatesFor("benzene", "US-OSHA").map(({ id }) => id)).toEqual(["exempt-from-1910.1028"]);
    expect(figures(limitsFor("benzene", "US-OSHA", { on: null }))).toEqual([
      ["US-OSHA/benzene/twa", 1],
      ["US-OSHA/benzene/stel", 5],
    ]);
    expect(figures(limitsFor("benzene", "US-OSHA", { on: null, alternate: "exempt-from-1910.1028" }))).toEqual([
      ["US-OSHA/benzene/three-level/exempt-from-1910.1028", 10],
    ]);
    const mine = { alternate: "underground-mining-and-tunnelling" };
    const plain = (on: string) => {
      const answer = figures(limitsFor("carbon_monoxide", "GB-WEL", { on, ...mine }));
      return typeof answer === "string" ? answer : answer.map(([, value]) => value);
    };
    expect([plain("2023-08-20"), plain("2023-08-21")]).toEqual([
      [30, 200],
      [20, 100],
    ]);
    expect(() => limitsFor("benzene", "US-OSHA", { on: null, alternate: "nothing" })).toThrow("broken promise");
    expect(() => limitsFor("benzene", "US-OSHA", { on: "2026-02-29" })).toThrow("broken promise");
  });

  test("the same limit is the same object in every answer", () => {
    const first = limitsFor("carbon_monoxide", "US-OSHA", { on: null });
    const second = limitsFor("carbon_monoxide", "US-OSHA", { on: "2020-01-01" });
    expect(first.status === "limits" && second.status === "limits" && first.limits[0] === second.limits[0]).toBe(true);
  });
});

describe("a site's own limits", () => {
  test("stand in their own regime and hide no legal one", () => {
    const own = read({ ...signed, regime, limits: [strict] });
    for (const one of regimes())
      expect(limitsFor("hydrogen_sulphide", one.id, { on: null, own })).toEqual(limitsFor("hydrogen_sulphide", one.id, { on: null }));
    expect(regimes(own).map(({ id }) => id)).toEqual([...regimes().map(({ id }) => id), "MARL-BECK"]);
    const mine = regimeById("MARL-BECK", own)!;
    expect(mine).toMatchObject({
      shiftTreatment: "any-24h-over-8h",
      shiftMark: "own",
      edition: "set by R. Okafor, hygienist on 2026-01-05",
    });
    expect(limitsFor("hydrogen_sulphide", mine.id, { on: null, own })).toMatchObject({
      status: "limits",
      limits: [
        {
          published: { value: 1, unit: "ppm" },
          averagingMinutes: 480,
          mark: "own",
          notes: ["Set by R. Okafor, hygienist on 2026-01-05: decided by the works council"],
        },
      ],
    });
    expect(limitsFor("ammonia", mine.id, { on: null, own })).toEqual({ status: "not covered" });
    expect(limitById("MARL-BECK/hydrogen_sulphide/twa", own)?.gas).toBe("hydrogen_sulphide");
  });

  test("a replacement takes the place of the figure that it names, and keeps who, why and what was there", () => {
    const own = read({ ...signed, limits: [newer] });
    expect(own.regime).toBeNull();
    const answer = limitsFor("ammonia", "GB-WEL", { on: null, own });
    expect(figures(answer)).toEqual([
      ["GB-WEL/ammonia/twa/replaced", 20],
      ["GB-WEL/ammonia/stel", 35],
    ]);
    expect(answer.status === "limits" && answer.limits[0]).toMatchObject({
      mark: "own",
      sources: [{ title: "EH40/2005, text in force on the day" }],
      notes: [
        "Set by R. Okafor, hygienist on 2026-01-05: the table was checked against the text in force",
        "In place of 25 ppm (4th edition 2020; memory).",
      ],
    });
    expect(own.replacements).toMatchObject([
      { replaces: { id: "GB-WEL/ammonia/twa" }, by: "R. Okafor, hygienist", why: "the table was checked against the text in force" },
    ]);
  });

  test("a replacement with a first day leaves the days before it alone", () => {
    const own = read({ ...signed, limits: [{ ...newer, validFrom: "2026-02-01" }] });
    const on = (date: string) => {
      const answer = figures(limitsFor("ammonia", "GB-WEL", { on: date, own }));
      return typeof answer === "string" ? answer : answer.map(([, value]) => value);
    };
    expect([on("2026-01-31"), on("2026-02-01")]).toEqual([
      [25, 35],
      [20, 35],
    ]);
    const latest = limitsFor("ammonia", "GB-WEL", { on: null, own });
    expect(latest.status === "limits" && latest.limits.map((limit) => limit.published?.value)).toEqual([20, 35]);
    const before = [limitsFor("ammonia", "GB-WEL", { on: "2026-01-01", own }), limitsFor("ammonia", "GB-WEL", { on: "2026-01-02", own })];
    expect(before[0]?.status === "limits" && before[1]?.status === "limits" && before[0].limits[0] === before[1].limits[0]).toBe(true);
  });

  test("every kind can be given", () => {
    const own = read({
      ...signed,
      regime: { ...regime, molarVolume: "EU", shiftTreatment: "worst-8h", jurisdiction: "the works" },
      limits: [
        { ...strict, kind: "stel", value: 5 },
        { ...strict, kind: "ceiling", value: "10", averagingMinutes: 10, operator: ">=" },
        { ...strict, kind: "any-shorter-period", averagingMinutes: 15 },
        { ...strict, kind: "excursion", averagingMinutes: 30 },
        { ...strict, kind: "immediately-dangerous", value: "50", operator: ">=" },
        {
          gas: "toluene",
          kind: "three-level",
          value: "50",
          unit: "ppm",
          why: "x",
          threeLevel: { ceiling: 100, peak: "200", unit: "ppm", longestMinutes: 5, withinMinutes: 120 },
        },
        {
          gas: "styrene",
          kind: "three-level",
          why: "x",
          threeLevel: { ceiling: 100, peak: 200, unit: "ppm", longestMinutes: 5, onceOnly: true },
          skin: true,
        },
        {
          gas: "arsine",
          kind: "twa",
          value: "0.002",
          unit: "mg/m³",
          why: "x",
          validFrom: "2026-01-01",
          validUntil: "2027-01-01",
          notes: ["short"],
        },
      ],
    });
    expect(own.limits.map(({ kind, averagingMinutes, operator }) => [kind, averagingMinutes, operator])).toEqual([
      ["stel", 15, ">"],
      ["ceiling", 10, ">="],
      ["any-shorter-period", 15, ">"],
      ["excursion", 30, ">"],
      ["immediately-dangerous", null, ">="],
      ["three-level", 480, ">"],
      ["three-level", 480, ">"],
      ["twa", 480, ">"],
    ]);
    expect(own.limits[6]).toMatchObject({ published: null, skin: true, threeLevel: { onceOnly: true, withinMinutes: null } });
    expect(own.limits[7]).toMatchObject({ published: { value: 0.002, unit: "mg/m3" }, id: "MARL-BECK/arsine/twa/from-2026-01-01" });
  });

  const file = (limit: object) => ({ ...signed, regime, limits: [{ ...strict, ...limit }] });
  test.each([
    [null, [": not-an-object", "form: not-one-of-the-choices", "by: not-words", "on: not-words", "limits: not-a-list"]],
    [{ ...signed, regime, limits: {} }, ["limits: not-a-list"]],
    [{ ...signed, form: "lamproom-own-limits/9", regime, limits: [] }, ["form: not-one-of-the-choices"]],
    [{ ...signed, on: "2026-02-30", regime, limits: [] }, ["on: not-a-date"]],
    [{ ...signed, regime: { id: "US-OSHA", name: "mine" }, limits: [] }, ["regime.id: regime-id-taken-or-not-in-capitals"]],
    [{ ...signed, regime: { ...regime, shiftTreatment: "none" }, limits: [] }, ["regime.shiftTreatment: not-one-of-the-choices"]],
    [{ ...signed, limits: [strict] }, ["limits[0]: own-limit-without-a-regime"]],
    [file({ gas: "amonnia" }), ["limits[0].gas: unknown-gas"]],
    [file({ kind: "average" }), ["limits[0].kind: not-one-of-the-choices"]],
    [file({ value: "1,0" }), ["limits[0].value: not-a-number-above-nought"]],
    [file({ value: 0 }), ["limits[0].value: not-a-number-above-nought"]],
    [file({ value: -1 }), ["limits[0].value: not-a-number-above-nought"]],
    [file({ unit: "%" }), ["limits[0].unit: unknown-unit"]],
    [file({ unit: "% LEL" }), ["limits[0].unit: unit-without-a-basis"]],
    [file({ operator: "=>" }), ["limits[0].operator: not-one-of-the-choices"]],
    [file({ averagingMinutes: "15" }), ["limits[0].averagingMinutes: minutes-above-nought-up-to-1440"]],
    [file({ averagingMinute: 15 }), ["limits[0].averagingMinute: unknown-field"]],
    [file({ kind: "any-shorter-period" }), ["limits[0].averagingMinutes: minutes-above-nought-up-to-1440"]],
    [file({ kind: "immediately-dangerous", averagingMinutes: 15 }), ["limits[0].averagingMinutes: never-averaged"]],
    [file({ why: " " }), ["limits[0].why: not-words"]],
    [file({ skin: "yes" }), ["limits[0].skin: not-true-or-false"]],
    [file({ threeLevel: {} }), ["limits[0].threeLevel: only-for-three-level"]],
    [file({ validFrom: "2026-01-02", validUntil: "2026-01-02" }), ["limits[0].validUntil: ends-before-it-begins"]],
    [file({ replaces: "GB-WEL/argon/twa" }), ["limits[0].replaces: no-such-limit"]],
    [file({ replaces: "GB-WEL/ammonia/twa", source: "x" }), ["limits[0].replaces: replaces-another-gas-or-kind"]],
    [file({ replaces: "GB-WEL/hydrogen_sulphide/twa" }), ["limits[0].source: replacement-without-official-text"]],
    [{ ...signed, regime, limits: [strict, strict] }, ["limits[1]: given-twice"]],
  ])("%j is refused with places", (json, faults) => {
    expect(faultsOf(json)).toEqual(faults);
    // What a schema cannot know: names, dates that do not exist, other entries, and what stands in another field.
    const beyondSchema =
      /unknown-gas|unknown-unit|unit-without|not-a-date|no-such-limit|another-gas|given-twice|ends-before|without-a-regime|never-averaged|above-nought$/;
    if (!faults.some((fault) => beyondSchema.test(fault))) expect(fitsSchema(json)).toBe(false);
  });

  test("published limits are never changed by reading a file", () => {
    const before = JSON.stringify(publishedLimits);
    read({ ...signed, regime, limits: [strict, { ...newer, validFrom: "2026-02-01" }] });
    expect(JSON.stringify(publishedLimits)).toBe(before);
  });
});
