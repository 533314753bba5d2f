/** Files as whoever checks them asks: what is under a name, or nothing. */
import type { Digest } from "../../core/record/index.ts";
import type { Files } from "../files.ts";

/** Digest of the bytes under a name; null where there are none. */
export async function fileDigest(files: Files, file: Digest): Promise<Digest | null> {
  const got = await files.get(file);
  if (got.ok) return file;
  return got.refusal.type === "file-damaged" ? got.refusal.found : null;
}

/** The bytes under a name; null where they are not there, or not those. */
export async function fileBytes(files: Files, file: Digest): Promise<Uint8Array | null> {
  const got = await files.get(file);
  return got.ok ? got.value : null;
}
