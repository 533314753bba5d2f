/**
 * One made-up file a seed: a dialect, a heading, rows and perhaps damage. What comes back is set against what was
 * written and against papaparse, which reads the same text on its own.
 */
import Papa from "papaparse";
import { type Answers, type Proposal, surveyAndRead, type TableSummary } from "../../../src/core/table/index.ts";
import { environment, keeping, type Pieces, type ReadBack, read, readBack, survey } from "./reading.ts";

export interface Chance {
  /** Whole number from 0 to below. */
  readonly below: (bound: number) => number;
  readonly pick: <Choice>(choices: readonly Choice[]) => Choice;
  readonly often: (share: number) => boolean;
}

/** Mulberry32: small, seeded, the same everywhere. */
export function chanceFrom(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    below: (bound) => Math.floor(next() * bound),
    pick: (choices) => choices[Math.floor(next() * choices.length)] as never,
    often: (share) => next() < share,
  }; // the index is below the length
}

/** What does not hold for a seed; null where all does. */
export function fuzzCase(seed: number): string | null {
  const chance = chanceFrom(seed);
  const kind = chance.below(4);
  try {
    if (kind === 0) return textCase(chance);
    if (kind === 1) return gasCase(chance);
    return damagedCase(chance, kind === 2);
  } catch (fault) {
    return `threw ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}`;
  }
}

const LETTERS = [
  "a",
  "B",
  "7",
  " ",
  "é",
  "\u20ac",
  "\ud83d\udd25",
  "-",
  ".",
  ":",
  ";",
  ",",
  "|",
  "\t",
  '"',
  "'",
  "\n",
  "\r\n",
  "=",
  "#",
  "/",
];

