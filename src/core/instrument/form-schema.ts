/**
 * Holding a value against a frozen schema. The schema files use a small part of JSON Schema 2020-12, and this reads that
 * part and no other: a keyword that is not known here is a broken promise, not a check left out. Nothing is evaluated as
 * code, so it runs under any content policy.
 */

import { instantFromWritten } from "../record/index.ts";
import { assert } from "../result.ts";
import { readDate } from "../time/index.ts";

export type Schema = Readonly<Record<string, unknown>>;

/** Place in a value, as names and indices from the root; empty = the value itself. */
export type Place = readonly (string | number)[];

/** What is wrong at a place. `wanted` is what the schema file says in plain words. */
export type Unfit =
  | { readonly type: "missing" }
  | { readonly type: "not-known" }
  | { readonly type: "wrong-sort"; readonly wanted: string }
  | { readonly type: "not-one-of"; readonly wanted: readonly string[] }
  | { readonly type: "not-in-form"; readonly wanted: string }
  | { readonly type: "too-short" | "too-long" | "too-few" | "too-many" | "too-small" | "too-great"; readonly limit: number };

export interface Misfit {
  readonly at: Place;
  readonly why: Unfit;
}

export type Check = (value: unknown) => Misfit | null;

/**
 * The check of a schema: null where a value fits, else the first place that does not.
 *
 * @param schema JSON Schema 2020-12 of the part used here: type, const, enum, pattern, format (date, date-time), lengths,
 * bounds, properties (each required or not, no others allowed), items, anyOf, and $ref into its own $defs
 * @example
 * ```ts
 * import { schemaCheck } from "./form-schema.ts";
 * const check = schemaCheck({
 *   type: "object",
 *   properties: { lit: { type: "integer", minimum: 0, maximum: 20 } },
 *   required: ["lit"],
 *   additionalProperties: false,
 * });
 * check({ lit: 3 }); // => null
 * check({ lit: 21 }); // => { "at": ["lit"], "why": { "type": "too-great", "limit": 20 } }
 * check({}); // => { "at": ["lit"], "why": { "type": "missing" } }
 * ```
 * Source: JSON Schema, draft 2020-12, Core and Validation [memory]; held against another reader of it in the tests.
 * Never refuses a value otherwise; an unknown keyword is a broken promise.
 */
export function schemaCheck(schema: Schema): Check {
  return checkOf(schema, new Definitions((schema["$defs"] ?? {}) as Readonly<Record<string, Schema>>)); // by the schema's own form
}

class Definitions {
  readonly schemas: Readonly<Record<string, Schema>>;
  private readonly checks = new Map<string, Check>();

  constructor(schemas: Readonly<Record<string, Schema>>) {
    this.schemas = schemas;
  }

