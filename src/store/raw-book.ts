/** A book as bare bytes, for whoever checks it or takes it elsewhere: nothing is believed. */
import type { Digest, LineBytes } from "../core/record/index.ts";

export interface RawEntry extends LineBytes {
  readonly number: number;
  /** Hash of the leaf as it was kept beside the entry; null where none was. */
  readonly leaf: Uint8Array | null;
  /** Whether the rows by which it is found say what it says; null where a book is read from end to end alone. */
  readonly isFound: boolean | null;
}

/** Bytes that were offered under an id which was taken. */
export interface RawConflict extends Pick<LineBytes, "submission" | "body" | "private"> {
  /** Entry that has the id. */
  readonly number: number;
  readonly received: string;
}

export interface RawBook {
  readonly book: string;
  /** The newest signed head; empty where there is none. */
  readonly note: string;
  /** In rising order of number; ends early where no more can be read. */
  readonly entries: () => Iterable<RawEntry>;
  /** Why the entries ended early; null where they did not. */
  readonly fault: () => string | null;
  /** Whether rows lead to entries which do not say what the rows say. */
  readonly hasStrayRows: () => boolean;
  readonly conflicts: () => Iterable<RawConflict>;
  /** Digest of the bytes under this name; null where there are none. */
  readonly fileDigest: (file: Digest) => Promise<Digest | null>;
  /** The bytes under this name, held against it; null where they are not those. */
  readonly fileBytes: (file: Digest) => Promise<Uint8Array | null>;
  /** Files that a body names. */
  readonly filesNamed: (body: Uint8Array) => readonly Digest[];
  readonly close: () => void;
}
