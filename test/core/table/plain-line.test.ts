/** The short way stores each number as it is written, digit for digit, whatever stands before and behind it. */
import { expect, test } from "vitest";
import type { RowSink, TableMapping, TableSummary } from "../../../src/core/table/index.ts";
import { readTable } from "../../../src/core/table/index.ts";
import { chanceFrom } from "./fuzz-case.ts";
import { environment, survey, utf8 } from "./reading.ts";

const NUMBERS = ["", "0", "7", "9", "10", "42", "99", "419", "4998", "-1", "-12", "-0.5", "0.0", "0.4", "9.9", "12.3", "99.9"];
const LONGER = ["", "100.0", "20.95", "1.234", "0.125", "-3.75", "7.0001", "300.25", "0", "5", "60", "6.1", "10.0", "-97.5", "1234.5"];
const COLUMNS = [NUMBERS, NUMBERS, LONGER, ["0", "1", "2"], [...NUMBERS, ...LONGER]];

interface Kept {
  readonly line: number;
  readonly time: number;
  /** Digits without their mark, number of decimals, code. */
  readonly cells: readonly (readonly [number, number, number])[];
}

function keptBy(bytes: Uint8Array, mapping: TableMapping): { readonly kept: readonly Kept[]; readonly summary: TableSummary } {
  const kept: Kept[] = [];
  const sink: RowSink = {
    begin: () => undefined,
    series: () => undefined,
    rows: ({ count, lines, times, channels }) => {
      for (let row = 0; row < count; row++)
        kept.push({
          line: lines[row] as number, // row is below the count
          time: times[row] as number,
          cells: channels.map(({ mantissas, decimals, codes }) => [mantissas[row], decimals[row], codes[row]] as [number, number, number]),
        });
    },
  };
  const walk = readTable(environment, mapping, {}, sink);
  walk.push(bytes);
  const finished = walk.finish();
  if (!finished.ok) throw new Error(JSON.stringify(finished.refusal));
  return { kept, summary: finished.value };
}

const NO_READING = 3;
const asWritten = (text: string): [number, number, number] =>
  text === "" ? [0, 0, NO_READING] : [Number(text.replace(".", "")), text.split(".")[1]?.length ?? 0, 0];

const bare = (cell: string): string => cell;
const quoted = (cell: string): string => `"${cell}"`;
/** One row in fifty holds a cell that no copy without quotes may hold: its line goes the careful way. */
const odd = (cell: string, row: number): string => (row % 50 === 49 && cell === "7" ? '" 7"' : quoted(cell));
const WAYS = [
  { name: "commas", delimiter: ",", mark: ".", end: "\n", time: bare, cell: bare },
  {
    name: "semicolons and decimal commas",
    delimiter: ";",
    mark: ",",
    end: "\r\n",
    time: (time: string) => time.replace("T", " "),
    cell: bare,
  },
  { name: "tabs, thousandths", delimiter: "\t", mark: ".", end: "\n", time: (time: string) => time.replace("Z", ".250Z"), cell: bare },
  { name: "an offset of its own", delimiter: ",", mark: ".", end: "\r\n", time: (time: string) => time.replace("Z", "+02:00"), cell: bare },
  { name: "all in quotes", delimiter: ",", mark: ".", end: "\n", time: quoted, cell: quoted },
  { name: "all in quotes, decimal commas", delimiter: ",", mark: ",", end: "\r\n", time: quoted, cell: quoted },
  { name: "the readings in quotes, some with a space", delimiter: ";", mark: ".", end: "\r\n", time: bare, cell: odd },
] as const;

test.for(WAYS)("numbers of every short shape, side by side: $name", ({ delimiter, mark, end, time, cell }) => {
  const chance = chanceFrom(29);
  const texts = Array.from({ length: 6_000 }, () => COLUMNS.map((choices) => choices[chance.below(choices.length)] as string)); // below the length
  const start = Date.UTC(2026, 9, 31, 22);
  const lines = texts.map((cells, row) =>
    [
      time(new Date(start + row * 7000).toISOString().replace(".000Z", "Z")),
      ...cells.map((text) => cell(text.replace(".", mark), row)),
    ].join(delimiter),
  );
  const heading = ["Time", "CO (ppm)", "H2S (ppm)", "CO2 (ppm)", "SO2 (ppm)", "NO2 (ppm)"].join(delimiter);
  const bytes = utf8(`${[heading, ...lines].join(end)}${end}`);
  const found = survey(bytes, { zone: "UTC", "confirm/*": "yes" });
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const { mapping, questions } = found.value;
  expect(questions.filter(({ blocking }) => blocking)).toEqual([]);
  const short = keptBy(bytes, mapping);
  expect(short.kept.map(({ cells }) => cells)).toEqual(texts.map((cells) => cells.map(asWritten)));
  // A word that is a number sends every line the careful way.
  expect(short).toEqual(keptBy(bytes, { ...mapping, words: { ...mapping.words, fault: ["98"] } }));
});
