/** Reads what a call asks: members of its query and of its body, each demanded in its form. */
import { given, type Result, refused } from "../core/result.ts";
import type { AskedRefusal } from "../report/index.ts";

/** A form gives the value, or says what it has to be. */
export interface Form<Value> {
  readonly expected: string;
  /** Undefined = not in this form. */
  readonly read: (value: unknown) => Value | undefined;
}

export type Forms<Asked> = { readonly [Name in keyof Asked]: Form<Asked[Name]> };

/** All members in their forms, none that is not known; or the first that is not. */
export function asked<Asked>(value: unknown, forms: Forms<Asked>, at = ""): Result<Asked, AskedRefusal> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return unfit(at === "" ? "the request" : at, value, "a record");
  const prefix = at === "" ? "" : `${at}.`;
  const record = value as Readonly<Record<string, unknown>>; // as was just seen
  const extra = Object.keys(record).find((name) => !Object.hasOwn(forms, name));
  if (extra !== undefined) return unfit(prefix + extra, record[extra], "left out: it is not known here");
  const read: Record<string, unknown> = {};
  for (const [name, form] of Object.entries(forms) as [string, Form<unknown>][]) {
    const member = form.read(Object.hasOwn(record, name) ? record[name] : undefined);
    if (member === undefined) return unfit(prefix + name, record[name], form.expected);
    read[name] = member;
  }
  return given(read as Asked); // each member was read by its form
}

function unfit(at: string, found: unknown, expected: string): Result<never, AskedRefusal> {
  const shown = found === undefined ? "missing" : typeof found === "object" && found !== null ? "a record or list" : JSON.stringify(found);
  return refused({ type: "asked-not-fitting", at, found: shown, expected });
}

export const text = (longest: number): Form<string> => ({
  expected: `a text of 1 to ${longest} letters`,
  read: (value) => (typeof value === "string" && value.trim() !== "" && value.length <= longest ? value : undefined),
});

export const yesOrNo: Form<boolean> = {
  expected: "true or false",
  read: (value) => (typeof value === "boolean" ? value : undefined),
};

export const oneOf = (...words: readonly string[]): Form<string> => ({
  expected: `one of ${words.join(", ")}`,
  read: (value) => words.find((word) => word === value),
});

export const wholeFrom = (least: number, most = Number.MAX_SAFE_INTEGER): Form<number> => ({
  expected: most === Number.MAX_SAFE_INTEGER ? `a whole number from ${least}` : `a whole number from ${least} to ${most}`,
  read: (value) => {
    const number = typeof value === "string" && /^\d{1,16}$/.test(value) ? Number(value) : value;
    return typeof number === "number" && Number.isSafeInteger(number) && number >= least && number <= most ? number : undefined;
  },
});

const RFC_3339 = /^\d{4}-\d\d-\d\d[Tt]\d\d:\d\d(:\d\d(\.\d{1,9})?)?([Zz]|[+-]\d\d:\d\d)$/;

/** Milliseconds since 1970. A plus sign of an address that was not escaped comes as a space. */
export const instant: Form<number> = {
  expected: "an instant such as 2026-03-04T07:31:00.000Z",
  read: (value) => {
    const written = typeof value === "string" ? value.replace(" ", "+") : "";
    const at = RFC_3339.test(written) ? Date.parse(written) : Number.NaN;
    return Number.isFinite(at) ? at : undefined;
  },
};

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

export const uuid: Form<string> = {
  expected: "an id such as 7d1e2f30-4152-4637-8859-6a7b8c9dae0f",
  read: (value) => (typeof value === "string" && UUID.test(value) ? value : undefined),
};

export const code: Form<string> = {
  expected: "a code of lower-case words joined by hyphens",
  read: (value) => (typeof value === "string" && value.length <= 64 && /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(value) ? value : undefined),
};

/** Gas codes joined by commas; nothing = all. */
export const gases: Form<readonly string[]> = {
  expected: "codes of gases joined by commas",
  read: (value) => {
    const codes = typeof value === "string" ? value.split(",") : [];
    const isFit = codes.length > 0 && codes.length <= 64 && codes.every((gas) => /^[a-z0-9][a-z0-9_-]{0,63}$/.test(gas));
    return isFit ? [...new Set(codes)] : undefined;
  },
};

/** The bytes of a base64 text, exactly as they would be written. */
export const bytes: Form<Uint8Array> = {
  expected: "bytes in base64",
  read: (value) => {
    if (typeof value !== "string") return undefined;
    const read = Buffer.from(value, "base64");
    return read.toString("base64") === value ? new Uint8Array(read) : undefined;
  },
};

export const listOf = <Value>(form: Form<Value>, most: number): Form<readonly Value[]> => ({
  expected: `a list of at most ${most}, each ${form.expected}`,
  read: (value) => {
    if (!Array.isArray(value) || value.length > most) return undefined;
    const read = value.map((one) => form.read(one));
    return read.includes(undefined) ? undefined : (read as Value[]); // none is undefined
  },
});

export const recordOf = <Value>(forms: Forms<Value>): Form<Value> => ({
  expected: `a record of ${Object.keys(forms).join(", ")}`,
  read: (value) => {
    const read = asked(value, forms);
    return read.ok ? read.value : undefined;
  },
});

/** Nothing said, or null. */
export const orNull = <Value>(form: Form<Value>): Form<Value | null> => ({
  expected: `${form.expected}, or left out`,
  read: (value) => (value === undefined || value === null || value === "" ? null : form.read(value)),
});

export const orElse = <Value>(form: Form<Value>, otherwise: Value): Form<Value> => ({
  expected: `${form.expected}, or left out`,
  read: (value) => (value === undefined || value === "" ? otherwise : form.read(value)),
});
