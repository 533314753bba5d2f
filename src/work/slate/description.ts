/**
 * What a calculator of the slate is: plain data from which the web form, the JSON Schemas, the help of the command
 * line and the checks of the input are made, and one function that computes.
 */

import type { Mark } from "../../core/gas/limit.ts";
import type { Outcome } from "../../core/outcome.ts";
import type { Result } from "../../core/result.ts";
import type { Refusal } from "../../report/index.ts";

interface FieldBase {
  /** Key in the JSON. */
  readonly name: string;
  /** Label of the form. */
  readonly title: string;
  /** One sentence: what it stands for. */
  readonly says: string;
  /** An optional field may be left out or null. */
  readonly required: boolean;
}

export type Field = FieldBase &
  (
    | {
        readonly type: "number";
        /** Null = no unit, or the unit that another field names. */
        readonly unit: string | null;
        readonly least: number | null;
        /** True where `least` itself is not allowed. */
        readonly above: boolean;
        readonly most: number | null;
      }
    | {
        readonly type: "choice";
        readonly choices: readonly { readonly value: string; readonly title: string }[];
        readonly otherwise: string | null;
      }
    /** An id or a name of the gas table. */
    | { readonly type: "gas" }
    | { readonly type: "text" }
    | { readonly type: "rows"; readonly fields: readonly Field[]; readonly fewest: number; readonly most: number }
  );

export interface OutputField {
  readonly name: string;
  readonly title: string;
  readonly unit: string | null;
  /** Null of a number: open, or not asked. */
  readonly type: "number" | "text" | "outcome" | "rows";
  readonly fields: readonly OutputField[];
}

export interface SlateSource {
  readonly title: string;
  readonly mark: Mark;
}

export type SlateValue = string | number | null | readonly SlateObject[];
export interface SlateObject {
  readonly [name: string]: SlateValue;
}

/** Everything about a calculator but the computing: what may travel to a form. */
export interface CalculatorDescription {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly inputs: readonly Field[];
  readonly outputs: readonly OutputField[];
  readonly examples: readonly { readonly says: string; readonly input: SlateObject }[];
  readonly cautions: readonly string[];
  readonly sources: readonly SlateSource[];
}

export interface SlateComputed {
  readonly outputs: SlateObject;
  /** The result in one sentence. */
  readonly sentence: string;
  readonly outcome: Outcome | null;
  /** How the figures came about, one sentence a step. */
  readonly grounds: readonly string[];
  /** Beside those of the calculator: what these inputs rest on. */
  readonly sources: readonly SlateSource[];
}

export interface Calculator extends CalculatorDescription {
  readonly compute: (input: SlateObject) => Result<SlateComputed, Refusal>;
}

/** What `lamproom slate NAME --json` prints. */
export interface SlateAnswer {
  readonly form: "lamproom-slate/1";
  readonly calculator: string;
  readonly title: string;
  /** As taken, with what was left out filled in. */
  readonly input: SlateObject;
  readonly outputs: SlateObject;
  readonly outcome: Outcome | null;
  readonly sentence: string;
  readonly grounds: readonly string[];
  readonly cautions: readonly string[];
  readonly sources: readonly SlateSource[];
}

type Bounds = {
  readonly least?: number;
  readonly above?: number;
  readonly most?: number;
  readonly unit?: string;
  readonly required?: boolean;
};

/** A number field in one line. */
export function numberField(name: string, title: string, says: string, { least, above, most, unit, required }: Bounds = {}): Field {
  return {
    type: "number",
    name,
    title,
    says,
    required: required ?? true,
    unit: unit ?? null,
    least: above ?? least ?? null,
    above: above !== undefined,
    most: most ?? null,
  };
}

/** A choice field in one line; `otherwise` is taken where it is left out. */
export function choiceField(
  name: string,
  title: string,
  says: string,
  choices: readonly (readonly [string, string])[],
  otherwise: string | null = null,
): Field {
  return {
    type: "choice",
    name,
    title,
    says,
    required: otherwise === null,
    choices: choices.map(([value, label]) => ({ value, title: label })),
    otherwise,
  };
}

export function output(
  name: string,
  title: string,
  unit: string | null = null,
  type: OutputField["type"] = "number",
  fields: readonly OutputField[] = [],
): OutputField {
  return { name, title, unit, type, fields };
}
