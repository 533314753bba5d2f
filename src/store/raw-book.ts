/** A book as bare bytes, for whoever checks it: nothing is read into shape, nothing is believed. */
import type { Digest } from "../core/record/index.ts";

export interface RawEntry {
  readonly number: number;
  readonly entry: Uint8Array;
  readonly submission: Uint8Array;
  /** Null where the bytes are not there. */
  readonly body: Uint8Array | null;
  readonly private: Uint8Array | null;
}

export interface RawBook {
  readonly book: string;
  /** The newest signed head; empty where there is none. */
  readonly note: string;
  /** In rising order of number. */
  readonly entries: () => Iterable<RawEntry>;
  /** Digest of the bytes under this name; null where there are none. */
  readonly fileDigest: (file: Digest) => Promise<Digest | null>;
  /** Files that a body names. */
  readonly filesNamed: (body: Uint8Array) => readonly Digest[];
  readonly close: () => void;
}
