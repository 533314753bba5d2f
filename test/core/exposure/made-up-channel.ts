/** Channels made up for tests: readings at even steps from the start of the clock. */
import type { Channel } from "../../../src/core/recording/index.ts";
import { MINUTE } from "../../cases/exposure/written-shift.ts";

/** Carbon monoxide in whole ppm, one spot reading a minute from minute 0, unless told otherwise. */
export function logged(
  levels: readonly number[],
  { stepMs = MINUTE, ...more }: Partial<Channel> & { readonly stepMs?: number } = {},
): Channel {
  return {
    name: "C",
    series: null,
    gas: "carbon_monoxide" as Channel["gas"], // an id of the table
    unit: "ppm",
    kind: "spot",
    decimals: 0,
    times: Float64Array.from(levels, (_, i) => i * stepMs),
    values: Int32Array.from(levels),
    uppers: null,
    codes: null,
    lines: null,
    rangeTop: null,
    ...more,
  };
}
