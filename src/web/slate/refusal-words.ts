/** A refusal of a calculator as a form says it: by the label of its field, not by its place in a JSON. */
import type { SlateRefusal } from "../../report/index.ts";
import type { Field } from "../../work/slate/description.ts";
import type { Told } from "../desk/protocol.ts";

/** "Minutes in row 2", from `pieces/1/minutes`; null where no field of the form is meant. */
export const fieldLabel = (path: string, fields: readonly Field[]): string | null => {
  const [name, row, ...rest] = path.split("/");
  const field = fields.find((one) => one.name === name);
  if (field === undefined) return null;
  if (field.type !== "rows" || row === undefined) return field.title;
  const inside = fieldLabel(rest.join("/"), field.fields);
  return inside === null ? `${field.title}, row ${Number(row) + 1}` : `${inside} in row ${Number(row) + 1}`;
};

/** What was typed stands in the field; a text is shown as typed. */
const asTyped = (found: string): string => found.replace(/^"(.*)"$/, "“$1”").replace(/^-/, "\u2212");

const withTitles = (expected: string, path: string, fields: readonly Field[]): string => {
  const last = path.split("/").at(-1);
  const field = [...fields, ...fields.flatMap((one) => (one.type === "rows" ? one.fields : []))].find(({ name }) => name === last);
  return field?.type === "choice" ? `one of: ${field.choices.map(({ title }) => title).join(", ")}` : expected;
};

/** Sentence and mending step for the form; null where the refusal is about no field, and its own words serve. */
export const formWords = (
  refusal: SlateRefusal | { readonly type: string },
  fields: readonly Field[],
): Pick<Told, "message" | "mend"> | null => {
  if (!("path" in refusal)) return null;
  const label = fieldLabel(refusal.path, fields);
  if (label === null) return null;
  switch (refusal.type) {
    case "input-missing":
      return { message: `${label} is blank.`, mend: "Fill it in and work it out again." };
    case "input-not-fitting":
      return {
        message: `${label} cannot be ${asTyped(refusal.found)}.`,
        mend: `Enter ${withTitles(refusal.expected, refusal.path, fields)}.`,
      };
    case "cannot-be-computed":
      return { message: `This cannot be computed: ${refusal.why}.`, mend: `Look at: ${label}.` };
    default:
      return null;
  }
};
