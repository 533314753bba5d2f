/** A file of any size that is made while it is read, so that no test needs a disk full of numbers. */
import type { ByteSource } from "../../src/work/ports.ts";

const ROWS_A_PIECE = 10_000;
const START = Date.UTC(2026, 0, 1);

/** Four gases every ten seconds; every text is a function of its row number. */
export function madeFile(bytes: number): ByteSource {
  const heading = "Time,CO (ppm),H2S (ppm),O2 (%vol),CH4 (%LEL)\n";
  const pieces = Math.ceil((bytes - heading.length) / (ROWS_A_PIECE * row(0).length));
  const size = heading.length + pieces * ROWS_A_PIECE * row(0).length;
  const encoder = new TextEncoder();
  return {
    name: "made.csv",
    size,
    walk: async (piece) => {
      if (!piece(encoder.encode(heading))) return;
      for (let index = 0; index < pieces; index += 1) {
        const rows = Array.from({ length: ROWS_A_PIECE }, (_, at) => row(index * ROWS_A_PIECE + at)).join("");
        if (!piece(encoder.encode(rows))) return;
      }
    },
  };
}

/** Rows are of one length, so that the size is known before they are made. */
function row(number: number): string {
  const time = new Date(START + number * 10_000).toISOString().replace(".000Z", "Z");
  const [carbonMonoxide, sulphide] = [10 + (number % 37), 10 + (number % 5)];
  return `${time},${carbonMonoxide},${sulphide},20.${number % 10},${10 + (number % 11)}\n`;
}