/** Texts of every sort in up to twenty rows: cell by cell the same as papaparse. */
function textCase(chance: Chance): string | null {
  const delimiter = chance.pick([",", ";", "\t", "|"]);
  const lineEnd = chance.pick(["\n", "\r\n"] as const);
  const width = 2 + chance.below(5);
  const rows = Array.from({ length: 1 + chance.below(19) }, () => Array.from({ length: width }, () => cellText(chance)));
  const labels = Array.from({ length: width }, (_, index) => `label ${index}`);
  // A number below the heading settles that it is one, and no row looks like the heading.
  for (const [index, row] of rows.entries()) row[0] = String(index);
  const quote = (cell: string): string =>
    /["\r\n#']|^\s|\s$/u.test(cell) || cell.includes(delimiter) || chance.often(0.2) ? `"${cell.replaceAll('"', '""')}"` : cell;
  const text = [labels, ...rows].map((row) => row.map(quote).join(delimiter)).join(lineEnd) + (chance.often(0.5) ? lineEnd : "");
  const papa = Papa.parse<string[]>(text, { delimiter, newline: lineEnd, skipEmptyLines: false });
  const wanted = papa.data.slice(1).filter((row) => row.length > 1);
  const found = survey(bytesOf(text), { delimiter: delimiter === "\t" ? "tab" : delimiter });
  if (!found.ok) return `refused ${JSON.stringify(found.refusal)}\n${text}`;
  const got = found.value.preview.first.map(({ raw }) => raw);
  if (JSON.stringify(got) !== JSON.stringify(wanted)) return `cells differ\n${JSON.stringify(got)}\n${JSON.stringify(wanted)}\n${text}`;
  return sumFault(found.value.firstWalk);
}

function cellText(chance: Chance): string {
  return Array.from({ length: chance.below(6) }, () => chance.pick(LETTERS)).join("");
}

interface GasFile {
  readonly text: string;
  readonly answers: Answers;
  readonly times: readonly number[];
  readonly values: readonly (readonly (number | null)[])[];
  readonly delimiter: string;
}

const LABELS = ["CO (ppm)", "H2S [ppm]", "O2 %vol", "NO2_ppm"];

/** A gas log with digits, times and gaps known: stored as written, and the same digits as papaparse sees. */
function gasFile(chance: Chance): GasFile {
  const delimiter = chance.pick([",", ";", "\t", "|"]);
  const comma = delimiter !== "," && chance.often(0.4);
  const lineEnd = chance.pick(["\n", "\r\n"] as const);
  const width = 1 + chance.below(4);
  const timeForm = chance.pick(["iso", "space", "day first", "two columns", "seconds"] as const);
  const start = Date.UTC(2026, chance.below(12), 13 + chance.below(15), chance.below(24), chance.below(60));
  const step = chance.pick([1, 10, 60, 900]) * 1000;
  const rows = 1 + chance.below(chance.often(0.1) ? 4000 : 60);
  const times: number[] = [];
  const values: (number | null)[][] = [];
  const heads = timeForm === "two columns" ? ["Date", "Time"] : [timeForm === "seconds" ? "Time (s)" : "Time"];
  let text = [...heads, ...LABELS.slice(0, width)].join(delimiter) + lineEnd;
  for (let row = 0; row < rows; row++) {
    const time = start + row * step;
    const cells = LABELS.slice(0, width).map((_, column) => reading(chance, column));
    times.push(timeForm === "seconds" ? row * step : time);
    values.push(cells.map((cell) => (cell === "" ? null : Number(cell))));
    const written = cells.map((cell) => (comma ? cell.replace(".", ",") : cell));
    text +=
      [...timeCells(timeForm, time, row * step), ...written].map((cell) => (chance.often(0.03) ? `"${cell}"` : cell)).join(delimiter) +
      lineEnd;
  }
  return { text, answers: { zone: "UTC", "confirm/*": "yes", ...(comma ? { "decimal mark/*": "," } : {}) }, times, values, delimiter };
}

function timeCells(form: "iso" | "space" | "day first" | "two columns" | "seconds", time: number, elapsed: number): string[] {
  const iso = new Date(time).toISOString();
  const day = `${iso.slice(8, 10)}/${iso.slice(5, 7)}/${iso.slice(0, 4)}`;
  if (form === "seconds") return [String(elapsed / 1000)];
  if (form === "iso") return [iso.replace(".000Z", "Z")];
  if (form === "space") return [iso.slice(0, 19).replace("T", " ")];
  return form === "day first" ? [`${day} ${iso.slice(11, 19)}`] : [day, iso.slice(11, 19)];
}

function reading(chance: Chance, column: number): string {
  if (chance.often(0.03)) return "";
  if (column === 2) return (20 + chance.below(10) / 10).toFixed(1);
  const decimals = chance.below(4);
  const sign = chance.often(0.05) ? "-" : "";
  return `${sign}${(chance.below(90) + chance.below(10 ** decimals) / 10 ** decimals).toFixed(decimals)}`;
}

function gasCase(chance: Chance): string | null {
  const file = gasFile(chance);
  const bytes = bytesOf(file.text);
  const found = survey(bytes, file.answers);
  if (!found.ok) return `refused ${JSON.stringify(found.refusal)}\n${file.text.slice(0, 600)}`;
  const blocking = found.value.questions.filter((question) => question.blocking);
  if (blocking.length > 0) return `asked ${JSON.stringify(blocking)}\n${file.text.slice(0, 600)}`;
  const back = read(bytes, found.value.mapping, file.answers, piecesBy(chance.below(3000) + 1));
  if (!back.ok) return `refused ${JSON.stringify(back.refusal)}`;
  const { rows, summary } = back.value;
  if (rows.length !== file.times.length)
    return `${rows.length} rows of ${file.times.length}: ${JSON.stringify(summary.faults.slice(0, 3))}\n${file.text.slice(0, 600)}`;
  const papa = Papa.parse<string[]>(file.text, { delimiter: file.delimiter }).data;
  for (const [index, row] of rows.entries()) {
    const wanted = file.values[index]?.map((value) => (value === null ? "none" : String(value)));
    if (row.time !== file.times[index] || JSON.stringify(row.values) !== JSON.stringify(wanted))
      return `row ${index}: ${JSON.stringify(row)} for ${file.times[index]} ${JSON.stringify(wanted)}`;
    const cells = (papa[index + 1] ?? [])
      .slice(-row.values.length)
      .map((cell) => (cell === "" ? "none" : String(Number(cell.replace(",", ".")))));
    if (JSON.stringify(cells) !== JSON.stringify(row.values))
      return `row ${index}: papaparse reads ${JSON.stringify(cells)}, this ${JSON.stringify(row.values)}`;
  }
  return sumFault(summary) ?? oneWalkFault(bytes, file.answers, back.value, chance);
}

/** One walk for both: without a question open its rows are those of two walks, or it says that they are worth nothing. */
function oneWalkFault(bytes: Uint8Array, answers: Answers, wanted: ReadBack, chance: Chance): string | null {
  const kept = keeping();
  const both = surveyAndRead(environment, answers, kept.sink);
  for (const piece of piecesBy(1 + chance.below(40_000))(bytes)) both.push(piece);
  const finished = both.finish();
  if (!finished.ok) return `one walk refuses ${JSON.stringify(finished.refusal)}`;
  const { proposal, summary } = finished.value;
  if (summary === null) return isRead(read(bytes, proposal.mapping, answers), wanted);
  return isRead({ ok: true, value: readBack(kept, summary) }, wanted);
}

const isRead = (back: ReturnType<typeof read>, wanted: ReadBack): string | null =>
  back.ok && fingerprint(back.value) === fingerprint(wanted)
    ? null
    : `one walk gives ${fingerprint(back).slice(0, 600)}\ntwo give ${fingerprint(wanted).slice(0, 600)}`;

/** Bytes changed, cut, doubled or random: refused or read, never thrown, the same for every split, and every line accounted for. */
function damagedCase(chance: Chance, startsAsGasFile: boolean): string | null {
  const bytes = startsAsGasFile
    ? damaged(bytesOf(gasFile(chance).text.slice(0, 6000)), chance)
    : Uint8Array.from({ length: chance.below(400) }, () =>
        chance.often(0.7) ? chance.pick([44, 59, 10, 13, 34, 48, 49, 46, 45, 97, 32, 39, 35]) : chance.below(256),
      );
  const answers: Answers = { zone: "UTC", "confirm/*": "yes" };
  const whole = survey(bytes, answers);
  const split = survey(bytes, answers, piecesBy(1 + chance.below(50)));
  if (fingerprint(whole) !== fingerprint(split)) return `splits differ\n${fingerprint(whole)}\n${fingerprint(split)}\n${show(bytes)}`;
  if (!whole.ok) return null;
  const fault = sumFault(whole.value.firstWalk);
  if (fault !== null) return `${fault}\n${show(bytes)}`;
  const back = read(bytes, whole.value.mapping, answers);
  const again = read(bytes, whole.value.mapping, answers, piecesBy(1 + chance.below(9)));
  if (fingerprint(back) !== fingerprint(again))
    return `readings of splits differ\n${fingerprint(back)}\n${fingerprint(again)}\n${show(bytes)}`;
  if (!back.ok) return null;
  const problem = sumFault(back.value.summary) ?? (isSettled(whole.value) ? oneWalkFault(bytes, answers, back.value, chance) : null);
  return problem === null ? null : `${problem}\n${show(bytes)}`;
}

const isSettled = ({ questions, surveyAgain }: Proposal): boolean => !surveyAgain && questions.every((question) => !question.blocking);

const fingerprint = (result: unknown): string =>
  JSON.stringify(result, (_, value: unknown) => (value instanceof Map ? [...value] : value instanceof Set ? [...value] : value));

function damaged(bytes: Uint8Array, chance: Chance): Uint8Array {
  const made = [...bytes];
  for (let count = chance.below(12); count > 0; count--) {
    const at = chance.below(made.length + 1);
    const act = chance.below(4);
    if (act === 0) made.splice(at, 1);
    else if (act === 1) made.splice(at, 0, chance.pick([0, 10, 13, 34, 44, 59, 0xff, 0xc3, 45, 48, 97]));
    else if (act === 2) made[Math.min(at, made.length - 1)] = chance.below(256);
    else made.splice(at, 0, ...made.slice(Math.max(0, at - chance.below(80)), at));
  }
  if (chance.often(0.3)) made.length = chance.below(made.length + 1);
  return Uint8Array.from(made);
}

/** Header, rows, continued, rejected and skipped lines are all lines there are. */
export function sumFault({ count }: TableSummary): string | null {
  const { lines, header, rows, continued, rejected, skippedCount } = count;
  return header + rows + continued + rejected + skippedCount === lines ? null : `lines do not add up: ${JSON.stringify(count)}`;
}

export const piecesBy = (size: number): Pieces =>
  function* (bytes) {
    for (let from = 0; from < bytes.length; from += size) yield bytes.slice(from, from + size);
  };

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const show = (bytes: Uint8Array): string => JSON.stringify(String.fromCharCode(...bytes.slice(0, 800)));
