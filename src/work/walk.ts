/** One walk over the bytes of a file: the reader of lines, SHA-256 and the count of progress together. */
import { given, type Result, refused } from "../core/result.ts";
import type { TableRefusal } from "../core/table/question.ts";
import type { FileRefusal } from "./answer.ts";
import type { ByteSource, Machine, Progress } from "./ports.ts";

export interface Walked {
  /** Of all bytes from the first to the last. */
  readonly sha256: string;
}

export interface WalkRequest {
  readonly source: ByteSource;
  readonly machine: Machine;
  readonly progress: Progress;
}

/** Ends early where the reader refuses or a person stops. A fault of the disk is a refusal of the file, in words. */
export async function walk(
  request: WalkRequest,
  push: (bytes: Uint8Array) => Result<true, TableRefusal>,
  stage: "reading" | "understanding",
): Promise<Result<Walked, FileRefusal>> {
  const { source, machine, progress } = request;
  const digest = machine.sha256(source.size);
  let done = 0;
  let refusal: FileRefusal | null = null;
  let isOwnFault = false;
  const onPiece = (bytes: Uint8Array): boolean => {
    isOwnFault = true;
    digest.add(bytes);
    const pushed = push(bytes);
    isOwnFault = false;
    if (!pushed.ok) refusal = pushed.refusal;
    else if (progress.stop()) refusal = { type: "stopped" };
    done += bytes.length;
    progress.at(stage, done, source.size);
    return refusal === null;
  };
  let sha256 = "";
  try {
    await source.walk(onPiece);
  } catch (fault) {
    // A source throws for faults of the disk only; what our own code threw must not pass for one.
    if (isOwnFault) throw fault;
    refusal ??= { type: "file-not-readable", reason: fault instanceof Error ? fault.message : String(fault) };
  } finally {
    sha256 = await digest.hex();
  }
  return refusal === null ? given({ sha256 }) : refused(refusal);
}
