/** The limits that a panel can draw as lines, one line a value, each by its names. */
import { powerOfTenBetween, scaleByPowerOfTen, type Unit } from "../../core/quantity/index.ts";
import { computedText, exactText } from "../../report/index.ts";
import type { ChannelAnswer, FindingAnswer } from "../../work/answer.ts";
import { shortKind } from "./kind-short.ts";

/** "mean": compared with the rolling mean drawn. "reading": compared with each reading. "scale": with neither. */
export type Against = "mean" | "reading" | "scale";

export interface LimitLine {
  /** In the unit of the channel. */
  readonly value: number;
  readonly figure: string;
  /** Who sets it and of what kind it is: all that share the line. */
  readonly names: string;
  /** Dashed, and said to be so, only where nothing on the line is compared with what the panel draws. */
  readonly against: Against;
  /** All that share the line are limits lowered for the length of the shift. */
  readonly isLowered: boolean;
}

interface Named {
  readonly value: number;
  readonly against: Against;
  readonly isLowered: boolean;
  readonly regime: string;
  readonly mark: string;
  readonly kind: string;
}

// Units cross as texts in the answer; they are those of `core/quantity`.
export const inUnit = (value: number, from: string, to: string | null): number | null => {
  if (to === null) return null;
  const power = powerOfTenBetween(from as Unit, to as Unit);
  return power === null ? null : scaleByPowerOfTen(value, power);
};

const againstOf = (minutes: number | null, windowMs: number | null): Against => {
  if (minutes === null) return "reading";
  return windowMs !== null && minutes * 60_000 === windowMs ? "mean" : "scale";
};

/** A rule of several levels has a line for each of them; any other limit has one. */
const namedOf = ({ limit }: FindingAnswer, unit: string | null, windowMs: number | null): readonly Named[] => {
  const named = (figure: number | null, minutes: number | null, kind: string, isLowered = false): readonly Named[] => {
    const value = figure === null ? null : inUnit(figure, limit.unit, unit);
    const { regime, mark } = limit;
    return value === null ? [] : [{ value, against: againstOf(minutes, windowMs), regime, mark, kind, isLowered }];
  };
  const kind = shortKind(limit.kind, limit.averagingMinutes);
  // The limit in full is compared in a finding of its own, and has its line from there.
  if (limit.lowered !== null) return named(limit.lowered, limit.averagingMinutes, `${kind}, lowered for the long shift`, true);
  if (limit.levels === null) return named(limit.value, limit.averagingMinutes, kind);
  return [
    ...named(limit.value, limit.averagingMinutes, `Z-2 ${shortKind("twa", limit.averagingMinutes)}`),
    ...named(limit.levels.ceiling, null, "Z-2 ceiling"),
    ...named(limit.levels.peak, null, "Z-2 peak"),
  ];
};

const markWords: Readonly<Record<string, string>> = { memory: " (memory)", own: " (own limit)" };

/** "GB-WEL (memory), FR 15 min; US-NIOSH 10 min ceiling". */
const namesOf = (all: readonly Named[]): string =>
  [...new Set(all.map(({ kind }) => kind))]
    .map((kind) => {
      const regimes = all.filter((one) => one.kind === kind).map(({ regime, mark }) => `${regime}${markWords[mark] ?? ""}`);
      return `${[...new Set(regimes)].join(", ")} ${kind}`;
    })
    .join("; ");

const strongest = (all: readonly Named[]): Against =>
  (["mean", "reading"] as const).find((against) => all.some((one) => one.against === against)) ?? "scale";

/** From the lowest to the highest. Limits of one value share one line, and it carries the names of all. */
export const limitLines = ({ findings, unit }: ChannelAnswer, windowMs: number | null): readonly LimitLine[] => {
  const groups = new Map<number, Named[]>();
  for (const named of findings.flatMap((finding) => namedOf(finding, unit, windowMs)))
    groups.set(named.value, [...(groups.get(named.value) ?? []), named]);
  return [...groups]
    .map(([value, all]): LimitLine => {
      const against = strongest(all);
      return {
        value,
        // Worked out, and so with more digits than anybody reads off a panel.
        figure: all.some(({ isLowered }) => isLowered) ? computedText(value, null) : exactText(value),
        names: `${namesOf(all)}${against === "scale" ? ", for scale only" : ""}`,
        against,
        isLowered: all.every((one) => one.isLowered),
      };
    })
    .sort((a, b) => a.value - b.value);
};
