/** Reading of the envelopes' members: each is demanded in its one form, and what is not known is refused. */
import { given, type Result, refused } from "../result.ts";
import { isDigest } from "./digest.ts";
import { instantFromWritten } from "./written-instant.ts";

/** `at` names the member, `form` what it must be. */
export interface Misformed {
  readonly type: "misformed";
  readonly at: string;
  readonly form: string;
}

export type Form = (value: unknown, at: string) => Misformed | null;

const formOf =
  (form: string, holds: (value: unknown) => boolean): Form =>
  (value, at) =>
    holds(value) ? null : { type: "misformed", at, form };

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const SUBMISSION_ID = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const CODE = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
const LONGEST_CODE = 64;

/** Identity of a thing, device, person or book. Source: RFC 9562 section 4 [read], in lower case: ours. */
export const uuid = formOf("a UUID in lower case", (value) => typeof value === "string" && UUID.test(value));
/** Identity of a submission. Source: RFC 9562 section 5.7 [read]. Its time is never used for order. */
export const submissionId = formOf("a UUID of version 7 in lower case", (value) => typeof value === "string" && SUBMISSION_ID.test(value));
export const digest = formOf("sha256: and 64 hexadecimal digits in lower case", isDigest);
export const instant = formOf("an instant such as 2026-03-04T07:31:00.000Z", (value) => instantFromWritten(value) !== null);
export const code = formOf(
  "a code of lower-case words joined by hyphens",
  (value) => typeof value === "string" && value.length <= LONGEST_CODE && CODE.test(value),
);
export const count = formOf("a whole number from 1", (value) => Number.isSafeInteger(value) && (value as number) >= 1);
export const size = formOf("a whole number from 0", (value) => Number.isSafeInteger(value) && (value as number) >= 0);
export const milliseconds = formOf("a whole number of milliseconds", (value) => Number.isSafeInteger(value));
export const one = formOf("1, the only form there is", (value) => value === 1);

export const oneOf = (...words: readonly string[]): Form =>
  formOf(`one of ${words.join(", ")}`, (value) => words.includes(value as string));

export const orNull =
  (form: Form): Form =>
  (value, at) =>
    value === null ? null : form(value, at);

/** A list whose texts rise without repeats, so that one meaning has one form; `keyOf` gives the text that is compared. */
export const rising =
  (form: Form, keyOf: (value: never) => string, longest: number): Form =>
  (value, at) => {
    if (!Array.isArray(value) || value.length > longest) return { type: "misformed", at, form: `a list of at most ${longest}` };
    for (const [index, item] of value.entries()) {
      const fault = form(item, `${at}[${index}]`);
      if (fault !== null) return fault;
      const isAfter = index === 0 || keyOf(value[index - 1] as never) < keyOf(item as never); // both have passed `form`
      if (!isAfter) return { type: "misformed", at: `${at}[${index}]`, form: "after the one before it, without repeats" };
    }
    return null;
  };

/** A record with exactly these members. */
export const record =
  (forms: Readonly<Record<string, Form>>): Form =>
  (value, at) => {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return { type: "misformed", at, form: "a record" };
    const prefix = at === "" ? "" : `${at}.`;
    const extra = Object.keys(value).find((name) => !Object.hasOwn(forms, name));
    if (extra !== undefined) return { type: "misformed", at: `${prefix}${extra}`, form: "nothing: this member is not known" };
    for (const [name, form] of Object.entries(forms)) {
      const isThere = Object.hasOwn(value, name);
      const member = (value as Record<string, unknown>)[name]; // a record, as was just seen
      const fault = isThere ? form(member, `${prefix}${name}`) : { type: "misformed" as const, at: `${prefix}${name}`, form: "there" };
      if (fault !== null) return fault;
    }
    return null;
  };

/** The value itself, or the first member that is not in its form. */
export function inForm<Value>(value: unknown, form: Form): Result<Value, Misformed> {
  const fault = form(value, "");
  return fault === null ? given(value as Value) : refused(fault); // the form has been held against it
}
