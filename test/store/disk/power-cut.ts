/**
 * What a disk may hold after a power cut: everything that was synced, and of what was written since any part, torn
 * anywhere between two sectors. Making and deleting of files is taken to last at once, in order. The model is that of
 * Pillai et al., All File Systems Are Not Created Equal, OSDI 2014 [memory].
 */
import { basename } from "node:path";

type Call =
  | { readonly call: "write"; readonly file: string; readonly at: number; readonly bytes: Buffer }
  | { readonly call: "cut"; readonly file: string; readonly at: number }
  | { readonly call: "sync" | "unlink"; readonly file: string }
  | { readonly call: "mark"; readonly text: string };

/** The trace that disk-shim wrote. */
export function callsOf(trace: Buffer): readonly Call[] {
  const calls: Call[] = [];
  for (let at = 0; at < trace.length; ) {
    const end = trace.indexOf(10, at);
    const [call = "", path = "", offset = "0", size = "0"] = trace.toString("utf8", at, end).split("\t");
    at = end + 1;
    const bytes = trace.subarray(at, at + Number(size));
    at += Number(size);
    calls.push(callOf(call, basename(path), Number(offset), bytes));
  }
  return calls;
}

function callOf(call: string, file: string, at: number, bytes: Buffer): Call {
  if (call === "mark") return { call, text: bytes.toString("utf8") };
  if (call === "write") return { call, file, at, bytes };
  if (call === "cut") return { call, file, at };
  if (call === "sync" || call === "unlink") return { call, file };
  throw new Error(`no call of a trace: ${call}`);
}

type Change = Extract<Call, { readonly call: "write" | "cut" }>;

interface OnDisk {
  readonly synced: Buffer;
  readonly since: readonly Change[];
}

export type Disk = ReadonlyMap<string, OnDisk>;

export function after(disk: Disk, call: Call): Disk {
  if (call.call === "mark") return disk;
  const next = new Map(disk);
  const file = disk.get(call.file) ?? { synced: Buffer.alloc(0), since: [] };
  if (call.call === "unlink") next.delete(call.file);
  else if (call.call === "sync") next.set(call.file, { synced: file.since.reduce(changed, file.synced), since: [] });
  else next.set(call.file, { ...file, since: [...file.since, call as Change] }); // the two that are left
  return next;
}

function changed(bytes: Buffer, change: Change): Buffer {
  if (change.call === "cut") return resized(bytes, change.at);
  const all = resized(bytes, Math.max(bytes.length, change.at + change.bytes.length));
  change.bytes.copy(all, change.at);
  return all;
}

function resized(bytes: Buffer, size: number): Buffer {
  const all = Buffer.alloc(size);
  bytes.copy(all, 0, 0, Math.min(size, bytes.length));
  return all;
}

const SECTOR = 512;

/** The files as found: `keep` says of each sector written since the last sync, and of each cut, whether it came through. */
export function found(disk: Disk, keep: () => boolean): ReadonlyMap<string, Buffer> {
  return new Map(
    [...disk].map(([name, { synced, since }]) => [name, since.flatMap((change) => kept(change, keep)).reduce(changed, synced)]),
  );
}

function kept(change: Change, keep: () => boolean): readonly Change[] {
  if (change.call === "cut") return keep() ? [change] : [];
  const pieces: Change[] = [];
  for (let from = 0; from < change.bytes.length; ) {
    const to = Math.min(change.bytes.length, from + SECTOR - ((change.at + from) % SECTOR));
    if (keep()) pieces.push({ ...change, at: change.at + from, bytes: change.bytes.subarray(from, to) });
    from = to;
  }
  return pieces;
}
