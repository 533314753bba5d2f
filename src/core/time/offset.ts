/** Offsets from UTC as text: "+05:45". */

/**
 * Minutes east of UTC of "+hh:mm" or "-hh:mm" (hours 00 to 23, minutes 00 to 59: RFC 3339 section 5.6, time-numoffset);
 * null for every other text. "-00:00" gives -0: the caller who must tell it from "+00:00" asks `Object.is`.
 *
 * @example
 * ```ts
 * import { offsetFromText } from "./offset.ts";
 * [offsetFromText("+05:45"), offsetFromText("-08:00"), offsetFromText("+24:00"), offsetFromText("+2")]; // => [345, -480, null, null]
 * ```
 */
export function offsetFromText(text: string): number | null {
  if (!/^[+-](?:[01]\d|2[0-3]):[0-5]\d$/.test(text)) return null;
  const minutes = Number(text.slice(1, 3)) * 60 + Number(text.slice(4, 6));
  return text.startsWith("-") ? -minutes : minutes;
}

/**
 * The text of an offset of whole minutes, less than 24 h either way.
 *
 * @example
 * ```ts
 * import { textFromOffset } from "./offset.ts";
 * [textFromOffset(345), textFromOffset(-480), textFromOffset(0)]; // => ["+05:45", "-08:00", "+00:00"]
 * ```
 */
export function textFromOffset(minutes: number): string {
  const size = Math.abs(minutes);
  return `${minutes < 0 ? "-" : "+"}${twoDigits(Math.floor(size / 60))}:${twoDigits(size % 60)}`;
}

export const twoDigits = (value: number): string => String(value).padStart(2, "0");
