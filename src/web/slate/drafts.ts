import type { Field, SlateObject, SlateValue } from "../../work/slate/description.ts";

/** A form as typed: texts, and rows of texts. Numbers are made of it only when it is worked out. */
export interface Draft {
  readonly [name: string]: string | readonly Draft[];
}

const draftValue = (field: Field, value: SlateValue | undefined): string | readonly Draft[] => {
  if (field.type === "rows") {
    const rows = Array.isArray(value) ? (value as readonly SlateObject[]) : []; // a rows field holds rows
    const filled = rows.map((row) => draftOf(field.fields, row));
    return [...filled, ...Array.from({ length: Math.max(0, Math.max(field.fewest, 1) - filled.length) }, () => draftOf(field.fields, {}))];
  }
  if (value === undefined || value === null) return field.type === "choice" ? (field.otherwise ?? field.choices[0]?.value ?? "") : "";
  return String(value);
};

export const draftOf = (fields: readonly Field[], input: SlateObject): Draft =>
  Object.fromEntries(fields.map((field) => [field.name, draftValue(field, input[field.name])]));

const isBlank = (draft: Draft, fields: readonly Field[]): boolean =>
  fields.every(
    (field) => field.type === "choice" || (typeof draft[field.name] === "string" && (draft[field.name] as string).trim() === ""),
  ); // checked on the left

/** A decimal comma is taken as the mark it is; anything that is no number goes on as the text it is, to be refused by name. */
const numberFrom = (text: string): SlateValue => {
  const plain = text
    .replace(/[\s\u202f]/g, "")
    .replace(/^\u2212/, "-")
    .replace(/^([+-]?\d*),(\d+)$/, "$1.$2");
  return plain !== "" && Number.isFinite(Number(plain)) ? Number(plain) : text;
};

const inputValue = (field: Field, value: string | readonly Draft[] | undefined): SlateValue => {
  if (field.type === "rows") {
    const rows = Array.isArray(value) ? (value as readonly Draft[]) : []; // as above
    return rows.filter((row) => !isBlank(row, field.fields)).map((row) => inputOf(field.fields, row));
  }
  const text = typeof value === "string" ? value.trim() : "";
  if (text === "") return null;
  return field.type === "number" ? numberFrom(text) : text;
};

export const inputOf = (fields: readonly Field[], draft: Draft): SlateObject => {
  const input: Record<string, SlateValue> = {};
  for (const field of fields) {
    const value = inputValue(field, draft[field.name]);
    if (value !== null && !(Array.isArray(value) && value.length === 0 && !field.required)) input[field.name] = value;
  }
  return input;
};
