/** What a log hides: within an interval of logged means, and within the response time of a sensor. */

/**
 * The most that a sliding mean can have been where only means over log intervals are known: the largest sum over
 * k + 1 consecutive intervals, divided by the window, k = window / interval.
 *
 *     M <= true maximum <= M'        M' = max over i of (sum of c_i ... c_(i+k)) x interval / window,  c >= 0
 *
 * @param means logged means, at or above 0, one an interval, without gaps
 * @param interval length of an interval and of the window, one unit; the window a whole number of intervals
 * @returns M', in the unit of the means
 * @example
 * ```ts
 * import { boundedWindowMean } from "./hidden-within.ts";
 * boundedWindowMean([0, ...Array(16).fill(24), 0], { interval: 1, window: 15 }); // => 25.6
 * ```
 * Never refuses. Source: ours; any window is covered by k + 1 consecutive intervals.
 */
export function boundedWindowMean(
  means: readonly number[],
  { interval, window }: { readonly interval: number; readonly window: number },
): number {
  const spanned = Math.round(window / interval) + 1;
  let sum = 0;
  let greatest = 0;
  means.forEach((mean, i) => {
    sum += mean - (means[i - spanned] ?? 0);
    greatest = Math.max(greatest, sum);
  });
  return (greatest * interval) / window;
}

/**
 * Share of a square pulse's height that a first-order sensor shows: 1 - 10^(-p / T90). The area is kept, so an average
 * is hardly touched while a logged peak is a lower bound.
 *
 * @param times pulse length and T90 of the sensor, one unit, both above 0
 * @returns 0 to 1
 * @example
 * ```ts
 * import { pulsePeakShare } from "./hidden-within.ts";
 * pulsePeakShare({ pulse: 30, t90: 30 }); // => 0.9
 * ```
 * Never refuses. Source: step response of a first-order system, T90 its time to 90 % [common practice].
 */
export const pulsePeakShare = ({ pulse, t90 }: { readonly pulse: number; readonly t90: number }): number => 1 - 10 ** (-pulse / t90);
