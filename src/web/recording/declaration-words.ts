/** What a declaration says, in the words of the page; and what it meets in the recording. */
import type { Declaration } from "../../core/recording/declaration.ts";
import { counted, durationText, unitText, valueText } from "../../report/index.ts";
import type { Held } from "../desk/held-files.ts";
import type { Met } from "../desk/protocol.ts";
import type { Clock } from "../parts/clock.ts";
import { spanWords } from "./span-words.ts";

export type Kind = Declaration["kind"];

export const kinds: readonly { readonly kind: Kind; readonly says: string; readonly means: string }[] = [
  { kind: "unexposed", says: "Nobody was exposed", means: "The time counts as nought: a break, a cradle, a day off." },
  {
    kind: "like the sampled time",
    says: "It was like the sampled time",
    means: "Serves averages over the whole period, never a short window.",
  },
  { kind: "worst case", says: "It was at most so much", means: "An upper bound for time without readings." },
  { kind: "over-range bound", says: "Over range it was at most so much", means: "An upper bound for readings beyond the sensor’s range." },
];

export const kindSays = (kind: Kind): string => kinds.find((each) => each.kind === kind)?.says ?? kind;

export const declaredSpan = ({ from, to }: Pick<Declaration, "from" | "to">, clock: Clock): string => {
  if (from === null && to === null) return "the whole recording";
  if (from === null || to === null) return from === null ? `its start to ${clock.time(to ?? 0)}` : `${clock.time(from)} to its end`;
  return spanWords(clock, from, to);
};

export const levelWords = (declaration: Declaration): string =>
  "levelText" in declaration ? ` ${declaration.levelText}, ${declaration.holds}` : "";

export const channelWords = (declaration: Declaration): string => (declaration.channel === "*" ? "every channel" : declaration.channel);

/** Unit of the channels that a declaration is about; null where they differ. */
const unitOf = (one: Held, channel: string): string | null => {
  const units = new Set((one.opened?.channels ?? []).filter(({ name }) => channel === "*" || name === channel).map(({ unit }) => unit));
  return units.size === 1 ? ([...units][0] ?? null) : null;
};

const settles = (kind: Kind, met: Met): number => (kind === "over-range bound" ? met.overRangeMs : met.unsampledMs);

/** Why a statement would settle nothing; null where it settles some time. */
export const emptyStatement = (declaration: Declaration, met: Met, clock: Clock, hasShift: boolean): string | null => {
  if (settles(declaration.kind, met) > 0) return null;
  const when = declaredSpan(declaration, clock);
  if (declaration.kind === "over-range bound") return `Nothing was over range in ${when}: there is nothing for an upper bound to settle.`;
  const stand = met.readings > 0 ? `${counted(met.readings, "reading")} stand there, and a reading counts as it is.` : "";
  const shift = hasShift ? "" : " Time before and after the recording counts once the shift times are set.";
  return `No time without readings lies in ${when}, so the statement would settle nothing. ${stand}${shift}`.trim();
};

/** What the readings say to a statement: how much time it settles, and which readings contradict it. */
export const metWords = (declaration: Declaration, met: Met, one: Held): string => {
  const time = durationText(settles(declaration.kind, met) / 1000);
  if (declaration.kind === "over-range bound") return `Settles ${time} over range.`;
  const settled = `Settles ${time} without readings.`;
  if (met.readings === 0) return settled;
  const unit = unitOf(one, declaration.channel);
  const upTo = met.greatest === null || unit === null ? "" : `, up to ${valueText(met.greatest, unit)}`;
  if (declaration.kind === "unexposed" && met.aboveNought > 0)
    return `${settled} Contradicted: ${counted(met.aboveNought, "reading")} above nought ${met.aboveNought === 1 ? "stands" : "stand"} in this time${upTo}, and count as they are.`;
  return `${settled} The ${counted(met.readings, "reading")} in this time${upTo} count as they are.`;
};

/** The one statement about all time without readings, as it stands in the list of declarations. */
export const unsampledSays = ({ settings: { unsampled } }: Held): string | null => {
  switch (unsampled.kind) {
    case "open":
      return null;
    case "zero":
      return "Nobody was exposed";
    case "like":
      return "It was like the sampled time";
    case "level":
      return `It was at most ${unsampled.text} in the unit of each channel, at any moment`;
  }
};

export const unitLabel = (unit: string | null): string => (unit === null ? "in the unit of the channel" : unitText(unit));
