/** A limit by its name: regime, kind, value, averaging time, mark. */
import { computedText, durationText, valueText } from "./figure.ts";

/** What of a limit a reader is shown; both the computed finding and the printed answer have it. */
export interface LimitShape {
  readonly regime: string;
  readonly kind: string;
  readonly value: number | null;
  /** What the figures were set against instead of `value`, where the limit was lowered for the length of the shift. */
  readonly lowered?: number | null;
  readonly unit: string;
  readonly averagingMinutes: number | null;
  readonly mark: string;
  readonly source: string;
  readonly edition: string;
}

/**
 * "US-OSHA 8 h average 50 ppm"; a figure recalled and not read says so.
 *
 * @example
 * ```ts
 * import { limitName } from "./limit-words.ts";
 * limitName({ regime: "GB-WEL", kind: "stel", value: 100, unit: "ppm", averagingMinutes: 15, mark: "memory", source: "EH40", edition: "2020" }); // => "GB-WEL 15\u202fmin average 100\u202fppm (memory)"
 * ```
 */
export function limitName(limit: LimitShape): string {
  const value = limit.value === null ? "" : ` ${limitFigure(limit)}`;
  const mark = limit.mark === "memory" ? " (memory)" : limit.mark === "own" ? " (own limit)" : "";
  return `${limit.regime} ${kindName(limit.kind, limit.averagingMinutes)}${value}${mark}`;
}

type LimitFigure = Pick<LimitShape, "value" | "lowered" | "unit">;

/** The figure that a finding was set against: the published one, or the one lowered for the length of the shift. */
export function comparedValue({ value, lowered }: Omit<LimitFigure, "unit">): number | null {
  return lowered ?? value;
}

/**
 * "50 ppm"; a lowered limit with the one that it was lowered from.
 *
 * @example
 * ```ts
 * import { limitFigure } from "./limit-words.ts";
 * limitFigure({ value: 50, lowered: 25, unit: "ppm" }); // => "25\u202fppm (lowered from 50\u202fppm after Brief and Scala, daily)"
 * limitFigure({ value: 50, lowered: null, unit: "ppm" }); // => "50\u202fppm"
 * ```
 */
export function limitFigure(limit: LimitFigure): string {
  const lowered = loweredWords(limit);
  return lowered === null ? comparedText(limit) : `${comparedText(limit)} (${lowered})`;
}

/** The figure alone that a finding was set against; empty where the limit is no figure. */
export function comparedText({ value, lowered, unit }: LimitFigure): string {
  if (value === null) return "";
  return lowered == null ? valueText(value, unit) : computedText(lowered, unit);
}

/** "lowered from 50 ppm after Brief and Scala, daily"; null where it was not. */
export function loweredWords({ value, lowered, unit }: LimitFigure): string | null {
  return value === null || lowered == null ? null : `lowered from ${valueText(value, unit)} after Brief and Scala, daily`;
}

/** The kind of a limit with its time, in the words of the trade. */
export function kindName(kind: string, averagingMinutes: number | null): string {
  const time = averagingMinutes === null ? null : durationText(averagingMinutes * 60);
  switch (kind) {
    case "twa":
      return averagingMinutes === 600 ? "8 h to 10 h average" : `${time ?? "8 h"} average`;
    case "stel":
      return `${time ?? "15 min"} average`;
    case "excursion":
      return `${time ?? "15 min"} excursion limit`;
    case "ceiling":
      return time === null ? "ceiling" : `${time} ceiling`;
    case "any-shorter-period":
      return `average over any period up to ${time ?? "15 min"}`;
    case "three-level":
      return "average, ceiling and peak (Table Z-2)";
    case "immediately-dangerous":
      return "immediately dangerous value";
    default:
      return kind;
  }
}

/** Where the figure was published, its edition, and how far it may be trusted. */
export function sourceLine(limit: LimitShape): string {
  const mark = limit.mark === "read" ? "" : ` (${limit.mark})`;
  return `${limit.source}, edition ${limit.edition}${mark}`;
}

/** The sources of a limit in one text, the reprint that was read in brackets. */
export function limitSources(sources: readonly { readonly title: string; readonly reprint?: string }[]): string {
  return sources.map(({ title, reprint }) => (reprint === undefined ? title : `${title} (reprint: ${reprint})`)).join("; ");
}
