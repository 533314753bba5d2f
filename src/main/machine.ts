/** The parts of this machine that reading needs: decoders of text, SHA-256, files and folders, standard input. */
import { createHash } from "node:crypto";
import { once } from "node:events";
import { createWriteStream, type Stats } from "node:fs";
import { mkdtemp, open, readdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import type { DiskRefusal, Sources } from "../cli/surroundings.ts";
import { given, type Result, refused } from "../core/result.ts";
import type { ByteSource, Machine } from "../work/ports.ts";
import { threadDigest } from "./thread-digest.ts";

/** Below this a file is read and hashed sooner than a thread for it has started (measured; bench/csv.bench.ts shows the gain above). */
const LARGE_BYTES = 48 * 1024 * 1024;

export const nodeMachine: Machine = {
  decodeText: (label, bytes) => {
    try {
      return new TextDecoder(label, { fatal: true }).decode(bytes);
    } catch (fault) {
      // This is how a decoder says that there is no such encoding, or that these bytes are none of it.
      if (fault instanceof RangeError || fault instanceof TypeError) return null;
      throw fault;
    }
  },
  sha256: (size) => {
    if (size >= LARGE_BYTES) return threadDigest();
    const hash = createHash("sha256");
    return { add: (bytes) => void hash.update(bytes), hex: async () => hash.digest("hex") };
  },
};

/** Names in a folder that may be recordings. A file that is named itself is read whatever its name. */
const READABLE = new Set([".csv", ".tsv", ".tab", ".txt", ".log", ".senml"]);
const PAPERS = /^(read.?me|licen[cs]es?|notice|changelog|copying)\b/i;
const PIECE_BYTES = 1024 * 1024;

export async function sourcesOf(name: string): Promise<Result<Sources, DiskRefusal>> {
  try {
    if (name === "-") return given({ sources: [await standardInput()], leftOut: [], folders: 0 });
    const found = await stat(name);
    return given(found.isDirectory() ? await folderSources(name) : { sources: [fileSource(name, found)], leftOut: [], folders: 0 });
  } catch (fault) {
    return diskRefusal(fault);
  }
}

export async function readWholeText(name: string): Promise<Result<string, DiskRefusal>> {
  try {
    return given(await readFile(name, "utf8"));
  } catch (fault) {
    return diskRefusal(fault);
  }
}

export async function writeWholeText(name: string, text: string): Promise<Result<true, DiskRefusal>> {
  try {
    await writeFile(name, text);
    return given(true);
  } catch (fault) {
    return diskRefusal(fault);
  }
}

async function folderSources(folder: string): Promise<Sources> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries
    .filter((entry) => entry.isFile() && !entry.name.startsWith("."))
    .map(({ name }) => name)
    .toSorted();
  const mayBe = (name: string): boolean => READABLE.has(extname(name).toLowerCase()) && !PAPERS.test(name);
  const paths = names.filter(mayBe).map((name) => join(folder, name));
  return {
    sources: await Promise.all(paths.map(async (path) => fileSource(path, await stat(path)))),
    leftOut: names.filter((name) => !mayBe(name)),
    folders: entries.filter((entry) => entry.isDirectory() && !entry.name.startsWith(".")).length,
  };
}

function fileSource(name: string, { size }: Pick<Stats, "size">, path = name): ByteSource {
  return { name, size, walk: (piece) => walkFile(path, piece) };
}

/** The next piece is read while the one before it is taken, into two buffers in turn. */
async function walkFile(path: string, piece: (bytes: Uint8Array) => boolean): Promise<void> {
  const file = await open(path).catch((fault: unknown) => {
    throw new Error(faultWords(fault));
  });
  const buffers = [new Uint8Array(PIECE_BYTES), new Uint8Array(PIECE_BYTES)] as const;
  const read = async (buffer: Uint8Array): Promise<Uint8Array> => {
    const { bytesRead } = await file.read(buffer, 0, PIECE_BYTES).catch((fault: unknown) => {
      throw new Error(faultWords(fault));
    });
    return buffer.subarray(0, bytesRead);
  };
  let next = read(buffers[0]);
  try {
    for (let turn: 0 | 1 = 1; ; turn = turn === 1 ? 0 : 1) {
      const bytes = await next;
      if (bytes.length === 0) return;
      next = read(buffers[turn]);
      if (!piece(bytes)) return;
    }
  } finally {
    // A file is not closed under a read; how that one ends is of no interest where the walk has ended.
    await Promise.allSettled([next]);
    await file.close();
  }
}

/** Standard input can be read once, and a file may have to be walked twice: it is laid aside on the disk first. */
async function standardInput(): Promise<ByteSource> {
  const folder = await mkdtemp(join(tmpdir(), `lamproom-stdin-${process.pid}-`));
  laidAside.add(folder);
  const path = join(folder, "standard-input");
  const copy = createWriteStream(path, { mode: 0o600 });
  for await (const bytes of process.stdin) if (!copy.write(bytes)) await once(copy, "drain");
  copy.end();
  await once(copy, "finish");
  return fileSource("standard input", await stat(path), path);
}

const laidAside = new Set<string>();

/** Takes away what was laid aside; called once, at the end. */
export async function clearLaidAside(): Promise<void> {
  for (const folder of laidAside) await rm(folder, { recursive: true, force: true });
}

export function diskRefusal(fault: unknown): { readonly ok: false; readonly refusal: DiskRefusal } {
  if (!(fault instanceof Error && "code" in fault)) throw fault;
  return refused({ type: "file-not-readable", reason: faultWords(fault) });
}

const FAULT_WORDS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EACCES: "this account may not read or write it",
  EPERM: "this account may not read or write it",
  EISDIR: "it is a folder",
  ENOTDIR: "a part of its path is no folder",
  ENOSPC: "the disk is full",
  EIO: "the disk reports a fault",
  EMFILE: "too many files are open",
};

function faultWords(fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? String(fault.code) : "";
  return FAULT_WORDS[code] ?? (fault instanceof Error ? fault.message : String(fault));
}
