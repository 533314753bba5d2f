/** Texts that a person hands in beside a recording: a saved mapping, limits of one's own, the input of a calculator. */
import { type OwnLimits, ownLimitsFromJson } from "../core/gas/index.ts";
import { type Result, refused } from "../core/result.ts";
import type { Refusal } from "../report/index.ts";

export { jsonFromMapping, mappingFromJson } from "../core/table/index.ts";

/** `file` is named where its text is no JSON at all. */
export function ownLimitsFromText(file: string, text: string): Result<OwnLimits, Refusal> {
  const json = parsedJson(text);
  return json === undefined ? refused({ type: "json-not-readable", file }) : ownLimitsFromJson(json);
}

/** Undefined where the text is no JSON: JSON itself has no undefined. */
export function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (fault) {
    if (fault instanceof SyntaxError) return undefined;
    throw fault;
  }
}
