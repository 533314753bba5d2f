/** One text for one value: what is hashed and signed must be the same bytes on every machine, in forty years too. */
import { given, type Result, refused } from "../result.ts";

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** `at` is the place as keys and indices from the root; empty = the value itself. */
export type NotCanonical = {
  readonly type: "not-canonical";
  readonly at: readonly (string | number)[];
  readonly why:
    | "not finite"
    | "whole number beyond 2^53"
    | "half of a surrogate pair"
    | "not a JSON value"
    | "nested too deep"
    | "not JSON text"
    | "not in canonical form";
};

/** Deeper than any form of an entry; a text nested deeper is an attack on the stack. [ours] */
export const DEEPEST = 64;

/**
 * The canonical text of a value (JCS): members in rising order of their names by UTF-16 code unit, no white space,
 * numbers as ECMAScript writes them, the least escapes. -0 becomes 0. Text stays as it came: no Unicode normalisation.
 *
 * Refused, never repaired: NaN and infinities; whole numbers written in digits beyond 2^53 - 1, which may have lost some
 * (write them as text); halves of surrogate pairs; what JSON has no form for (undefined, functions, dates, big integers);
 * nesting deeper than 64.
 *
 * @example
 * ```ts
 * import { canonicalJson } from "./canonical-json.ts";
 * canonicalJson({ unit: "[ppm]", v: 35.0, gas: "CO" }); // => { "ok": true, "value": "{\"gas\":\"CO\",\"unit\":\"[ppm]\",\"v\":35}" }
 * canonicalJson({ "10": 1, "9": 2, a: [-0, 1e-7] }); // => { "ok": true, "value": "{\"10\":1,\"9\":2,\"a\":[0,1e-7]}" }
 * canonicalJson({ a: [Number.NaN] }); // => { "ok": false, "refusal": { "type": "not-canonical", "at": ["a", 0], "why": "not finite" } }
 * ```
 * Source: RFC 8785 sections 3.1 and 3.2 [read]; I-JSON, RFC 7493 section 2 [read]; the depth: ours.
 */
export function canonicalJson(value: unknown): Result<string, NotCanonical> {
  const at: (string | number)[] = [];
  try {
    return given(textOf(value, at));
  } catch (fault) {
    if (fault instanceof Unfit) return refused({ type: "not-canonical", at, why: fault.why });
    throw fault;
  }
}

/**
 * The value of a canonical text. Refused: text that is no JSON, and text that is not exactly the canonical form of what
 * it says. A member that stands twice, a number such as 1.0 or 1e400 and any white space are so refused too.
 *
 * @example
 * ```ts
 * import { fromCanonicalJson } from "./canonical-json.ts";
 * fromCanonicalJson('{"a":1}'); // => { "ok": true, "value": { "a": 1 } }
 * fromCanonicalJson('{"a":1,"a":1}'); // => { "ok": false, "refusal": { "type": "not-canonical", "at": [], "why": "not in canonical form" } }
 * ```
 * Source: RFC 8785 [read]; that only canonical text is read back: ours.
 */
export function fromCanonicalJson(text: string): Result<Json, NotCanonical> {
  const parsed = parsedJson(text);
  if (!parsed.ok) return parsed;
  const written = canonicalJson(parsed.value);
  if (!written.ok) return written;
  return written.value === text ? given(parsed.value) : refused({ type: "not-canonical", at: [], why: "not in canonical form" });
}

function parsedJson(text: string): Result<Json, NotCanonical> {
  try {
    return given(JSON.parse(text) as Json); // what it parses to is JSON
  } catch (fault) {
    if (fault instanceof SyntaxError) return refused({ type: "not-canonical", at: [], why: "not JSON text" });
    throw fault;
  }
}

class Unfit extends Error {
  readonly why: NotCanonical["why"];
  constructor(why: NotCanonical["why"]) {
    super(why);
    this.why = why;
  }
}

/** `at` is left standing at the place of a fault. */
function textOf(value: unknown, at: (string | number)[]): string {
  if (value === null || value === true || value === false) return String(value);
  if (typeof value === "number") return numberText(value);
  if (typeof value === "string") return quoted(value);
  if (at.length >= DEEPEST) throw new Unfit("nested too deep");
  if (Array.isArray(value)) return `[${Array.from(value, (one, index) => inside(one, index, at)).join(",")}]`;
  if (typeof value !== "object" || !isPlain(value)) throw new Unfit("not a JSON value");
  // By code unit, as the comparison of text in this language is; a locale has no say.
  const names = Object.keys(value).sort();
  return `{${names.map((name) => member(name, (value as Record<string, unknown>)[name], at)).join(",")}}`; // a plain object
}

function member(name: string, value: unknown, at: (string | number)[]): string {
  at.push(name);
  const text = `${quoted(name)}:${textOf(value, at)}`;
  at.pop();
  return text;
}

function inside(value: unknown, index: number, at: (string | number)[]): string {
  at.push(index);
  const text = textOf(value, at);
  at.pop();
  return text;
}

function isPlain(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  return (prototype === Object.prototype || prototype === null) && Object.getOwnPropertySymbols(value).length === 0;
}

/** From here on numbers are written with a power of ten, and nobody takes their digits for a count. */
const POWERS_FROM = 1e21;

function numberText(value: number): string {
  if (!Number.isFinite(value)) throw new Unfit("not finite");
  if (Number.isInteger(value) && !Number.isSafeInteger(value) && Math.abs(value) < POWERS_FROM) throw new Unfit("whole number beyond 2^53");
  return doubleText(value);
}

/**
 * A finite double as JCS writes it, whatever its size; -0 as 0.
 *
 * @example
 * ```ts
 * import { doubleText } from "./canonical-json.ts";
 * [1e21, 1e-6, -0, 0.1 + 0.2].map(doubleText); // => ["1e+21", "0.000001", "0", "0.30000000000000004"]
 * ```
 * Source: RFC 8785 section 3.2.2.3 and Appendix B [read]. Never refuses; of what is not finite it makes no JSON.
 */
export const doubleText = (value: number): string => String(value === 0 ? 0 : value);

/** Reading by code points, a whole pair is one character and no surrogate. */
const HALF_PAIR = /\p{Surrogate}/u;

/** Text that is written as it is: most of it is, and need not be looked through twice. */
const PLAIN = /^[ !#-[\]-~]*$/;

function quoted(text: string): string {
  if (PLAIN.test(text)) return `"${text}"`;
  if (HALF_PAIR.test(text)) throw new Unfit("half of a surrogate pair");
  return JSON.stringify(text);
}
