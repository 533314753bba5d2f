/** What the work needs from the machine it runs on; handed in by `main`, so the same lines run in Node and the browser. */

/** A file that can be walked more than once, in pieces. */
export interface ByteSource {
  readonly name: string;
  readonly size: number;
  /**
   * Calls `piece` until the end; a false answer stops the walk. The bytes are those of the call: whoever keeps some
   * copies them. Throws only for faults of the disk.
   */
  readonly walk: (piece: (bytes: Uint8Array) => boolean) => Promise<void>;
}

export interface RunningDigest {
  readonly add: (bytes: Uint8Array) => void;
  /** Ends the digest; called once, whatever became of the walk: a digest may hold a thread. */
  readonly hex: () => Promise<string>;
}

export interface Machine {
  readonly decodeText: (label: string, bytes: Uint8Array) => string | null;
  /** For a file of so many bytes, as far as is known beforehand. */
  readonly sha256: (size: number) => RunningDigest;
}

/** Stages of long work; `stop` answers true when a person cancelled. */
export interface Progress {
  readonly at: (stage: "reading" | "understanding" | "computing", done: number, of: number | null) => void;
  readonly stop: () => boolean;
}
