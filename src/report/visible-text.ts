/** Texts of files where they must do no harm: on a terminal, on a page, in a spreadsheet. */

/** Controls of C0 and C1, and marks that turn the direction of what follows: none of them is seen, all of them act. */
const UNSEEN_MARKS = /[\p{Cc}\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu;

const SHORT_NAMES: Readonly<Record<string, string>> = { "\n": "\\n", "\r": "\\r", "\t": "\\t" };

/**
 * A text of a file with its control characters written out, so that a terminal shows them instead of obeying them.
 *
 * @example
 * ```ts
 * import { visibleText } from "./visible-text.ts";
 * visibleText("\u001b[31mCO"); // => "\\x1b[31mCO"
 * visibleText("CO \u202emg/m³"); // => "CO \\u202emg/m³"
 * ```
 */
export function visibleText(text: string): string {
  return text.replace(UNSEEN_MARKS, (mark) => SHORT_NAMES[mark] ?? escaped(mark.charCodeAt(0)));
}

function escaped(code: number): string {
  return code < 0x100 ? `\\x${code.toString(16).padStart(2, "0")}` : `\\u${code.toString(16).padStart(4, "0")}`;
}

/** The same value with every text in it made visible; what is no text stays as it is. */
export function withVisibleTexts<Value>(value: Value): Value {
  // Texts become texts and shapes keep their shape, so the type holds.
  return visibleIn(value) as Value;
}

function visibleIn(value: unknown): unknown {
  if (typeof value === "string") return visibleText(value);
  if (Array.isArray(value)) return value.map(visibleIn);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, visibleIn(inner)]));
}

/**
 * JSON in which no control character stands raw, beyond those that JSON itself escapes: it means the same.
 *
 * @example
 * ```ts
 * import { inertJson } from "./visible-text.ts";
 * inertJson("{\"name\":\"\u009b31mCO\"}"); // => "{\"name\":\"\\u009b31mCO\"}"
 * ```
 */
export function inertJson(json: string): string {
  return json.replace(UNSEEN_MARKS, (mark) => (mark === "\n" ? mark : `\\u${mark.charCodeAt(0).toString(16).padStart(4, "0")}`));
}

/** A spreadsheet takes a cell that begins so for a formula, whatever quotation marks stand around it. */
const FORMULA_START = /^[\s]*[=+\-@]|^[\t\r\n]/;
const PLAIN_NUMBER = /^[+-]?\d+([.,]\d+)?$/;

/**
 * One cell of a CSV file that a spreadsheet may open: a text that it would compute is led by an apostrophe, numbers stay
 * numbers.
 *
 * @example
 * ```ts
 * import { csvCell } from "./visible-text.ts";
 * csvCell("=1+1"); // => "'=1+1"
 * csvCell("-5"); // => "-5"
 * csvCell(-0.25); // => "-0.25"
 * csvCell("a \"b\", c"); // => "\"a \"\"b\"\", c\""
 * csvCell(null); // => ""
 * ```
 * Source: OWASP, "CSV Injection" [memory], which names the marks = + - @ tab and carriage return; RFC 4180 for the quoting.
 */
export function csvCell(value: string | number | boolean | null): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  const safe = FORMULA_START.test(value) && !PLAIN_NUMBER.test(value) ? `'${value}` : value;
  return /[",;\r\n\t]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
