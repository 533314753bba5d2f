import type { Structure } from "./structure.ts";
import { utf8FromText } from "./utf8.ts";

/**
 * Names the heading of a table: delimiter, labels and units row. Files with the same one are read the same way without
 * a question; letters composed or combined are the same letters.
 *
 * 64-bit FNV-1a over UTF-8 (Fowler, Noll, Vo; offset basis and prime from memory, checked by its published test
 * vectors): a name to find a saved mapping by, not a proof of anything.
 *
 * @example
 * ```ts
 * import { fingerprintOfTexts } from "./fingerprint.ts";
 * fingerprintOfTexts(["foobar"]); // => "85944171f73967e8"
 * ```
 */
export function fingerprintOfTexts(texts: readonly string[]): string {
  let hash = 0xcbf29ce484222325n;
  for (const byte of utf8FromText(texts.join("\u0000").normalize("NFC")))
    hash = ((hash ^ BigInt(byte)) * 0x100000001b3n) & 0xffff_ffff_ffff_ffffn;
  return hash.toString(16).padStart(16, "0");
}

export function fingerprintOf({
  dialect,
  labels,
  unitTexts,
  width,
}: Pick<Structure, "dialect" | "labels" | "unitTexts" | "width">): string {
  return fingerprintOfTexts([dialect.delimiter, String(width), ...labels, "", ...unitTexts]);
}
