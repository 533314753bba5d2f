// C2SP signed-note, by the published key and note of its reference implementation (golang.org/x/mod/sumdb/note,
// note_test.go, BSD-3-Clause) [read]; the manglings of the key are of the kinds tried there.
import { createHash, createPublicKey, verify } from "node:crypto";
import { expect, test } from "vitest";
import {
  isSignedBy,
  keyFrom,
  keyText,
  readSignedHead,
  signedHead,
  signedMessage,
  type VerifyEd25519,
} from "../../../src/core/record/index.ts";
import { answerOf } from "../golden-rows.ts";

const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(createHash("sha256").update(bytes).digest());
const SPKI = Buffer.from("302a300506032b6570032100", "hex");
const verifyEd25519: VerifyEd25519 = (publicKey, message, signature) =>
  verify(null, message, createPublicKey({ key: Buffer.concat([SPKI, publicKey]), format: "der", type: "spki" }), signature);

const key = "PeterNeumann+c74f20a3+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW";
const text = "If you think cryptography is the answer to your problem,\nthen you don't know what your problem is.\n";
const line = "x08go/ZJkuBS9UG/SffcvIAQxVBtiFupLLr8pAcElZInNIuGUgYN1FFYC2pZSNXgKvqfqdngotpRZb6KE6RyyBwJnAM=";
const signatures = [
  { name: "PeterNeumann", fingerprint: Buffer.from(line, "base64").subarray(0, 4), signature: Buffer.from(line, "base64").subarray(4) },
];
const noHead = { origin: "x", size: 0, head: new Uint8Array(32) };

test("the published key is read and written back", () => {
  expect(answerOf(keyText(answerOf(keyFrom(key, sha256)), sha256))).toBe(key);
});

test("the published signature holds for its text, and for no other", () => {
  const peter = answerOf(keyFrom(key, sha256));
  expect(isSignedBy({ head: noHead, body: text, signatures }, peter, verifyEd25519, sha256)).toBe(true);
  for (let at = 0; at < text.length; at += 1) {
    const touched = `${text.slice(0, at)}${text[at] === "x" ? "y" : "x"}${text.slice(at + 1)}`;
    expect(isSignedBy({ head: noHead, body: touched, signatures }, peter, verifyEd25519, sha256)).toBe(false);
  }
});

test("every stretch and every touched letter of the key is refused", () => {
  for (let from = 0; from <= key.length; from += 1)
    for (let to = from + 1; to <= key.length; to += 1)
      if (from !== 0 || to !== key.length) expect(keyFrom(key.slice(from, to), sha256).ok).toBe(false);
  for (let at = 0; at < key.length; at += 1) {
    const touched = `${key.slice(0, at)}${String.fromCharCode(key.charCodeAt(at) + 1)}${key.slice(at + 1)}`;
    expect(keyFrom(touched, sha256).ok).toBe(false);
  }
  const longer = keyFrom("PeterNeumann+cc469956+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TWBADKEY==", sha256);
  const unknown = keyFrom("PeterNeumann+173116ae+ZRpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW", sha256);
  expect([longer.ok, unknown.ok]).toEqual([false, false]);
});

// The head is the published root of eight leaves (transparency-dev/merkle, Apache-2.0), the key that of RFC 8032 section
// 7.1, test 1; the signature is computed here.
test("a signed head goes out and comes back with its signature", async () => {
  const { privateKey, publicKey } = rfc8032Key();
  const head = {
    origin: "example.org/pool-log",
    size: 8,
    head: Buffer.from("5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328", "hex"),
  };
  const { sign } = await import("node:crypto");
  const signature = new Uint8Array(
    sign(null, signedMessage(`example.org/pool-log\n8\nXcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=\n`), privateKey),
  );
  const own = { name: "example.org/pool-log", publicKey };
  const note = answerOf(signedHead(head, own, signature, sha256));
  const read = answerOf(readSignedHead(note));
  expect(isSignedBy(read, own, verifyEd25519, sha256)).toBe(true);
  expect(isSignedBy(read, { ...own, name: "example.org/other" }, verifyEd25519, sha256)).toBe(false);
  expect({ ...read.head, head: Buffer.from(read.head.head).toString("hex") }).toEqual({ ...head, head: head.head.toString("hex") });
  for (const cut of [note.slice(0, -1), note.replace("\n\n", "\n"), note.replace("— ", "- "), note.slice(0, note.indexOf("—"))])
    expect(readSignedHead(cut).ok).toBe(false);
});

function rfc8032Key() {
  const seed = Buffer.from("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60", "hex");
  const publicKey = new Uint8Array(Buffer.from("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "hex"));
  return {
    privateKey: {
      key: Buffer.concat([Buffer.from("302e020100300506032b657004220420", "hex"), seed]),
      format: "der" as const,
      type: "pkcs8" as const,
    },
    publicKey,
  };
}
