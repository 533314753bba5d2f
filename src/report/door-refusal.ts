/** Refusals that the doors and the work add to those of the core rooms. */
export type DoorRefusal =
  | { readonly type: "file-not-readable"; readonly reason: string }
  | { readonly type: "mapping-says-otherwise"; readonly question: string; readonly answer: string; readonly mapped: string }
  | { readonly type: "too-many-readings"; readonly line: number }
  | {
      readonly type: "shift-not-readable";
      readonly text: string;
      readonly why: "form" | "no zone" | "counts from its own start" | "has instants" | "clock change" | "no date" | "several days";
    }
  | { readonly type: "shift-longer-than-a-day"; readonly hours: number }
  /** `at` is the place in the list, `[0].kind`; empty = the list itself. */
  | { readonly type: "declarations-not-readable"; readonly at: string; readonly why: string; readonly found: string | null }
  | { readonly type: "declaration-not-placed"; readonly number: number; readonly by: string; readonly text: string }
  /** A worst level for all time without readings, where channels of several gases have units of their own. */
  | {
      readonly type: "one-level-for-several-units";
      readonly text: string;
      readonly channels: readonly { readonly name: string; readonly unit: string }[];
    }
  | { readonly type: "json-not-readable"; readonly file: string }
  /** A promise between two lines of code was broken: nothing that the person did. */
  | { readonly type: "program-fault"; readonly what: string }
  | { readonly type: "stopped" };

/** Refusals of the slate: what a calculator cannot take. */
export type SlateRefusal =
  | { readonly type: "no-such-calculator"; readonly name: string; readonly near: readonly string[] }
  | { readonly type: "input-not-json"; readonly why: string }
  | { readonly type: "input-missing"; readonly path: string }
  | { readonly type: "input-unknown"; readonly path: string; readonly near: readonly string[] }
  | { readonly type: "input-not-fitting"; readonly path: string; readonly found: string; readonly expected: string }
  | { readonly type: "cannot-be-computed"; readonly path: string; readonly why: string };

/** A call of the command line that cannot be carried out as written. */
export type CallRefusal =
  | { readonly type: "unknown-command"; readonly name: string; readonly near: readonly string[] }
  | { readonly type: "unknown-flag"; readonly name: string; readonly near: readonly string[] }
  | { readonly type: "flag-without-value"; readonly name: string; readonly value: string }
  | { readonly type: "flag-with-value"; readonly name: string }
  | { readonly type: "flag-value-not-fitting"; readonly name: string; readonly value: string; readonly expected: string }
  | { readonly type: "no-such-question"; readonly question: string; readonly near: readonly string[]; readonly known: readonly string[] }
  | { readonly type: "flags-belong-together"; readonly name: string; readonly needs: string }
  | { readonly type: "unknown-regime"; readonly regime: string; readonly known: readonly string[] }
  | { readonly type: "no-file" }
  | { readonly type: "no-book-in-folder"; readonly folder: string }
  | { readonly type: "folder-taken"; readonly folder: string }
  | { readonly type: "words-not-fitting"; readonly found: number; readonly expected: string }
  | { readonly type: "port-in-use"; readonly port: number }
  | { readonly type: "port-not-allowed"; readonly port: number }
  | { readonly type: "foreign-host"; readonly host: string }
  | { readonly type: "web-part-not-built" };