  /** Each definition is read once, when it is first met. */
  checkAt(pointer: string): Check {
    const name = pointer.replace(/^#\/\$defs\//, "");
    const known = this.checks.get(name);
    if (known !== undefined) return known;
    const schema = this.schemas[name];
    assert(schema !== undefined, `a schema defines ${pointer}`);
    const check = checkOf(schema, this);
    this.checks.set(name, check);
    return check;
  }
}

const ANNOTATIONS = new Set(["$schema", "$id", "$defs", "title", "description"]);
/** What a schema may hold beside its type, by type. */
const KEYWORDS: Readonly<Record<string, readonly string[]>> = {
  object: ["properties", "required", "additionalProperties"],
  array: ["items", "minItems", "maxItems"],
  string: ["pattern", "format", "minLength", "maxLength"],
  integer: ["minimum", "maximum"],
  boolean: [],
  null: [],
};

function checkOf(schema: Schema, definitions: Definitions): Check {
  const words = Object.keys(schema).filter((word) => !ANNOTATIONS.has(word) && !word.startsWith("x-"));
  const [first] = words;
  if (words.length === 1 && first === "$ref") return definitions.checkAt(schema["$ref"] as string);
  if (words.length === 1 && first === "anyOf") return anyOf((schema["anyOf"] as readonly Schema[]).map((one) => checkOf(one, definitions)));
  if (words.length === 1 && first === "enum") return oneOf(schema["enum"] as readonly unknown[]);
  if (words.length === 1 && first === "const") return oneOf([schema["const"]]);
  const type = schema["type"] as string; // each cast here is the schema's own form, held by the test that reads every file
  const allowed = KEYWORDS[type];
  assert(allowed !== undefined, `a schema is of a type that is read here, not ${words.join(", ")}`);
  const unread = words.find((word) => word !== "type" && !allowed.includes(word));
  assert(unread === undefined, `the keyword ${unread} is read here`);
  if (type === "object") return objectCheck(schema, definitions);
  if (type === "array") return arrayCheck(schema, definitions);
  if (type === "string") return stringCheck(schema);
  if (type === "integer") return integerCheck(schema);
  return plainCheck(type, type === "null" ? (value) => value === null : (value) => typeof value === "boolean");
}

const here = (why: Unfit): Misfit => ({ at: [], why });
const inside = (step: string | number, fault: Misfit): Misfit => ({ at: [step, ...fault.at], why: fault.why });

const plainCheck = (wanted: string, holds: (value: unknown) => boolean): Check => {
  const fault = here({ type: "wrong-sort", wanted });
  return (value) => (holds(value) ? null : fault);
};

function oneOf(wanted: readonly unknown[]): Check {
  const known = new Set(wanted);
  const fault = here({ type: "not-one-of", wanted: wanted.map(String) });
  return (value) => (known.has(value) ? null : fault);
}

/** Of several ways none of which fits, the one is told that came furthest. */
function anyOf(checks: readonly Check[]): Check {
  return (value) => {
    let furthest: Misfit | null = null;
    for (const check of checks) {
      const fault = check(value);
      if (fault === null) return null;
      if (furthest === null || cameFurther(fault, furthest)) furthest = fault;
    }
    return furthest;
  };
}

function cameFurther(fault: Misfit, other: Misfit): boolean {
  return fault.at.length === other.at.length ? told(fault) > told(other) : fault.at.length > other.at.length;
}

/** A member that tells ways apart and has another value speaks for another way; one that is not there, nearly so. */
function told({ why }: Misfit): number {
  if (why.type === "not-one-of" && why.wanted.length === 1) return 0;
  return why.type === "missing" ? 1 : 2;
}

function objectCheck(schema: Schema, definitions: Definitions): Check {
  assert(schema["additionalProperties"] === false, "a record has no members but those named");
  const required = new Set(schema["required"] as readonly string[]);
  const properties = schema["properties"] as Readonly<Record<string, Schema>>;
  const members = Object.entries(properties).map(([name, member]) => ({
    name,
    check: checkOf(member, definitions),
    missing: required.has(name) ? inside(name, here({ type: "missing" })) : null,
  }));
  const notARecord = here({ type: "wrong-sort", wanted: "object" });
  return (value) => {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return notARecord;
    const record = value as Readonly<Record<string, unknown>>; // as was just seen
    let seen = 0;
    for (const { name, check, missing } of members) {
      if (!Object.hasOwn(record, name)) {
        if (missing !== null) return missing;
        continue;
      }
      seen += 1;
      const fault = check(record[name]);
      if (fault !== null) return inside(name, fault);
    }
    const names = Object.keys(record);
    if (names.length === seen) return null;
    const extra = names.find((name) => !Object.hasOwn(properties, name)) ?? "";
    return inside(extra, here({ type: "not-known" }));
  };
}

function arrayCheck(schema: Schema, definitions: Definitions): Check {
  const { minItems = 0, maxItems = Number.MAX_SAFE_INTEGER } = schema as { readonly minItems?: number; readonly maxItems?: number };
  const check = checkOf(schema["items"] as Schema, definitions);
  const notAList = here({ type: "wrong-sort", wanted: "array" });
  return (value) => {
    if (!Array.isArray(value)) return notAList;
    if (value.length < minItems) return here({ type: "too-few", limit: minItems });
    if (value.length > maxItems) return here({ type: "too-many", limit: maxItems });
    for (let index = 0; index < value.length; index += 1) {
      const fault = check(value[index]);
      if (fault !== null) return inside(index, fault);
    }
    return null;
  };
}

const FORMATS: Readonly<Record<string, (text: string) => boolean>> = {
  date: (text) => readDate(text).ok,
  "date-time": (text) => instantFromWritten(text) !== null,
};

function stringCheck(schema: Schema): Check {
  const { minLength = 0, maxLength = Number.MAX_SAFE_INTEGER, pattern, format } = schema as StringSchema;
  const matches = pattern === undefined ? null : new RegExp(pattern, "u");
  const isOfFormat = format === undefined ? null : FORMATS[format];
  assert(isOfFormat !== undefined, `the format ${format} is read here`);
  const notText = here({ type: "wrong-sort", wanted: "string" });
  const notInForm = here({ type: "not-in-form", wanted: (schema["description"] as string | undefined) ?? pattern ?? "" });
  return (value) => {
    if (typeof value !== "string") return notText;
    if (value.length < minLength) return here({ type: "too-short", limit: minLength });
    // Letters are counted as code points, of which there are never more than units.
    if (value.length > maxLength && [...value].length > maxLength) return here({ type: "too-long", limit: maxLength });
    if (matches !== null && !matches.test(value)) return notInForm;
    return isOfFormat === null || isOfFormat(value) ? null : notInForm;
  };
}

interface StringSchema {
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly format?: string;
}

function integerCheck(schema: Schema): Check {
  const { minimum, maximum } = schema as { readonly minimum: number; readonly maximum: number };
  const notWhole = here({ type: "wrong-sort", wanted: "integer" });
  return (value) => {
    if (!Number.isInteger(value)) return notWhole;
    if ((value as number) < minimum) return here({ type: "too-small", limit: minimum }); // a number, as was just seen
    return (value as number) > maximum ? here({ type: "too-great", limit: maximum }) : null;
  };
}
