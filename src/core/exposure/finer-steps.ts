/** A level that somebody declared may have more digits than the instrument shows: it is kept as it was said. */
import { type Channel, OPEN } from "../recording/index.ts";
import type { AssessmentSettings } from "./assessment.ts";

/** Steps up to here, over a day of milliseconds, still sum exactly below 2^53. */
const LARGEST_EXACT = 1e8;

/**
 * The channel in steps fine enough for every level that was declared of it, as far as sums stay exact; the channel itself
 * where its own steps are fine enough. The readings are the same numbers, with noughts at their ends.
 *
 * @example
 * ```ts
 * import { inFinerSteps } from "./finer-steps.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 10), values: Int32Array.of(40, 7),
 *   uppers: null, codes: null, lines: null, rangeTop: 500 } as const;
 * const { decimals, values, rangeTop } = inFinerSteps(channel, { unsampled: { kind: "level", text: "93.3" }, declarations: [], deadBand: () => null });
 * [decimals, [...values], rangeTop]; // => [1, [400, 70], 5000]
 * ```
 * Never refuses: what is no number is refused where it is read. Source: ours.
 */
export function inFinerSteps(channel: Channel, settings: Pick<AssessmentSettings, "unsampled" | "declarations" | "deadBand">): Channel {
  const texts = declaredTexts(channel, settings);
  const wanted = Math.max(0, ...texts.map(decimalsOf)) - channel.decimals;
  const finer = wanted <= 0 ? 0 : Math.min(wanted, roomFor(channel, texts));
  return finer <= 0 ? channel : refined(channel, finer);
}

function declaredTexts(
  { name, gas }: Channel,
  { unsampled, declarations, deadBand }: Pick<AssessmentSettings, "unsampled" | "declarations" | "deadBand">,
): readonly string[] {
  const band = gas === null ? null : deadBand(gas);
  return [
    ...(unsampled.kind === "level" ? [unsampled.text] : []),
    ...declarations.flatMap((one) => ("levelText" in one && (one.channel === "*" || one.channel === name) ? [one.levelText] : [])),
    ...(band === null ? [] : [band]),
  ];
}

const decimalsOf = (text: string): number => /^\s*\+?\d*\.(\d*?)0*\s*$/.exec(text)?.[1]?.length ?? 0;

/** How many decimals more there is room for. */
function roomFor({ values, uppers, rangeTop, decimals }: Channel, texts: readonly string[]): number {
  let largest = Math.max(1, rangeTop ?? 0, ...texts.map((text) => Number(text) * 10 ** decimals).filter(Number.isFinite));
  for (const steps of [values, uppers ?? values])
    for (let row = 0; row < steps.length; row += 1) {
      const size = Math.abs(steps[row] as number); // row < length
      if (size !== OPEN && size > largest) largest = size;
    }
  return Math.floor(Math.log10(LARGEST_EXACT / largest));
}

function refined(channel: Channel, finer: number): Channel {
  const factor = 10 ** finer;
  const times = (steps: Int32Array): Int32Array => steps.map((value) => (value === OPEN ? OPEN : value * factor));
  return {
    ...channel,
    decimals: channel.decimals + finer,
    values: times(channel.values),
    uppers: channel.uppers === null ? null : times(channel.uppers),
    rangeTop: channel.rangeTop === null ? null : channel.rangeTop * factor,
  };
}
