import { expect, test } from "vitest";
import { runLamproom } from "../../src/cli/run.ts";
import type { Surroundings } from "../../src/cli/surroundings.ts";
import { verifyTools } from "../../src/main/book-check.ts";
import { booksOfMachine } from "../../src/main/books-of-machine.ts";
import { nodeMachine } from "../../src/main/machine.ts";

const bytes = new TextEncoder().encode("Time,CO (ppm)\n2026-03-04T06:00:00Z,1\n2026-03-04T06:00:10Z,2\n2026-03-04T06:00:20Z,3\n");

/** A machine of which one part breaks at the first file, as a fault of our own would. */
function surroundings(said: string[]): Surroundings {
  let digests = 0;
  return {
    version: "0",
    colour: false,
    machine: {
      ...nodeMachine,
      sha256: (size) => {
        digests += 1;
        if (digests === 1) throw new Error("broken promise: a digest has bytes");
        return nodeMachine.sha256(size);
      },
    },
    sources: async (name) => ({
      ok: true,
      value: { sources: [{ name, size: bytes.length, walk: async (piece) => void piece(bytes) }], leftOut: [], folders: 0 },
    }),
    readText: async () => ({ ok: false, refusal: { type: "file-not-readable", reason: "none is asked for" } }),
    writeText: async () => ({ ok: false, refusal: { type: "file-not-readable", reason: "none is asked for" } }),
    books: booksOfMachine({}),
    verifyTools,
    answer: (text) => void said.push(text),
    message: () => undefined,
  };
}

test("a fault of our own in one file is named there, the others are answered, and the code is 70", async () => {
  const said: string[] = [];
  expect(await runLamproom(["exposure", "first.csv", "second.csv", "--json"], surroundings(said))).toBe(70);
  const { files } = JSON.parse(said.join(""));
  expect(files[0].refusal).toMatchObject({ type: "program-fault", message: expect.stringContaining("a digest has bytes") });
  expect(files[1]).toMatchObject({ refusal: null, channels: [{ samples: 3 }] });
});

test("a fault of the disk in the middle of a file is a refusal of that file", async () => {
  const said: string[] = [];
  const broken = surroundings(said);
  const walk = async (): Promise<void> => {
    throw new Error("the disk reports a fault");
  };
  const sources: Surroundings["sources"] = async (name) => ({
    ok: true,
    value: { sources: [{ name, size: 1, walk }], leftOut: [], folders: 0 },
  });
  expect(await runLamproom(["exposure", "first.csv", "--json"], { ...broken, machine: nodeMachine, sources })).toBe(3);
  expect(JSON.parse(said.join("")).files[0].refusal).toMatchObject({ type: "file-not-readable", reason: "the disk reports a fault" });
});
