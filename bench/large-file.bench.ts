/** How long a file of gigabytes takes and how much memory it holds: made while it is read, so no disk takes part. */
import { nodeMachine } from "../src/main/machine.ts";
import { assessExposure, NOTHING_DECLARED } from "../src/work/assess-exposure.ts";
import { limitBook } from "../src/work/limits-on-date.ts";
import { openRecording } from "../src/work/open-recording.ts";
import { madeFile } from "../test/work/made-file.ts";

const SIZES_MEGABYTES = [100, 500, 2000];

console.log("| file | rows | seconds, making the rows included | greatest resident memory |");
console.log("| --- | --- | --- | --- |");
for (const megabytes of SIZES_MEGABYTES) {
  const started = performance.now();
  const opened = await openRecording({
    source: madeFile(megabytes * 1024 * 1024),
    machine: nodeMachine,
    progress: { at: () => undefined, stop: () => false },
    answers: {},
    mappings: [],
    shifts: ["2026-01-01T06:00:00Z/2026-01-01T14:00:00Z"],
  });
  const answer = assessExposure(opened, { ...NOTHING_DECLARED, limits: limitBook(null) });
  if (answer.refusal !== null) throw new Error(answer.refusal.message);
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  // Kilobytes on every system that Node runs on; it only ever rises, so the sizes stand in rising order.
  console.log(`| ${megabytes} MiB | ${answer.lines?.rows} | ${seconds} | ${Math.round(process.resourceUsage().maxRSS / 1024)} MiB |`);
}
