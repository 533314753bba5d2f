/** The real vocabulary, and ways to walk a file in one call. */
import { labelMeaning } from "../../../src/core/gas/index.ts";
import { unitFromText } from "../../../src/core/quantity/index.ts";
import type {
  Answers,
  ColumnMapping,
  Proposal,
  RowSink,
  TableEnvironment,
  TableMapping,
  TableSummary,
  Vocabulary,
} from "../../../src/core/table/index.ts";
import { readTable, surveyTable } from "../../../src/core/table/index.ts";

export const vocabulary: Vocabulary = {
  unitFromText,
  gasInLabel: (label) => {
    const { gas, sureness, reasons } = labelMeaning(label);
    return gas === null ? null : { gas: gas === "flammable, gas not said" ? null : gas, sureness, reasons };
  },
};

export const environment: TableEnvironment = {
  decodeText: (label, bytes) => {
    try {
      return new TextDecoder(label).decode(bytes);
    } catch (fault) {
      if (fault instanceof RangeError) return null; // an encoding that this machine does not know
      throw fault;
    }
  },
  vocabulary,
};

export interface Stored {
  readonly line: number;
  readonly time: number;
  readonly series: number | null;
  /** Text of each channel: digits, or a word for the code. Null where the line is not about the channel. */
  readonly values: readonly (string | null)[];
}

const CODES = ["", ">=", "<=", "none", "fault", "over"];

/** A sink that keeps rows as plain values. */
export function keeping(): {
  readonly sink: RowSink;
  readonly rows: Stored[];
  readonly channels: ColumnMapping[];
  readonly series: string[];
} {
  const rows: Stored[] = [];
  const channels: ColumnMapping[] = [];
  const series: string[] = [];
  const sink: RowSink = {
    begin: (begun) => void channels.push(...begun),
    series: (index, _label, value) => void (series[index] = value),
    rows: (batch) => {
      for (let row = 0; row < batch.count; row++) {
        const values = batch.channels.map((channel) => {
          if (channel.present !== null && channel.present[row] === 0) return null;
          const code = channel.codes[row] as number;
          const value = (channel.mantissas[row] as number) / 10 ** (channel.decimals[row] as number);
          return code === 0 ? String(value) : code <= 2 ? `${CODES[code]}${value}` : (CODES[code] as string);
        });
        rows.push({ line: batch.lines[row] as number, time: batch.times[row] as number, series: batch.series?.[row] ?? null, values });
      }
    },
  };
  return { sink, rows, channels, series };
}

export type Pieces = (bytes: Uint8Array) => Iterable<Uint8Array>;
const whole: Pieces = (bytes) => [bytes];

export function survey(
  bytes: Uint8Array,
  given: Answers = {},
  pieces: Pieces = whole,
): ReturnType<ReturnType<typeof surveyTable>["finish"]> {
  const walk = surveyTable(environment, given);
  for (const piece of pieces(bytes)) {
    const pushed = walk.push(piece);
    if (!pushed.ok) return pushed;
  }
  return walk.finish();
}

export interface ReadBack {
  readonly summary: TableSummary;
  readonly rows: readonly Stored[];
  /** Lines that were rejected although their time was read. */
  readonly silent: readonly Stored[];
  readonly channels: readonly ColumnMapping[];
  readonly series: readonly string[];
}

export function read(
  bytes: Uint8Array,
  mapping: TableMapping,
  answers: Answers = {},
  pieces: Pieces = whole,
): { ok: true; value: ReadBack } | Extract<ReturnType<ReturnType<typeof readTable>["finish"]>, { ok: false }> {
  const kept = keeping();
  const walk = readTable(environment, mapping, answers, kept.sink);
  for (const piece of pieces(bytes)) {
    const pushed = walk.push(piece);
    if (!pushed.ok) return pushed;
  }
  const finished = walk.finish();
  if (!finished.ok) return finished;
  return { ok: true, value: readBack(kept, finished.value) };
}

/** What a sink holds, with the rejected lines beside the rows. */
export function readBack({ rows, channels, series }: ReturnType<typeof keeping>, summary: TableSummary): ReadBack {
  const rejected = new Set(summary.faults.filter((fault) => fault.rejected).map(({ line }) => line));
  const isSilent = ({ line }: Stored): boolean => rejected.has(line);
  return { summary, rows: rows.filter((row) => !isSilent(row)), silent: rows.filter(isSilent), channels, series };
}

/** Survey, answer, survey again where the answers ask for it, and read. */
export function readWith(bytes: Uint8Array, answers: Answers): { readonly proposal: Proposal; readonly back: ReturnType<typeof read> } {
  const surveyed = survey(bytes, answers);
  if (!surveyed.ok) throw new Error(`refused: ${JSON.stringify(surveyed.refusal)}`);
  const proposal = surveyed.value;
  return { proposal, back: read(bytes, proposal.mapping, answers) };
}

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
