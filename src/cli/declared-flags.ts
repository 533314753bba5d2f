/** Flags by which somebody says what the data do not: declarations, settings of the site, and whose word they are. */
import type { Stated, Unsampled } from "../core/exposure/assessment.ts";
import { decimalFromText } from "../core/quantity/index.ts";
import { given, type Result, refused } from "../core/result.ts";
import type { Refusal } from "../report/index.ts";
import type { ExposureOptions } from "../work/assess-exposure.ts";
import { declarationsFromText, type GivenDeclaration } from "../work/declarations-given.ts";
import { type GasValueRule, gasValues } from "../work/gas-values.ts";
import { type WrongCall, wrongCall } from "./complain.ts";
import { all, one, type ReadFlags, split, unfit } from "./flags.ts";
import type { Surroundings } from "./surroundings.ts";

export type DeclaredChoices = Pick<
  ExposureOptions,
  | "unsampled"
  | "unsampledBy"
  | "settingsBy"
  | "deadBands"
  | "negativeFloors"
  | "measurableThresholds"
  | "meansStandForCeilings"
  | "longShiftModel"
>;

const LONG_SHIFT_MODEL = "brief-scala-daily";

/** What the flags themselves declare; whose word it is goes with all of them. */
export function declaredChoices(flags: ReadFlags): Result<DeclaredChoices, Refusal> {
  const unsampled = unsampledOf(flags);
  if (!unsampled.ok) return unsampled;
  const measurable = valuesOf(flags, "--measurable", { setting: "measurable threshold", mayBeNought: false });
  if (!measurable.ok) return measurable;
  const bands = valuesOf(flags, "--dead-band", { setting: "dead band", mayBeNought: true });
  if (!bands.ok) return bands;
  const floors = valuesOf(flags, "--negative-floor", { setting: "negative floor", mayBeNought: true });
  if (!floors.ok) return floors;
  const model = one(flags, "--long-shift");
  if (model !== null && model !== LONG_SHIFT_MODEL) return unfit("--long-shift", model, LONG_SHIFT_MODEL);
  const stated = statedBy(flags);
  if (!stated.ok) return stated;
  return given({
    unsampled: unsampled.value,
    unsampledBy: unsampled.value.kind === "open" ? null : stated.value,
    settingsBy: stated.value,
    measurableThresholds: measurable.value,
    deadBands: bands.value,
    negativeFloors: floors.value,
    meansStandForCeilings: flags.values.has("--means-stand-for-ceilings"),
    longShiftModel: model === null ? null : LONG_SHIFT_MODEL,
  });
}

const SAYS_SOMETHING = ["--unsampled", "--measurable", "--dead-band", "--negative-floor", "--means-stand-for-ceilings", "--long-shift"];

/** A name without anything that it stands for is a slip: what was meant to be declared was not. */
function statedBy(flags: ReadFlags): Result<Stated | null, Refusal> {
  const [by, reason] = [one(flags, "--declared-by"), one(flags, "--reason")];
  if (by === null && reason !== null) return refused({ type: "flags-belong-together", name: "--reason", needs: "--declared-by" });
  if (by === null) return given(null);
  if (!SAYS_SOMETHING.some((name) => flags.values.has(name)))
    return refused({ type: "flags-belong-together", name: "--declared-by", needs: SAYS_SOMETHING.join(", ") });
  return given({ by, reason: reason ?? "" });
}

function unsampledOf(flags: ReadFlags): Result<Unsampled, Refusal> {
  const text = one(flags, "--unsampled");
  switch (text) {
    case null:
    case "open":
      return given({ kind: "open" });
    case "zero":
      return given({ kind: "zero" });
    case "like":
      return given({ kind: "like" });
    default: {
      const level = decimalFromText(text);
      return level.ok && level.value.mantissa >= 0
        ? given({ kind: "level", text })
        : refused({ type: "unsampled-level-not-a-number", text });
    }
  }
}

function valuesOf(flags: ReadFlags, name: string, rule: GasValueRule): ReturnType<typeof gasValues> {
  const pairs: (readonly [string, string])[] = [];
  for (const text of all(flags, name)) {
    const pair = split(text);
    if (pair === null) return unfit(name, text, "GAS=VALUE, such as hydrogen_sulphide=1");
    pairs.push(pair);
  }
  return gasValues(pairs, rule);
}

/** The files of declarations, one after the other. */
export async function declarationsOf(
  flags: ReadFlags,
  surroundings: Surroundings,
): Promise<Result<readonly GivenDeclaration[], WrongCall>> {
  const declarations: GivenDeclaration[] = [];
  for (const file of all(flags, "--declare")) {
    const text = await surroundings.readText(file);
    if (!text.ok) return wrongCall(text.refusal, file);
    const read = declarationsFromText(file, text.value);
    if (!read.ok) return wrongCall(read.refusal, file);
    declarations.push(...read.value);
  }
  return given(declarations);
}
