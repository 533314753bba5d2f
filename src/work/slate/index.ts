/** The slate: calculators that need no record. JSON in, JSON out, with what the answer rests on. */
import { given, type Result, refused } from "../../core/result.ts";
import { nearestNames, type Refusal } from "../../report/index.ts";
import { STEL_CALCULATOR, TWA_CALCULATOR } from "./averages.ts";
import type { Calculator, SlateAnswer } from "./description.ts";
import { EXTENDED_SHIFT_CALCULATOR } from "./extended-shift.ts";
import { checkedInput } from "./input-check.ts";
import { LEL_CALCULATOR } from "./lel.ts";
import { MIXTURE_CALCULATOR } from "./mixture.ts";
import { UNIT_CALCULATOR } from "./unit.ts";

export type {
  Calculator,
  CalculatorDescription,
  Field,
  OutputField,
  SlateAnswer,
  SlateObject,
  SlateSource,
  SlateValue,
} from "./description.ts";
export { numberExpected } from "./input-check.ts";
export { answerSchema, inputSchema } from "./input-schema.ts";

export const calculators: readonly Calculator[] = [
  UNIT_CALCULATOR,
  LEL_CALCULATOR,
  TWA_CALCULATOR,
  STEL_CALCULATOR,
  MIXTURE_CALCULATOR,
  EXTENDED_SHIFT_CALCULATOR,
];

/** The answer of one calculator to an input that is checked against its description first. */
export function workOut(name: string, input: unknown): Result<SlateAnswer, Refusal> {
  const calculator = calculators.find(({ id }) => id === name);
  if (calculator === undefined)
    return refused({
      type: "no-such-calculator",
      name,
      near: nearestNames(
        name,
        calculators.map(({ id }) => id),
      ),
    });
  const checked = checkedInput(input, calculator.inputs);
  if (!checked.ok) return checked;
  const computed = calculator.compute(checked.value);
  if (!computed.ok) return computed;
  const { outputs, outcome, sentence, grounds, sources } = computed.value;
  const { id, title, cautions } = calculator;
  return given({
    form: "lamproom-slate/1",
    calculator: id,
    title,
    input: checked.value,
    outputs,
    outcome,
    sentence,
    grounds,
    cautions,
    sources: [...calculator.sources, ...sources],
  });
}
