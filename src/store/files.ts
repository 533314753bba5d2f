/** Files by the digest of their bytes: recordings, certificates, reports as they were given out. */
import type { Digest } from "../core/record/index.ts";
import type { Result } from "../core/result.ts";

export type FileRefusal =
  | { readonly type: "file-missing"; readonly file: Digest }
  /** The bytes on the disk are not those of the name any more. */
  | { readonly type: "file-damaged"; readonly file: Digest; readonly found: Digest }
  | { readonly type: "disk-failed"; readonly what: string };

export interface Files {
  /** Keeps bytes and answers their digest once they are durable, name and folder included. Twice the same is once. */
  readonly put: (pieces: AsyncIterable<Uint8Array>) => Promise<Result<{ readonly digest: Digest; readonly size: number }, FileRefusal>>;
  readonly has: (file: Digest) => Promise<boolean>;
  /** All bytes, held against the name. */
  readonly get: (file: Digest) => Promise<Result<Uint8Array, FileRefusal>>;
  readonly list: () => Promise<readonly Digest[]>;
  readonly remove: (file: Digest) => Promise<void>;
}
