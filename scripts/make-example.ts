// Writes the invented recordings for a first click into `examples`: one shift of one person at Marl Beck, a works that
// does not exist, logged by three instruments of invented models. Everything follows from the seed, so the files can
// be made again byte for byte: `node scripts/make-example.ts`.
import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Numbers from 0 up to, not including, 1. */
type Chance = () => number;

export interface ExampleFile {
  readonly name: string;
  readonly text: string;
}

export const SEED = 20_260_317;

/** The shift is 06:00 to 14:00 UTC on 17 March 2026; seconds count from its start. */
const START = Date.UTC(2026, 2, 17, 6);
const SHIFT_SECONDS = 8 * 3600;
const STEP_SECONDS = 10;

const atClock = (hour: number, minute: number, second = 0) => (hour - 6) * 3600 + minute * 60 + second;

/** Release at the digester: valve opens, is shut, and the hall airs out. */
const RELEASE = { from: atClock(10, 31, 20), shut: atClock(10, 32, 35) } as const;
/** The four-gas instrument stands in its cradle over the meal break: no rows. */
const CRADLE = { from: atClock(11, 58), to: atClock(12, 20) } as const;
/** A loader runs in the tipping hall. */
const LOADER = { from: atClock(7, 10), to: atClock(7, 42) } as const;

/** A seeded generator (Park and Miller's minimal standard: 48271 x state mod 2^31 - 1). */
export function seededChance(seed: number): Chance {
  let state = seed % 2_147_483_647 || 1;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return (state - 1) / 2_147_483_646;
  };
}

/** The files, from a generator; each draws from it in turn. */
export function exampleFiles(chance: Chance): readonly ExampleFile[] {
  return [fourGas(chance), hydrogenSulphide(chance), carbonMonoxide(chance)];
}

/** Air at the wearer: what a perfect instrument would see. Strength of the release: 0 to 1. */
function release(seconds: number): number {
  if (seconds < RELEASE.from) return 0;
  const filling = 1 - Math.exp(-(Math.min(seconds, RELEASE.shut) - RELEASE.from) / 25);
  return filling * Math.exp(-Math.max(0, seconds - RELEASE.shut) / 60);
}

function exhaust(seconds: number): number {
  if (seconds < LOADER.from) return 0;
  const rising = 1 - Math.exp(-(Math.min(seconds, LOADER.to) - LOADER.from) / 240);
  return rising * Math.exp(-Math.max(0, seconds - LOADER.to) / 420);
}

const TRUE_AIR = {
  hydrogenSulphide: (seconds: number) => 165 * release(seconds) + (seconds > atClock(9, 15) && seconds < atClock(10, 5) ? 1.4 : 0.1),
  carbonMonoxide: (seconds: number) => 31 * exhaust(seconds) + 9 * release(seconds) + 0.4,
  methane: (seconds: number) => 11 * release(seconds),
  oxygen: (seconds: number) => 20.9 - 0.7 * release(seconds),
} as const;

/** A first-order sensor: it reads 90 % of a step after T90, common practice. */
function sensor(air: (seconds: number) => number, t90Seconds: number, noise: number, chance: Chance): (seconds: number) => number {
  const share = 1 - 10 ** (-STEP_SECONDS / t90Seconds);
  let shown = air(0);
  return (seconds) => {
    shown += share * (air(seconds) - shown);
    return shown + noise * (chance() + chance() + chance() - 1.5);
  };
}

function everyStep(line: (seconds: number) => string | null): string[] {
  const lines: string[] = [];
  for (let seconds = 0; seconds <= SHIFT_SECONDS; seconds += STEP_SECONDS) {
    const made = line(seconds);
    if (made !== null) lines.push(made);
  }
  return lines;
}

/** Never "-0". */
const digits = (value: number, decimals: number) => (Math.round(value * 10 ** decimals) / 10 ** decimals + 0).toFixed(decimals);
const stamp = (seconds: number) => new Date(START + seconds * 1000).toISOString().slice(0, 19);

