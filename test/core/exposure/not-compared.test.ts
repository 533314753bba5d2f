// Every published limit of every gas, against readings in every unit: a finding or a reason, never both and never neither.
import { expect, test } from "vitest";
import { assessRecording } from "../../../src/core/exposure/index.ts";
import { type Limit, limitsFor, regimes, type Substance, substances } from "../../../src/core/gas/index.ts";
import { kindOfUnit, type Unit } from "../../../src/core/quantity/index.ts";
import type { Channel } from "../../../src/core/recording/index.ts";

const UNITS: readonly Unit[] = ["ppm", "ppb", "vol%", "mol/mol", "%LEL", "mg/m3", "ug/m3"];

const limitsOf = ({ id }: Substance): readonly Limit[] =>
  regimes(null).flatMap((regime) => {
    const answer = limitsFor(id, regime.id, { on: null, own: null });
    return answer.status === "limits" ? answer.limits : [];
  });

function assessedIn(unit: Unit | null, gas: Channel["gas"], limits: readonly Limit[]) {
  const channel: Channel = {
    ...{ name: "C", series: null, gas, unit, kind: "spot", decimals: 0, times: Float64Array.of(0, 60_000, 120_000) },
    ...{ values: Int32Array.of(1, 2, 1), uppers: null, codes: null, lines: null, rangeTop: null },
  };
  const recording = { file: "example", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
  const assessed = assessRecording(recording, {
    ...{ limits: () => limits, regimes: [], largestGapMs: null, shifts: [], unsampled: { kind: "open" }, declarations: [] },
    ...{ deadBand: () => null, negativeFloor: () => null, measurableThreshold: () => null, meansStandForCeilings: false },
  });
  const answered = assessed.ok ? assessed.value[0]?.channels[0] : undefined;
  if (answered === undefined) throw new Error(`${gas} in ${unit} was not assessed`);
  return answered;
}

test.each(UNITS)("readings in %s", (unit) => {
  let compared = 0;
  for (const gas of substances) {
    const limits = limitsOf(gas);
    const { findings, notCompared } = assessedIn(unit, gas.id, limits);
    const answered = [...findings.map(({ limit }) => limit), ...notCompared.map(({ limit }) => limit)];
    expect(answered.length, gas.id).toBe(limits.length);
    expect(new Set(answered), gas.id).toEqual(new Set(limits));
    for (const { limit, why } of notCompared) expect(why, `${limit.id} in ${unit}`).toBe(reasonOf(limit, unit));
    compared += findings.length;
  }
  expect(compared > 0).toBe(unit !== "%LEL");
});

/** The only reasons there are while a unit is known: %LEL meets nothing, "as F" waits for a person, and the rest has no molar mass. */
function reasonOf(limit: Limit, unit: Unit): string {
  if (kindOfUnit(unit) === "fraction of LEL") return "other kind of unit";
  return limit.statedAs === undefined ? "no conversion known" : "counts a part of the molecule";
}

test("without a unit nothing is compared, and every limit is named", () => {
  for (const gas of substances) {
    const limits = limitsOf(gas);
    const { findings, notCompared } = assessedIn(null, gas.id, limits);
    expect(findings).toEqual([]);
    expect(notCompared).toEqual(limits.map((limit) => ({ limit, why: "unit not known" })));
  }
});
