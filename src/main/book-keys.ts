/**
 * The key that signs a book's heads, and the newest head that went out: both outside of the folder that is kept and
 * copied, so that an older copy of the folder is noticed, and a copy of the folder cannot sign.
 */
import { createPrivateKey, createPublicKey, generateKeyPairSync, hash, type KeyObject, randomUUID, sign } from "node:crypto";
import { existsSync } from "node:fs";
import { chmod, open, readFile, rename, writeFile } from "node:fs/promises";
import { homedir } from "node:os";
import { join } from "node:path";
import { keyText } from "../core/record/index.ts";
import { machineFolderCalls, makeLastingFolder, syncFolder } from "../store/folder/lasting-folder.ts";
import type { HeadSigner, KnownHead } from "../store/ledger.ts";

const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(hash("sha256", bytes, "buffer"));

/** Where keys are kept: LAMPROOM_KEYS, or the place for settings of this machine's user. */
export function keyFolder(environment: NodeJS.ProcessEnv): string {
  return environment["LAMPROOM_KEYS"] ?? join(environment["XDG_CONFIG_HOME"] ?? join(homedir(), ".config"), "lamproom", "keys");
}

export interface BookKey {
  readonly signer: HeadSigner;
  readonly knownHead: KnownHead;
  /** The public key as one line, to be kept elsewhere. */
  readonly line: string;
}

/** Where the private key of a book lies. */
export const keyFileOf = (folder: string, book: string): string => join(folder, `${book}.pem`);

/** The key of a book; null where it is not on this machine. */
export async function keyOfBook(folder: string, book: string): Promise<BookKey | null> {
  const path = keyFileOf(folder, book);
  return existsSync(path) ? keyWith(createPrivateKey(await readFile(path, "utf8")), folder, book) : null;
}

/** Makes the key of a new book, readable by this user alone, durable before it is used. */
export async function newKeyOfBook(folder: string, book: string): Promise<BookKey> {
  const { privateKey } = generateKeyPairSync("ed25519");
  await makeLastingFolder(folder, machineFolderCalls, 0o700);
  await chmod(folder, 0o700);
  const file = await open(keyFileOf(folder, book), "wx", 0o600);
  try {
    await file.writeFile(String(privateKey.export({ format: "pem", type: "pkcs8" })));
    await file.sync();
  } finally {
    await file.close();
  }
  await syncFolder(folder, machineFolderCalls);
  return keyWith(privateKey, folder, book);
}

const RAW_BYTES = 32;

function keyWith(privateKey: KeyObject, folder: string, book: string): BookKey {
  const spki = createPublicKey(privateKey).export({ format: "der", type: "spki" });
  const key = { name: `lamproom/${book}`, publicKey: new Uint8Array(spki.subarray(-RAW_BYTES)) };
  const line = keyText(key, sha256);
  if (!line.ok) throw new Error(`broken promise: a book's key has a line (${line.refusal.why})`);
  return {
    signer: { key, sign: (message) => new Uint8Array(sign(null, message, privateKey)) },
    knownHead: knownHeadIn(join(folder, `${book}.head`)),
    line: line.value,
  };
}

/** Written beside and renamed: a reader finds the old one or the new one. */
function knownHeadIn(path: string): KnownHead {
  return {
    read: async () => (existsSync(path) ? await readFile(path, "utf8") : null),
    write: async (note) => {
      const aside = `${path}.${randomUUID()}`;
      await writeFile(aside, note, { mode: 0o600 });
      await rename(aside, path);
    },
  };
}
