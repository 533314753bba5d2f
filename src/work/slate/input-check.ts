/** Checks a JSON input against the description of its calculator: the first thing that does not fit is named by its path. */
import { given, type Result, refused } from "../../core/result.ts";
import { nearestNames, type SlateRefusal } from "../../report/index.ts";
import type { Field, SlateObject, SlateValue } from "./description.ts";

type Checked<Value> = Result<Value, SlateRefusal>;

/** The input with every field present: what was left out is null, or the choice that is taken then. */
export function checkedInput(input: unknown, fields: readonly Field[], path = ""): Checked<SlateObject> {
  if (typeof input !== "object" || input === null || Array.isArray(input))
    return refused({ type: "input-not-fitting", path: path === "" ? "input" : path, found: described(input), expected: "an object" });
  const entries = input as Readonly<Record<string, unknown>>; // an object that is no array: its keys are texts
  const unknown = Object.keys(entries).find((name) => !fields.some((field) => field.name === name));
  if (unknown !== undefined)
    return refused({
      type: "input-unknown",
      path: joined(path, unknown),
      near: nearestNames(
        unknown,
        fields.map((field) => field.name),
      ),
    });
  const values: Record<string, SlateValue> = {};
  for (const field of fields) {
    const value = checkedField(entries[field.name] ?? null, field, joined(path, field.name));
    if (!value.ok) return value;
    values[field.name] = value.value;
  }
  return given(values);
}

function checkedField(value: unknown, field: Field, path: string): Checked<SlateValue> {
  if (value === null && field.type === "choice" && field.otherwise !== null) return given(field.otherwise);
  if (value === null) return field.required ? refused({ type: "input-missing", path }) : given(null);
  switch (field.type) {
    case "number":
      return checkedNumber(value, field, path);
    case "choice":
      return field.choices.some((choice) => choice.value === value)
        ? given(value as string)
        : notFitting(path, value, `one of ${field.choices.map((choice) => choice.value).join(", ")}`); // a choice is a text
    case "gas":
    case "text":
      return typeof value === "string" && value.trim() !== "" ? given(value.trim()) : notFitting(path, value, "a text that is not empty");
    case "rows":
      return checkedRows(value, field, path);
  }
}

function checkedNumber(value: unknown, field: Extract<Field, { readonly type: "number" }>, path: string): Checked<SlateValue> {
  const expected = numberExpected(field);
  if (typeof value !== "number" || !Number.isFinite(value)) return notFitting(path, value, expected);
  const low = field.least !== null && (field.above ? value <= field.least : value < field.least);
  if (low || (field.most !== null && value > field.most)) return notFitting(path, value, expected);
  return given(value);
}

function checkedRows(value: unknown, field: Extract<Field, { readonly type: "rows" }>, path: string): Checked<SlateValue> {
  const expected = `a list of ${field.fewest} to ${field.most} rows`;
  if (!Array.isArray(value) || value.length < field.fewest || value.length > field.most) return notFitting(path, value, expected);
  const rows: SlateObject[] = [];
  for (const [index, row] of value.entries()) {
    const checked = checkedInput(row, field.fields, `${path}/${index}`);
    if (!checked.ok) return checked;
    rows.push(checked.value);
  }
  return given(rows);
}

/** "a number above 0, at most 24" */
export function numberExpected({ least, above, most }: Extract<Field, { readonly type: "number" }>): string {
  const low = least === null ? "" : above ? ` above ${least}` : ` of at least ${least}`;
  return `a number${low}${most === null ? "" : `${low === "" ? "" : " and"} at most ${most}`}`;
}

function notFitting(path: string, value: unknown, expected: string): { readonly ok: false; readonly refusal: SlateRefusal } {
  return refused({ type: "input-not-fitting", path, found: described(value), expected });
}

function described(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object";
  if (value === undefined) return "nothing";
  return JSON.stringify(value) ?? String(value);
}

function joined(path: string, name: string): string {
  return path === "" ? name : `${path}/${name}`;
}