function fourGas(chance: Chance): ExampleFile {
  const carbonMonoxideCell = sensor(TRUE_AIR.carbonMonoxide, 25, 0.5, chance);
  const sulphideCell = sensor(TRUE_AIR.hydrogenSulphide, 30, 0.08, chance);
  const pellistor = sensor(TRUE_AIR.methane, 15, 0.2, chance);
  const oxygenCell = sensor(TRUE_AIR.oxygen, 15, 0.04, chance);
  const rows = everyStep((seconds) => {
    const carbonMonoxide = digits(Math.max(0, carbonMonoxideCell(seconds)), 0);
    const sulphide = sulphideCell(seconds);
    const methane = digits(Math.max(0, pellistor(seconds)), 0);
    const oxygen = digits(oxygenCell(seconds), 1);
    if (seconds > CRADLE.from && seconds < CRADLE.to) return null;
    const shown = sulphide > 100 ? ">100" : digits(Math.max(0, sulphide), 1);
    return [`${stamp(seconds)}Z`, carbonMonoxide, shown, methane, oxygen].join(",");
  });
  const head = [
    "# Demonstration: invented. Marl Beck is no real works and nobody breathed this.",
    "# Works: Marl Beck, digester hall and tipping hall",
    "# Worn by: Ivo Ashdown, breathing zone, 06:00 to 14:00",
    "# Instrument: Fell Four, serial MB-0417 (an invented model); in the cradle 11:58 to 12:20",
    "Time,CO (ppm),H2S (ppm),Methane (%LEL),O2 (vol%)",
  ];
  return { name: "marl-beck-1-four-gases.csv", text: `${[...head, ...rows].join("\r\n")}\r\n` };
}

/** A second instrument with the wider range, on the same person: semicolons and a decimal comma. */
function hydrogenSulphide(chance: Chance): ExampleFile {
  const cell = sensor(TRUE_AIR.hydrogenSulphide, 35, 0.15, chance);
  const comma = (value: number) => digits(value, 1).replace(".", ",");
  const rows = everyStep((seconds) => {
    const [date = "", clock = ""] = stamp(seconds).split("T");
    // Cold out of the locker, the nought of this one sits a little low at first.
    const drift = -0.6 * Math.exp(-seconds / 900);
    return [date.split("-").reverse().join("."), clock, comma(cell(seconds) + drift), comma(11.5 + seconds / 7200)].join(";");
  });
  const head = [
    "Demonstration: invented",
    "Works: Marl Beck",
    "Worn by: Ivo Ashdown",
    "Instrument: Fell One S, serial MB-0902, range 0 to 500 ppm",
    "Clock: UTC",
    "",
    "Date;Time (UTC);H2S [ppm];Temperature [°C]",
  ];
  return { name: "marl-beck-2-decimal-comma.csv", text: `\uFEFF${[...head, ...rows].join("\r\n")}\r\n` };
}

/** Carbon monoxide from a third one that writes a twelve-hour clock. */
function carbonMonoxide(chance: Chance): ExampleFile {
  const cell = sensor(TRUE_AIR.carbonMonoxide, 20, 0.4, chance);
  const rows = everyStep((seconds) => {
    const [date = "", clock = ""] = stamp(seconds).split("T");
    const [year, month, day] = date.split("-");
    const hour = Number(clock.slice(0, 2));
    const twelve = `${hour % 12 === 0 ? 12 : hour % 12}${clock.slice(2)} ${hour < 12 ? "AM" : "PM"}`;
    return [`${month}/${day}/${year} ${twelve}`, digits(Math.max(0, cell(seconds)), 1)].join(",");
  });
  const head = [
    "Demonstration: invented",
    "Works: Marl Beck",
    "Worn by: Ivo Ashdown",
    "Instrument: Fell One C, serial MB-0533",
    "",
    "Time (UTC),CO (ppm)",
  ];
  return { name: "marl-beck-3-twelve-hour-clock.csv", text: `${[...head, ...rows].join("\n")}\n` };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const folder = fileURLToPath(new URL("../examples/", import.meta.url));
  mkdirSync(folder, { recursive: true });
  for (const { name, text } of exampleFiles(seededChance(SEED))) writeFileSync(`${folder}${name}`, text);
}
