/**
 * An entry with all that belongs to it as one line of JSON: the open form in which a book leaves, readable by people and
 * by any program, from which the bytes come back as they were.
 */
import { given, type Result, refused } from "../result.ts";
import { base64, fromBase64 } from "./base64.ts";
import { canonicalJson, fromCanonicalJson } from "./canonical-json.ts";
import { SALT_BYTES } from "./sealed-part.ts";
import { textFromUtf8, utf8FromText } from "./utf8.ts";

/** Form of such lines and of the folder that they leave in (docs/methods/record.md). */
export const OPEN_FORM = 1;

/** Bytes of one entry; a part is null where its bytes are not there. */
export interface LineBytes {
  readonly entry: Uint8Array;
  readonly submission: Uint8Array;
  readonly body: Uint8Array | null;
  readonly private: Uint8Array | null;
}

export interface NotALine {
  readonly type: "not-an-open-line";
  readonly at: "line" | "entry" | "submission" | "body" | "private";
}

/**
 * The line, without its line feed: `{"body":…,"entry":…,"private":…,"submission":…}`. Entry and submission stand as the
 * JSON that they are; a part as `{"salt":…,"value":…}`, the salt in base64. What is no canonical JSON (a body that nobody
 * could read is kept all the same) stands as `{"bytes":…}` in base64.
 *
 * @example
 * ```ts
 * import { openLine } from "./open-line.ts";
 * import { utf8FromText } from "./utf8.ts";
 * const body = new Uint8Array([...new Uint8Array(16), ...utf8FromText('{"a":1}')]);
 * openLine({ entry: utf8FromText('{"number":1}'), submission: Uint8Array.of(255), body, private: null }); // => "{\"body\":{\"salt\":\"AAAAAAAAAAAAAAAAAAAAAA==\",\"value\":{\"a\":1}},\"entry\":{\"number\":1},\"private\":null,\"submission\":{\"bytes\":\"/w==\"}}"
 * ```
 * Source: RFC 8785 [read] and RFC 4648 section 4 [read]; the line: ours. Never refuses.
 */
export function openLine({ entry, submission, body, private: privatePart }: LineBytes): string {
  return `{"body":${partText(body)},"entry":${envelopeText(entry)},"private":${partText(privatePart)},"submission":${envelopeText(submission)}}`;
}

const bytesText = (bytes: Uint8Array): string => `{"bytes":"${base64(bytes)}"}`;

/** A record named `bytes` alone would be taken for bytes. */
const envelopeText = (bytes: Uint8Array): string => {
  const text = canonicalText(bytes);
  return text === null || !text.startsWith("{") || isBytesText(text) ? bytesText(bytes) : text;
};

const isBytesText = (text: string): boolean => text.startsWith('{"bytes":');

function partText(bytes: Uint8Array | null): string {
  if (bytes === null) return "null";
  const text = bytes.length < SALT_BYTES ? null : canonicalText(bytes.subarray(SALT_BYTES));
  return text === null ? bytesText(bytes) : `{"salt":"${base64(bytes.subarray(0, SALT_BYTES))}","value":${text}}`;
}

/** Two levels are those of the line and the part: a text that fills all that are allowed stands as bytes. */
function canonicalText(bytes: Uint8Array): string | null {
  const text = textFromUtf8(bytes);
  const read = text === null ? null : fromCanonicalJson(text);
  if (text === null || read === null || !read.ok) return null;
  return canonicalJson({ a: { a: read.value } }).ok ? text : null;
}

/**
 * The bytes of a line. Refuses a text that is no JSON, members that are not those of a line, and base64 in another form;
 * whether the bytes are those of the book is for digests to say.
 *
 * @example
 * ```ts
 * import { fromOpenLine } from "./open-line.ts";
 * fromOpenLine("{}"); // => { "ok": false, "refusal": { "type": "not-an-open-line", "at": "line" } }
 * const line = fromOpenLine('{"body":null,"entry":{"number":1},"private":null,"submission":{"bytes":"/w=="}}');
 * line.ok && [line.value.entry.length, [...line.value.submission], line.value.body]; // => [12, [255], null]
 * ```
 * Source: as `openLine`.
 */
export function fromOpenLine(line: string): Result<LineBytes, NotALine> {
  // Held against its own canonical form: a member that stands twice must not be read one way here, another way elsewhere.
  const read = fromCanonicalJson(line);
  if (!read.ok || !isRecord(read.value) || Object.keys(read.value).join() !== "body,entry,private,submission")
    return refused({ type: "not-an-open-line", at: "line" });
  const { entry, submission, body, private: privatePart } = read.value;
  const found = {
    entry: envelopeBytes(entry),
    submission: envelopeBytes(submission),
    body: partBytes(body),
    private: partBytes(privatePart),
  };
  for (const at of ["entry", "submission", "body", "private"] as const)
    if (found[at] === undefined) return refused({ type: "not-an-open-line", at });
  return given(found as LineBytes); // none is undefined, as was just seen
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const isWith = (value: Readonly<Record<string, unknown>>, names: string): boolean => Object.keys(value).sort().join() === names;

function envelopeBytes(value: unknown): Uint8Array | undefined {
  if (!isRecord(value)) return undefined;
  return isWith(value, "bytes") ? bytesIn(value["bytes"]) : textBytes(value);
}

function partBytes(value: unknown): Uint8Array | null | undefined {
  if (value === null) return null;
  if (!isRecord(value)) return undefined;
  if (isWith(value, "bytes")) return bytesIn(value["bytes"]);
  if (!isWith(value, "salt,value")) return undefined;
  const [salt, text] = [bytesIn(value["salt"]), textBytes(value["value"])];
  if (salt?.length !== SALT_BYTES || text === undefined) return undefined;
  const bytes = new Uint8Array(SALT_BYTES + text.length);
  bytes.set(salt);
  bytes.set(text, SALT_BYTES);
  return bytes;
}

function bytesIn(value: unknown): Uint8Array | undefined {
  return typeof value === "string" ? (fromBase64(value) ?? undefined) : undefined;
}

function textBytes(value: unknown): Uint8Array | undefined {
  const text = canonicalJson(value);
  return text.ok ? utf8FromText(text.value) : undefined;
}
