/**
 * Ten million local times into instants, one zone, 10 s apart over three years with their clock changes, against copying the same
 * column. Run: node bench/local-times.bench.ts
 */
import { columnInstants, daysFromCivil, MILLISECONDS_PER_DAY, zoneClock } from "../src/core/time/index.ts";

const rows = 10_000_000;
const start = daysFromCivil(2023, 1, 1) * MILLISECONDS_PER_DAY;
const locals = Float64Array.from({ length: rows }, (_, row) => start + row * 10_000);
const instants = new Float64Array(rows);

const bestOf = (times: number, act: () => void): number => {
  let best = Number.POSITIVE_INFINITY;
  for (let time = 0; time < times; time++) {
    const begun = performance.now();
    act();
    best = Math.min(best, performance.now() - begun);
  }
  return best;
};

const millions = (milliseconds: number): string => (rows / 1000 / milliseconds).toFixed(0).padStart(6);

const copy = bestOf(7, () => {
  for (let row = 0; row < rows; row++) instants[row] = locals[row] as number; // row is below the length
});
process.stdout.write(`| zone | million times/s | of a plain copy |\n| --- | ---: | ---: |\n| (copy) | ${millions(copy)} | 1.0 |\n`);
for (const zone of ["Europe/London", "Australia/Lord_Howe", "Asia/Kathmandu", "+02:00"]) {
  const clock = zoneClock(zone);
  if (!clock.ok) throw new Error(zone);
  const taken = bestOf(7, () => columnInstants(locals, clock.value, instants));
  process.stdout.write(`| ${zone} | ${millions(taken)} | ${(taken / copy).toFixed(1)} |\n`);
}
