/** Every form that was ever released, by kind: how a body must look, who must be named, what it must rest on. */

import type { Json } from "../record/index.ts";
import { assert } from "../result.ts";
import type { Kind } from "./bodies.ts";
import { FORM_FILES } from "./form-files.ts";
import { type Check, type Schema, schemaCheck } from "./form-schema.ts";

export type Count = "one" | "at-most-one" | "some" | "any";

/** How many subjects stand in a role; where several roles are named, in all of them together. */
export interface RoleRule {
  readonly roles: readonly string[];
  readonly count: Count;
  readonly description?: string;
}

/** How many entries it rests on. `kinds` = of which kinds they are; empty = of any. */
export interface GroundRule {
  readonly count: Count;
  readonly kinds: readonly string[];
  readonly description?: string;
}

export interface EntryForm {
  readonly kind: string;
  readonly form: number;
  readonly title: string;
  readonly description: string;
  readonly manner: "request" | "report";
  /** No other roles may be named. */
  readonly subjects: readonly RoleRule[];
  readonly restsOn: readonly GroundRule[];
  readonly privatePart: "always" | "may" | "never";
  readonly schemas: { readonly body: Schema; readonly private: Schema | null };
  readonly body: Check;
  readonly private: Check | null;
  /** From this form to the next, for reading; null for the newest. */
  readonly raise: Raise | null;
}

/** Pure: a body of one form as the next one says it, without anything that was not said. */
export type Raise = (parts: { readonly body: Json; readonly private: Json | null }) => {
  readonly body: Json;
  readonly private: Json | null;
};

/** Forms of a kind from 1 up. */
export type FormTable = ReadonlyMap<string, readonly EntryForm[]>;

/**
 * A table from schema files. Files of a kind must be there for each form from 1 up, and a raise from each form but the
 * newest, by `kind.form`.
 *
 * @example
 * ```ts
 * import { formTable } from "./form-table.ts";
 * formTable([], {}).size; // => 0
 * ```
 * Source: design of this book, ours. Refuses nothing: a hole in the files is a broken promise.
 */
export function formTable(files: readonly Schema[], raises: Readonly<Record<string, Raise>>): FormTable {
  const table = new Map<string, EntryForm[]>();
  const rising = [...files].sort((first, second) => formOf(first) - formOf(second));
  for (const file of rising) {
    if (file["x-part"] !== "body") continue;
    const { "x-kind": kind, "x-form": form } = file as unknown as FormFile;
    const forms = table.get(kind) ?? [];
    assert(form === forms.length + 1, `the forms of ${kind} have no hole`);
    const privateFile = files.find((one) => one["x-part"] === "private" && one["x-kind"] === kind && one["x-form"] === form) ?? null;
    table.set(kind, [...forms, entryForm(file, privateFile, raises[`${kind}.${form}`] ?? null)]);
  }
  for (const [kind, forms] of table) {
    const raised = forms.filter(({ raise }) => raise !== null).length;
    assert(raised === forms.length - 1 && forms.at(-1)?.raise === null, `${kind} is raised from each form but the newest`);
  }
  return table;
}

/** What stands beside the schema in a file; the test that reads every file holds it. */
interface FormFile {
  readonly title: string;
  readonly description: string;
  readonly "x-kind": string;
  readonly "x-form": number;
  readonly "x-manner": EntryForm["manner"];
  readonly "x-private": EntryForm["privatePart"];
  readonly "x-subjects": readonly RoleRule[];
  readonly "x-rests-on": readonly GroundRule[];
}

const formOf = (file: Schema): number => file["x-form"] as number; // as FormFile says

function entryForm(file: Schema, privateFile: Schema | null, raise: Raise | null): EntryForm {
  const told = file as unknown as FormFile;
  assert((told["x-private"] === "never") === (privateFile === null), `${told["x-kind"]} has the private part that it tells of`);
  return {
    kind: told["x-kind"],
    form: told["x-form"],
    title: told.title,
    description: told.description,
    manner: told["x-manner"],
    subjects: told["x-subjects"],
    restsOn: told["x-rests-on"],
    privatePart: told["x-private"],
    schemas: { body: file, private: privateFile },
    body: whenAsked(file),
    private: privateFile === null ? null : whenAsked(privateFile),
    raise,
  };
}

/** A page that shows one kind need not read the schemas of all. */
function whenAsked(schema: Schema): Check {
  let check: Check | null = null;
  return (value) => {
    check ??= schemaCheck(schema);
    return check(value);
  };
}

/** All forms of this release. No form has a later one yet, so that nothing is raised. */
export const FORMS: FormTable = formTable(FORM_FILES, {});

/**
 * The newest form of a kind of this release.
 *
 * @example
 * ```ts
 * import { newestForm } from "./form-table.ts";
 * newestForm("gas-tested").form; // => 1
 * newestForm("returned").manner; // => "request"
 * ```
 * Source: design of this book, ours. Never refuses: every kind of the types has a form.
 */
export function newestForm(kind: Kind): EntryForm {
  const form = FORMS.get(kind)?.at(-1);
  assert(form !== undefined, `the kind ${kind} has a form`);
  return form;
}
