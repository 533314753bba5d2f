/** Reads the words of a call after the description of its command; a wrong flag names the nearest right one. */
import { parseArgs } from "node:util";
import { given, type Result, refused } from "../core/result.ts";
import { type CallRefusal, nearestNames } from "../report/index.ts";
import type { Flag } from "./commands.ts";

export interface ReadFlags {
  /** Words that are no flags, in order. */
  readonly words: readonly string[];
  /** By the name with its dashes; a flag without a value holds one empty text. */
  readonly values: ReadonlyMap<string, readonly string[]>;
}

export function readFlags(words: readonly string[], flags: readonly Flag[]): Result<ReadFlags, CallRefusal> {
  const options = Object.fromEntries(
    flags.map(({ name, value }) => [name.slice(2), { type: value === null ? "boolean" : "string" } as const]),
  );
  const { tokens } = parseArgs({ args: [...words], options, strict: false, allowPositionals: true, tokens: true });
  const plain: string[] = [];
  const values = new Map<string, string[]>();
  for (const token of tokens) {
    if (token.kind === "positional") plain.push(token.value);
    if (token.kind !== "option") continue;
    const flag = flags.find(({ name }) => name === token.rawName);
    const refusal =
      flag === undefined ? unknownFlag(token.rawName, flags) : wrongUse(flag, token.value, token.inlineValue === true, values);
    if (refusal !== null) return refused(refusal);
    values.set(token.rawName, [...(values.get(token.rawName) ?? []), token.value ?? ""]);
  }
  return given({ words: plain, values });
}

function unknownFlag(name: string, flags: readonly Flag[]): CallRefusal {
  return {
    type: "unknown-flag",
    name,
    near: nearestNames(
      name,
      flags.map((flag) => flag.name),
    ),
  };
}

function wrongUse(
  flag: Flag,
  value: string | undefined,
  inline: boolean,
  before: ReadonlyMap<string, readonly string[]>,
): CallRefusal | null {
  if (flag.value === null) return value === undefined ? null : { type: "flag-with-value", name: flag.name };
  // A word that begins with dashes is the next flag unless it was joined by "=": a forgotten value must not eat it.
  if (value === undefined || value === "" || (!inline && value.startsWith("--")))
    return { type: "flag-without-value", name: flag.name, value: flag.value };
  if (!flag.repeats && before.has(flag.name))
    return { type: "flag-value-not-fitting", name: flag.name, value, expected: "one value only, and it was given twice" };
  return null;
}

export const all = (flags: ReadFlags, name: string): readonly string[] => flags.values.get(name) ?? [];
export const one = (flags: ReadFlags, name: string): string | null => all(flags, name)[0] ?? null;

/** At the last "=": labels of channels may hold one, gases, units and answers do not. */
export function split(text: string): readonly [string, string] | null {
  const at = text.lastIndexOf("=");
  return at <= 0 || at === text.length - 1 ? null : [text.slice(0, at), text.slice(at + 1)];
}

export function unfit(name: string, value: string, expected: string): { readonly ok: false; readonly refusal: CallRefusal } {
  return refused({ type: "flag-value-not-fitting", name, value, expected });
}
