import { expect, test } from "vitest";
import { nodeMachine } from "../../src/main/machine.ts";
import { assessExposure, NOTHING_DECLARED } from "../../src/work/assess-exposure.ts";
import { limitBook } from "../../src/work/limits-on-date.ts";
import { openRecording } from "../../src/work/open-recording.ts";
import type { Progress } from "../../src/work/ports.ts";
import { madeFile } from "./made-file.ts";

/** Memory is what is tested here, not time: a machine with other work gets the time it needs. */
const PATIENCE = { timeout: 300_000 };
const MEGABYTE = 1024 * 1024;
const QUIET: Progress = { at: () => undefined, stop: () => false };
const open = (megabytes: number, shifts: readonly string[], progress = QUIET) =>
  openRecording({ source: madeFile(megabytes * MEGABYTE), machine: nodeMachine, progress, answers: {}, mappings: [], shifts });
const assess = (opened: Awaited<ReturnType<typeof open>>) =>
  assessExposure(opened, { ...NOTHING_DECLARED, regimes: ["US-OSHA"], limits: limitBook(null) });

test("a file of months is read to its end in memory that does not grow with it", PATIENCE, async () => {
  await open(80, []);
  const before = process.memoryUsage.rss();
  let most = 0;
  const progress = {
    at: () => {
      most = Math.max(most, process.memoryUsage.rss());
    },
    stop: () => false,
  };
  const answer = assess(await open(240, [], progress));
  expect(answer.refusal).toMatchObject({ type: "longer-than-a-day" });
  expect(answer.lines?.rows).toBeGreaterThan(5_000_000);
  expect(answer.sha256).toMatch(/^[0-9a-f]{64}$/);
  // Three times the bytes of the first file, and yet less than half of them more in memory.
  expect((most - before) / MEGABYTE).toBeLessThan(120);
});

test("out of a file of months the named shifts are taken, whole", PATIENCE, async () => {
  const shifts = ["2026-02-01T06:00:00Z/2026-02-01T14:00:00Z", "2026-03-01T06:00:00Z/2026-03-01T14:00:00Z"];
  const answer = assess(await open(70, shifts));
  expect(answer.refusal).toBeNull();
  // A reading every 10 s for 8 h, and the one on the stroke of the end.
  expect(answer.channels.map(({ name, shift, samples, sampledSeconds }) => [name, shift, samples, sampledSeconds])).toEqual(
    [0, 1].flatMap((shift) => ["CO (ppm)", "H2S (ppm)", "O2 (%vol)", "CH4 (%LEL)"].map((name) => [name, shift, 2881, 28_800])),
  );
});

test("a person can stop it", async () => {
  let pieces = 0;
  const opened = await open(70, [], {
    at: () => {
      pieces += 1;
    },
    stop: () => pieces > 3,
  });
  expect(opened.refusal?.type).toBe("stopped");
  expect(pieces).toBeLessThan(6);
});
