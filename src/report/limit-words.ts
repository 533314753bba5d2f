/** A limit by its name: regime, kind, value, averaging time, mark. */
import { exactText } from "./digits.ts";
import { durationText, withUnit } from "./figure.ts";

/** What of a limit a reader is shown; both the computed finding and the printed answer have it. */
export interface LimitShape {
  readonly regime: string;
  readonly kind: string;
  readonly value: number | null;
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
  const value = limit.value === null ? "" : ` ${withUnit(exactText(limit.value), limit.unit)}`;
  const mark = limit.mark === "memory" ? " (memory)" : limit.mark === "own" ? " (own limit)" : "";
  return `${limit.regime} ${kindName(limit.kind, limit.averagingMinutes)}${value}${mark}`;
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
