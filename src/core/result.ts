/**
 * A refusal that a person can meet is a value; a broken promise between lines of code is an
 * assertion that throws.
 */
export type Result<Value, Refusal extends { readonly type: string }> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly refusal: Refusal };

export const given = <Value>(value: Value): { readonly ok: true; readonly value: Value } => ({ ok: true, value });

export const refused = <Refusal extends { readonly type: string }>(
  refusal: Refusal,
): { readonly ok: false; readonly refusal: Refusal } => ({ ok: false, refusal });

/** Throws when a promise between two pieces of code is broken. Never used for people's input. */
export function assert(condition: unknown, promise: string): asserts condition {
  if (!condition) throw new Error(`broken promise: ${promise}`);
}
