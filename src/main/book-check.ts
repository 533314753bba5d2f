/** What checking a book needs of this machine: the folder, SHA-256, Ed25519. */
import { createPublicKey, hash, verify } from "node:crypto";
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { BooksOfMachine, Surroundings } from "../cli/surroundings.ts";
import { given, refused } from "../core/result.ts";
import { exportedBook } from "../store/folder/exported-book.ts";
import { rawBook } from "../store/sqlite/raw-book.ts";
import { whyNotOpened } from "./book-folder.ts";

/** How a raw Ed25519 key of 32 bytes stands in a SubjectPublicKeyInfo (RFC 8410 section 4). */
const ED25519_PREFIX = Buffer.from("302a300506032b6570032100", "hex");

export const verifyTools: Surroundings["verifyTools"] = {
  sha256: (bytes) => new Uint8Array(hash("sha256", bytes, "buffer")),
  verify: (publicKey, message, signature) =>
    verify(null, message, createPublicKey({ key: Buffer.concat([ED25519_PREFIX, publicKey]), format: "der", type: "spki" }), signature),
};

/** The book that a folder keeps, else the one that was exported into it. */
export const bookAt: BooksOfMachine["at"] = (folder) => {
  const kept = existsSync(join(folder, "book.sqlite"));
  const book = kept ? rawBook(folder) : exportedBook(folder);
  if (!book.ok) return refused({ type: "book-not-opened", why: whyNotOpened(book.refusal) });
  return book.value === null ? refused({ type: "no-book-in-folder", folder }) : given(book.value);
};
