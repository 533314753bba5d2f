/** A head with signatures: a text that anybody who holds the public key can check, in forty years too. */
import { given, type Result, refused } from "../result.ts";
import { base64, fromBase64 } from "./base64.ts";
import { type Checkpoint, checkpointFrom, checkpointText, type NotACheckpoint } from "./checkpoint.ts";
import type { Sha256 } from "./hash-tree.ts";
import { utf8FromText } from "./utf8.ts";

/** The public half of an Ed25519 key with the name under which it signs. */
export interface HeadKey {
  /** Not empty, without spaces, line breaks and plus signs; for a book the origin of its heads. */
  readonly name: string;
  /** 32 bytes. */
  readonly publicKey: Uint8Array;
}

/** Ed25519 of RFC 8032, handed in: true where the signature of 64 bytes is that of the message under the key. */
export type VerifyEd25519 = (publicKey: Uint8Array, message: Uint8Array, signature: Uint8Array) => boolean;

export type NotASignedHead =
  | NotACheckpoint
  | { readonly type: "not-a-signed-head"; readonly why: "no blank line" | "signature line" | "no signature" };

export type NotAKey = { readonly type: "not-a-key"; readonly why: "name" | "length" | "form" | "algorithm" | "fingerprint" };

const ED25519 = 0x01;
const KEY_BYTES = 32;
const SIGNATURE_BYTES = 64;
const FINGERPRINT_BYTES = 4;
const NAME = /^[^\s+]+$/u;

/** The message that a signature of a head is about: the three lines, the last line feed included, in UTF-8. */
export const signedMessage = (body: string): Uint8Array => utf8FromText(body);

/**
 * First four bytes of SHA-256(name || 0x0A || 0x01 || public key): tells which key a signature line belongs to.
 *
 * @example
 * ```ts
 * import { keyFingerprint } from "./signed-head.ts";
 * [...keyFingerprint({ name: "a", publicKey: Uint8Array.of(7, 8) }, (bytes) => bytes)]; // => [97, 10, 1, 7]
 * ```
 * Source: C2SP signed-note [read]. Never refuses.
 */
export function keyFingerprint({ name, publicKey }: HeadKey, sha256: Sha256): Uint8Array {
  const label = utf8FromText(`${name}\n`);
  const all = new Uint8Array(label.length + 1 + publicKey.length);
  all.set(label);
  all[label.length] = ED25519;
  all.set(publicKey, label.length + 1);
  return sha256(all).slice(0, FINGERPRINT_BYTES);
}

/**
 * A public key as one line that can be printed and kept: `name+fingerprint+base64(0x01 || key)`.
 *
 * Refused: a name that is empty or has spaces or a plus sign, a key that is not of 32 bytes.
 *
 * @example
 * ```ts
 * import { keyText } from "./signed-head.ts";
 * keyText({ name: "a b", publicKey: new Uint8Array(32) }, (bytes) => bytes); // => { "ok": false, "refusal": { "type": "not-a-key", "why": "name" } }
 * ```
 * Source: C2SP signed-note, verifier keys [read].
 */
export function keyText(key: HeadKey, sha256: Sha256): Result<string, NotAKey> {
  if (!NAME.test(key.name)) return refused({ type: "not-a-key", why: "name" });
  if (key.publicKey.length !== KEY_BYTES) return refused({ type: "not-a-key", why: "length" });
  return given(`${key.name}+${hex(keyFingerprint(key, sha256))}+${base64(joined(Uint8Array.of(ED25519), key.publicKey))}`);
}

/**
 * Reads a key's line. Refused: another form or algorithm, and a fingerprint that is not that of name and key.
 *
 * @example
 * ```ts
 * import { keyFrom } from "./signed-head.ts";
 * keyFrom("marl-beck+00000000", (bytes) => bytes); // => { "ok": false, "refusal": { "type": "not-a-key", "why": "form" } }
 * ```
 * Source: as `keyText`.
 */
export function keyFrom(text: string, sha256: Sha256): Result<HeadKey, NotAKey> {
  const [, name = "", fingerprint = "", keyBase64 = ""] = /^([^\s+]+)\+([0-9a-f]{8})\+([A-Za-z0-9+/]+=*)$/u.exec(text) ?? [];
  const bytes = fromBase64(keyBase64);
  if (name === "" || bytes === null || bytes.length === 0) return refused({ type: "not-a-key", why: "form" });
  if (bytes[0] !== ED25519) return refused({ type: "not-a-key", why: "algorithm" });
  const key = { name, publicKey: bytes.slice(1) };
  if (key.publicKey.length !== KEY_BYTES) return refused({ type: "not-a-key", why: "length" });
  return hex(keyFingerprint(key, sha256)) === fingerprint ? given(key) : refused({ type: "not-a-key", why: "fingerprint" });
}

