/** An entry: a submission with the number that the book gave it. Its bytes are the leaf of the tree. */
import { given, type Result, refused } from "../result.ts";
import { canonicalJson, fromCanonicalJson, type NotCanonical } from "./canonical-json.ts";
import type { Digest } from "./digest.ts";
import * as form from "./members.ts";
import { textFromUtf8, utf8FromText } from "./utf8.ts";
import type { WrittenInstant } from "./written-instant.ts";

export interface Entry {
  /** Form of this envelope. */
  readonly entry: 1;
  readonly book: string;
  /** From 1, without holes; the leaf's index is one less. */
  readonly number: number;
  /** When the book took it in, by the book's clock. */
  readonly received: WrittenInstant;
  /**
   * How far the device's clock was ahead of the book's when it was sent, milliseconds, as the exchange could tell: from
   * lowest to highest. Null where it was not measured.
   */
  readonly clockOffset: { readonly lowest: number; readonly highest: number } | null;
  readonly submission: Digest;
}

export type NotAnEntry = NotCanonical | form.Misformed | { readonly type: "not-utf-8" } | { readonly type: "offset-backwards" };

const FORM = form.record({
  entry: form.one,
  book: form.uuid,
  number: form.count,
  received: form.instant,
  clockOffset: form.orNull(form.record({ lowest: form.milliseconds, highest: form.milliseconds })),
  submission: form.digest,
});

/**
 * The bytes of an entry, the leaf of the tree before it is hashed. Refuses members that are not in their form, and an
 * offset whose lowest is above its highest.
 *
 * @example
 * ```ts
 * import { digestFromHash } from "./digest.ts";
 * import { entryBytes } from "./entry.ts";
 * const bytes = entryBytes({
 *   entry: 1,
 *   book: "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b10",
 *   number: 1,
 *   received: "2026-03-04T07:31:00.000Z",
 *   clockOffset: null,
 *   submission: digestFromHash(new Uint8Array(32)),
 * });
 * bytes.ok && bytes.value.length; // => 212
 * ```
 * Source: RFC 8785 [read] for the text; the members: ours.
 */
export function entryBytes(entry: Entry): Result<Uint8Array, NotAnEntry> {
  const fault = faultOf(entry);
  if (fault !== null) return refused(fault);
  const text = canonicalJson(entry);
  return text.ok ? given(utf8FromText(text.value)) : text;
}

/**
 * Reads an entry back. Refuses bytes that `entryBytes` would not write.
 *
 * @example
 * ```ts
 * import { entryFrom } from "./entry.ts";
 * entryFrom(Uint8Array.of(255)); // => { "ok": false, "refusal": { "type": "not-utf-8" } }
 * ```
 * Source: as `entryBytes`.
 */
export function entryFrom(bytes: Uint8Array): Result<Entry, NotAnEntry> {
  const text = textFromUtf8(bytes);
  if (text === null) return refused({ type: "not-utf-8" });
  const value = fromCanonicalJson(text);
  if (!value.ok) return value;
  const fault = faultOf(value.value);
  return fault === null ? given(value.value as unknown as Entry) : refused(fault); // the form has been held against it
}

function faultOf(value: unknown): NotAnEntry | null {
  const read = form.inForm<Entry>(value, FORM);
  if (!read.ok) return read.refusal;
  const { clockOffset } = read.value;
  return clockOffset !== null && clockOffset.lowest > clockOffset.highest ? { type: "offset-backwards" } : null;
}
