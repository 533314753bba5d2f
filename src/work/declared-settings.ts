/** Choices of the site as what an answer rests on: only those that can have changed it. */
import type { ChannelAssessment } from "../core/exposure/assessment.ts";
import type { Assumption, Finding } from "../core/finding.ts";
import type { ReadingKind } from "../core/quantity/reading-kind.ts";
import type { Unit } from "../core/quantity/unit.ts";
import type { ExposureOptions } from "./assess-exposure.ts";

type Setting = Extract<Assumption, { readonly type: "declared-setting" }>;
type Chosen = Pick<Setting, "setting" | "valueText" | "unit">;

/** What was chosen for the readings of a channel, whatever they are set against. */
export function readingSettings({ gas, unit }: Pick<ChannelAssessment, "gas" | "unit">, options: ExposureOptions): readonly Setting[] {
  if (gas === null) return [];
  return signed(options, [
    ...valueSetting("dead band", options.deadBands[gas], unit),
    ...valueSetting("negative floor", options.negativeFloors[gas], unit),
  ]);
}

const MOMENTS = new Set<string>(["ceiling", "immediately-dangerous", "three-level"]);

/** What was chosen for one kind of limit. */
export function limitSettings(
  { limit, shiftRule }: Pick<Finding, "limit" | "shiftRule">,
  { gas, unit, kind }: { readonly gas: string | null; readonly unit: Unit | null; readonly kind: ReadingKind },
  options: ExposureOptions,
): readonly Setting[] {
  const chosen: Chosen[] = [];
  if (limit.kind === "three-level" && gas !== null)
    chosen.push(...valueSetting("measurable threshold", options.measurableThresholds[gas], unit));
  if (options.meansStandForCeilings && kind === "interval mean" && MOMENTS.has(limit.kind))
    chosen.push({ setting: "means stand for ceilings", valueText: null, unit: null });
  if (shiftRule !== null && shiftRule === options.longShiftModel) chosen.push({ setting: "long-shift model", valueText: null, unit: null });
  return signed(options, chosen);
}

function valueSetting(setting: Setting["setting"], valueText: string | undefined, unit: Unit | null): readonly Chosen[] {
  return valueText === undefined ? [] : [{ setting, valueText, unit }];
}

function signed({ settingsBy }: ExposureOptions, chosen: readonly Chosen[]): readonly Setting[] {
  const { by, reason } = settingsBy ?? { by: null, reason: null };
  return chosen.map((one) => ({ type: "declared-setting", ...one, by, reason }));
}
