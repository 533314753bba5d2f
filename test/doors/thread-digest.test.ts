/** SHA-256 on a thread of its own is that of the bytes, in whatever pieces they come; and the thread ends. */
import { createHash } from "node:crypto";
import { mkdtemp, open, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { SLOT_BYTES, SLOTS } from "../../src/main/hash-ring.ts";
import { nodeMachine, sourcesOf } from "../../src/main/machine.ts";
import { threadDigest } from "../../src/main/thread-digest.ts";
import { walk } from "../../src/work/walk.ts";

function made(length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  for (let index = 0, state = 1; index < length; index += 1) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0;
    bytes[index] = state >>> 24;
  }
  return bytes;
}

const plain = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

test.each([
  ["nothing", 0, 1],
  ["one byte", 1, 1],
  ["one slot", SLOT_BYTES, SLOT_BYTES],
  ["a byte beyond a slot", SLOT_BYTES + 1, SLOT_BYTES + 1],
  ["more than the ring holds, in pieces larger than a slot", (SLOTS + 5) * SLOT_BYTES + 7, 3 * SLOT_BYTES + 1],
  ["more pieces than the ring has slots", 1000, 7],
])("%s", async (_, length, piece) => {
  const bytes = made(length);
  const digest = threadDigest();
  // The same memory each time: what was added may be overwritten at once.
  const buffer = new Uint8Array(piece);
  for (let from = 0; from < length; from += piece) {
    const part = bytes.subarray(from, from + piece);
    buffer.set(part);
    digest.add(buffer.subarray(0, part.length));
    buffer.fill(0);
  }
  expect(await digest.hex()).toBe(plain(bytes));
});

const QUIET = { at: () => undefined, stop: () => false };

test("a large file is walked byte by byte and hashed, and a walk that is given up leaves no thread behind", async () => {
  const folder = await mkdtemp(join(tmpdir(), "lamproom-digest-"));
  const path = join(folder, "large.log");
  try {
    const part = made(1_000_003);
    const parts = 60;
    const file = await open(path, "w");
    const whole = createHash("sha256");
    for (let index = 0; index < parts; index += 1) {
      await file.write(part);
      whole.update(part);
    }
    await file.close();
    const found = await sourcesOf(path);
    const source = found.ok ? found.value.sources[0] : undefined;
    if (source === undefined) throw new Error("the file was written");
    const seen = createHash("sha256");
    const walked = await walk(
      { source, machine: nodeMachine, progress: QUIET },
      (bytes) => {
        seen.update(bytes);
        return { ok: true, value: true };
      },
      "reading",
    );
    const sha256 = whole.digest("hex");
    expect(walked).toEqual({ ok: true, value: { sha256 } });
    expect(seen.digest("hex")).toBe(sha256);
    const stopped = { ...QUIET, stop: () => true };
    expect(await walk({ source, machine: nodeMachine, progress: stopped }, () => ({ ok: true, value: true }), "reading")).toEqual({
      ok: false,
      refusal: { type: "stopped" },
    });
    await expect(
      walk(
        { source, machine: nodeMachine, progress: QUIET },
        () => {
          throw new Error("own fault");
        },
        "reading",
      ),
    ).rejects.toThrow("own fault");
    await expect
      .poll(() => process.getActiveResourcesInfo().filter((name) => name === "MessagePort" || name === "Worker").length)
      .toBeLessThanOrEqual(resourcesBefore);
  } finally {
    await rm(folder, { recursive: true });
  }
});

const resourcesBefore = process.getActiveResourcesInfo().filter((name) => name === "MessagePort" || name === "Worker").length;

test.each([0, 1, 1024 * 1024 - 1, 1024 * 1024, 1024 * 1024 + 1, 3 * 1024 * 1024])(
  "a file of %i bytes comes whole and in order",
  async (length) => {
    const folder = await mkdtemp(join(tmpdir(), "lamproom-pieces-"));
    const path = join(folder, "log.csv");
    try {
      const bytes = made(length);
      await writeFile(path, bytes);
      const found = await sourcesOf(path);
      const pieces: Uint8Array[] = [];
      if (found.ok) await found.value.sources[0]?.walk((piece) => pieces.push(piece.slice()) > 0);
      expect(plain(Buffer.concat(pieces))).toBe(plain(bytes));
    } finally {
      await rm(folder, { recursive: true });
    }
  },
);
