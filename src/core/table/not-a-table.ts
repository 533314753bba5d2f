/** Files that are no table at all, told by how they begin. */
import type { TableRefusal } from "./question.ts";
import { firstNotUtf8, textFromUtf8 } from "./utf8.ts";

type NotATable = Extract<TableRefusal, { type: "not-a-table" }>;

/** Signatures of forms that open with fixed bytes (common practice; each is in its form's own specification). */
const SIGNATURES: readonly { readonly bytes: readonly number[]; readonly looksLike: NotATable["looksLike"] }[] = [
  { bytes: [0x50, 0x4b, 0x03, 0x04], looksLike: "zip or workbook" },
  { bytes: [0x50, 0x4b, 0x05, 0x06], looksLike: "zip or workbook" },
  { bytes: [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], looksLike: "zip or workbook" },
  { bytes: [0x1f, 0x8b, 0x08], looksLike: "zip or workbook" },
  { bytes: [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], looksLike: "zip or workbook" },
  { bytes: [0x28, 0xb5, 0x2f, 0xfd], looksLike: "zip or workbook" },
  { bytes: [0x89, 0x50, 0x4e, 0x47], looksLike: "picture" },
  { bytes: [0xff, 0xd8, 0xff], looksLike: "picture" },
  { bytes: [0x47, 0x49, 0x46, 0x38], looksLike: "picture" },
  { bytes: [0x49, 0x49, 0x2a, 0x00], looksLike: "picture" },
  { bytes: [0x4d, 0x4d, 0x00, 0x2a], looksLike: "picture" },
  { bytes: [0x50, 0x41, 0x52, 0x31], looksLike: "binary" },
  { bytes: [0x7f, 0x45, 0x4c, 0x46], looksLike: "binary" },
];

/** What the head of a file looks like where it is no table; null where it may be one. UTF-16 is to be made UTF-8 first. */
export function notATable(head: Uint8Array): NotATable | null {
  const said = (looksLike: NotATable["looksLike"], offerJson = false): NotATable => ({ type: "not-a-table", looksLike, offerJson });
  for (const { bytes, looksLike } of SIGNATURES) if (bytes.every((byte, index) => head[index] === byte)) return said(looksLike);
  const start = textFromUtf8(head, 0, Math.min(head.length, 1024)).replace(/^\ufeff/, "");
  if (start.includes("%PDF-")) return said("PDF");
  const opening = start.trimStart();
  if (/^(?:\{\s*(?:"|\}|$)|\[\s*(?:[{["\]]|-?\d+(?:\.\d+)?\s*,|$))/.test(opening)) return said("JSON", true);
  if (/^<(?:!doctype|html|\?xml|head|body|table|svg)/i.test(opening)) return said("web page");
  return isBinary(head) ? said("binary") : null;
}

/** Text has hardly any control characters; a stray nought or two is a fault of a line, not a binary file. */
function isBinary(head: Uint8Array): boolean {
  const length = Math.min(head.length, 8192);
  let noughts = 0;
  let controls = 0;
  for (let index = 0; index < length; index++) {
    const byte = head[index] as number; // index is below the length
    if (byte === 0) noughts++;
    else if (byte < 32 && !(byte >= 9 && byte <= 13) && byte !== 0x1a && byte !== 0x1b) controls++;
  }
  if (noughts > length * 0.1 || controls > length * 0.2) return true;
  return controls + noughts > length * 0.04 && firstNotUtf8(head, 0, length) >= 0;
}