/**
 * A head with one signature: its three lines, a blank line, then `— name base64(fingerprint || signature)`.
 *
 * @param signature 64 bytes, Ed25519 of `signedMessage(checkpointText(head))`
 * @example
 * ```ts
 * import { signedHead } from "./signed-head.ts";
 * const key = { name: "marl-beck", publicKey: new Uint8Array(32) };
 * const note = signedHead({ origin: "marl-beck", size: 0, head: new Uint8Array(32) }, key, new Uint8Array(64), (bytes) => bytes);
 * note.ok && note.value.split("\n").slice(0, 2); // => ["marl-beck", "0"]
 * ```
 * Refuses what is no checkpoint. Source: C2SP tlog-checkpoint and signed-note [read].
 */
export function signedHead(head: Checkpoint, key: HeadKey, signature: Uint8Array, sha256: Sha256): Result<string, NotACheckpoint> {
  const body = checkpointText(head);
  return body.ok ? given(`${body.value}\n— ${key.name} ${base64(joined(keyFingerprint(key, sha256), signature))}\n`) : body;
}

export interface Signature {
  readonly name: string;
  readonly fingerprint: Uint8Array;
  readonly signature: Uint8Array;
}

export interface ReadHead {
  readonly head: Checkpoint;
  /** The signed lines. */
  readonly body: string;
  readonly signatures: readonly Signature[];
}

/**
 * Takes a signed head apart; checks no signature.
 *
 * @example
 * ```ts
 * import { readSignedHead } from "./signed-head.ts";
 * readSignedHead("marl-beck\n0\n"); // => { "ok": false, "refusal": { "type": "not-a-signed-head", "why": "no blank line" } }
 * ```
 * Refused: text without a blank line, a signature line of another form, no signature, a body that is no checkpoint.
 * Source: as `signedHead`.
 */
export function readSignedHead(text: string): Result<ReadHead, NotASignedHead> {
  const blank = text.lastIndexOf("\n\n");
  if (blank < 0) return refused({ type: "not-a-signed-head", why: "no blank line" });
  const body = text.slice(0, blank + 1);
  const lines = text.slice(blank + 2).split("\n");
  if (lines.pop() !== "") return refused({ type: "not-a-signed-head", why: "signature line" });
  const signatures = lines.map(signatureFrom);
  if (signatures.length === 0) return refused({ type: "not-a-signed-head", why: "no signature" });
  const head = checkpointFrom(body);
  if (!head.ok) return head;
  const whole = signatures.filter((one) => one !== null);
  if (whole.length < signatures.length) return refused({ type: "not-a-signed-head", why: "signature line" });
  return given({ head: head.value, body, signatures: whole });
}

function signatureFrom(line: string): Signature | null {
  const [, name = "", text = ""] = /^— ([^\s+]+) ([A-Za-z0-9+/]+=*)$/u.exec(line) ?? [];
  const bytes = fromBase64(text);
  if (name === "" || bytes === null || bytes.length <= FINGERPRINT_BYTES) return null;
  return { name, fingerprint: bytes.slice(0, FINGERPRINT_BYTES), signature: bytes.slice(FINGERPRINT_BYTES) };
}

/**
 * Whether a head read by `readSignedHead` bears a signature of this key that holds. Signatures of other keys say nothing
 * here; of several under this key all must hold.
 *
 * @example
 * ```ts
 * import { isSignedBy, readSignedHead, signedHead } from "./signed-head.ts";
 * const sha256 = (bytes: Uint8Array) => bytes.slice(0, 32);
 * const key = { name: "marl-beck", publicKey: new Uint8Array(32) };
 * const note = signedHead({ origin: "marl-beck", size: 0, head: new Uint8Array(32) }, key, new Uint8Array(64), sha256);
 * const read = readSignedHead(note.ok ? note.value : "");
 * [read.ok && isSignedBy(read.value, key, () => true, sha256), read.ok && isSignedBy(read.value, key, () => false, sha256)]; // => [true, false]
 * ```
 * Source: C2SP signed-note [read]; RFC 8032 for Ed25519, handed in. Never refuses.
 */
export function isSignedBy({ body, signatures }: ReadHead, key: HeadKey, verify: VerifyEd25519, sha256: Sha256): boolean {
  const fingerprint = hex(keyFingerprint(key, sha256));
  const own = signatures.filter((one) => one.name === key.name && hex(one.fingerprint) === fingerprint);
  const message = signedMessage(body);
  const holds = (one: Signature) => one.signature.length === SIGNATURE_BYTES && verify(key.publicKey, message, one.signature);
  return own.length > 0 && own.every(holds);
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  const all = new Uint8Array(first.length + second.length);
  all.set(first);
  all.set(second, first.length);
  return all;
}

const hex = (bytes: Uint8Array): string => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
