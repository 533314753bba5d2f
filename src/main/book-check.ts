/** What checking a book needs of this machine: the folder, SHA-256, Ed25519. */
import { createPublicKey, hash, verify } from "node:crypto";
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Surroundings } from "../cli/surroundings.ts";
import { given, refused } from "../core/result.ts";
import { rawBook } from "../store/sqlite/raw-book.ts";

/** How a raw Ed25519 key of 32 bytes stands in a SubjectPublicKeyInfo (RFC 8410 section 4). */
const ED25519_PREFIX = Buffer.from("302a300506032b6570032100", "hex");

export const verifyTools: Surroundings["verifyTools"] = {
  sha256: (bytes) => new Uint8Array(hash("sha256", bytes, "buffer")),
  verify: (publicKey, message, signature) =>
    verify(null, message, createPublicKey({ key: Buffer.concat([ED25519_PREFIX, publicKey]), format: "der", type: "spki" }), signature),
};

export const bookAt: Surroundings["rawBook"] = (folder) => {
  if (!existsSync(join(folder, "book.sqlite"))) return refused({ type: "no-book-in-folder", folder });
  const book = rawBook(folder);
  return book === null ? refused({ type: "no-book-in-folder", folder }) : given(book);
};
