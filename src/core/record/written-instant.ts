/** Instants of the book have one written form: UTC, always with milliseconds, so that equal instants are equal bytes. */
import { type Instant, readRfc3339, rfc3339FromInstant } from "../time/index.ts";

/** `2026-03-04T07:31:00.000Z`. */
export type WrittenInstant = string;

const FORM = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/;

/**
 * An instant as the book writes it.
 *
 * @example
 * ```ts
 * import { instantFromWritten, writtenInstant } from "./written-instant.ts";
 * writtenInstant(instantFromWritten("2026-03-04T07:31:00.000Z") ?? 0); // => "2026-03-04T07:31:00.000Z"
 * ```
 * @param instant milliseconds since 1970, years 0 to 9999; outside of them a broken promise
 * Source: RFC 3339 section 5.6 [read], one of its forms chosen: ours.
 */
export function writtenInstant(instant: number): WrittenInstant {
  const text = rfc3339FromInstant(instant as Instant); // checked there to be writable
  return text.includes(".") ? text : `${text.slice(0, -1)}.000Z`;
}

/**
 * The instant of a written form; null for anything else, other forms of RFC 3339 included.
 *
 * @example
 * ```ts
 * import { instantFromWritten } from "./written-instant.ts";
 * instantFromWritten("1970-01-01T00:00:01.500Z"); // => 1500
 * instantFromWritten("1970-01-01T00:00:01Z"); // => null
 * instantFromWritten("2026-02-30T00:00:00.000Z"); // => null
 * ```
 * Source: as `writtenInstant`.
 */
export function instantFromWritten(text: unknown): Instant | null {
  if (typeof text !== "string" || !FORM.test(text)) return null;
  const read = readRfc3339(text);
  return read.ok ? read.value.instant : null;
}
