/** What each panel shows: which channel, on which scale, with which limits on it, and in which order panels stand. */
import { powerOfTenBetween, scaleByPowerOfTen, type Unit } from "../../core/quantity/index.ts";
import { exactText, limitName, severityOf } from "../../report/index.ts";
import type { ChannelAnswer, FindingAnswer } from "../../work/answer.ts";
import type { ChannelSketch } from "../desk/protocol.ts";
import type { Clock } from "../parts/clock.ts";
import { shortKind } from "./kind-short.ts";

export interface LimitLine {
  /** In the unit of the channel. */
  readonly value: number;
  readonly says: string;
  /** "mean": compared with the rolling mean drawn. "scale": another averaging time, drawn for scale only. "reading": compared with each reading. */
  readonly against: "mean" | "scale" | "reading";
}

export interface PanelModel {
  readonly key: string;
  readonly sketch: ChannelSketch;
  readonly answer: ChannelAnswer;
  readonly height: number;
  readonly scale: readonly [number, number];
  readonly labels: readonly { readonly value: number; readonly text: string }[];
  readonly lines: readonly LimitLine[];
  /** Limits that lie beyond the panel or in another kind of unit, named in words. */
  readonly beyond: readonly string[];
  readonly windowMs: number | null;
  readonly limit: number | null;
  readonly worst: { readonly from: string; readonly to: string } | null;
  /** The column is named where several measure one gas. */
  readonly named: boolean;
  /** The panel of the gravest finding: the strip shows it, and what is shared by panels is said in it. */
  readonly gravest: boolean;
}

const flammables = new Set([
  "methane",
  "propane",
  "butane",
  "pentane",
  "hexane",
  "hydrogen",
  "ethylene",
  "ethane",
  "acetylene",
  "natural_gas",
]);

const orderOf = (channel: ChannelAnswer): number => {
  if (channel.gas === "hydrogen_sulphide") return 0;
  if (channel.gas === "carbon_monoxide") return 1;
  if (channel.unit === "%LEL" || (channel.gas !== null && flammables.has(channel.gas))) return 2;
  return channel.gas === "oxygen" ? 3 : 4;
};

// Units cross as texts in the answer; they are those of `core/quantity`.
const inUnit = (value: number, from: string, to: string | null): number | null => {
  if (to === null) return null;
  const power = powerOfTenBetween(from as Unit, to as Unit);
  return power === null ? null : scaleByPowerOfTen(value, power);
};

const worstOf = (findings: readonly FindingAnswer[]): number =>
  findings.reduce((worst, finding) => Math.min(worst, severityOf(finding.outcome)), 9);

/** The averaging time of the rolling mean: that of the gravest windowed finding, else the 15 minutes of the trade. */
const windowOf = (findings: readonly FindingAnswer[]): number | null => {
  const windowed = findings.filter(({ limit }) => limit.averagingMinutes !== null && limit.averagingMinutes < 120);
  if (findings.length === 0) return null;
  const first = [...windowed].sort((a, b) => severityOf(a.outcome) - severityOf(b.outcome))[0];
  return (first?.limit.averagingMinutes ?? 15) * 60_000;
};

const againstOf = (finding: FindingAnswer, windowMs: number | null): LimitLine["against"] => {
  const minutes = finding.limit.averagingMinutes;
  if (minutes === null) return "reading";
  return windowMs !== null && minutes * 60_000 === windowMs ? "mean" : "scale";
};

/** "GB-WEL, EU-IOELV 15 min 10 (memory)": limits that share a line share its name; the axis says the unit. */
const namesOf = (findings: readonly FindingAnswer[]): string => {
  const kinds = [...new Set(findings.map(({ limit }) => shortKind(limit.kind, limit.averagingMinutes)))];
  return kinds
    .map((kind) => {
      const limits = findings.map(({ limit }) => limit).filter((limit) => shortKind(limit.kind, limit.averagingMinutes) === kind);
      const regimes = limits.map((limit) => `${limit.regime}${limit.mark === "memory" ? " (memory)" : ""}`);
      return `${[...new Set(regimes)].join(", ")} ${kind}`;
    })
    .join("; ");
};

const linesOf = (channel: ChannelAnswer, windowMs: number | null): readonly LimitLine[] => {
  const groups = new Map<string, { readonly value: number; readonly against: LimitLine["against"]; readonly findings: FindingAnswer[] }>();
  for (const finding of channel.findings) {
    const value = finding.limit.value === null ? null : inUnit(finding.limit.value, finding.limit.unit, channel.unit);
    if (value === null) continue;
    const against = againstOf(finding, windowMs);
    const group = groups.get(`${value}/${against}`) ?? { value, against, findings: [] };
    group.findings.push(finding);
    groups.set(`${value}/${against}`, group);
  }
  return [...groups.values()]
    .map(({ value, against, findings }) => ({
      value,
      against,
      says: `${namesOf(findings)} ${exactText(value)}${against === "scale" ? ", for scale only" : ""}`,
    }))
    .sort((a, b) => a.value - b.value);
};

const niceBelow = (value: number): number => {
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = [5, 2.5, 2, 1].find((one) => one * power <= value) ?? 1;
  return Number((lead * power).toPrecision(3));
};

const oxygenScale = (sketch: ChannelSketch): readonly [number, number] => {
  const of = (volPercent: number): number => inUnit(volPercent, "vol%", sketch.unit) ?? volPercent;
  const one = of(1);
  return [Math.min(of(19), Math.floor(sketch.least / one) * one), Math.max(of(21.5), Math.ceil(sketch.greatest / one) * one)];
};

const scaleOf = (sketch: ChannelSketch, lines: readonly LimitLine[]): readonly [number, number] => {
  if (sketch.gas === "oxygen") return oxygenScale(sketch);
  const values = lines.map((line) => line.value);
  const smallest = Math.min(...values, Number.POSITIVE_INFINITY);
  const peak = Math.max(sketch.greatest, 0);
  const reach = Math.max(peak * 1.6, Number.isFinite(smallest) ? smallest : 0);
  const top = Math.max(peak, ...values.filter((value) => value <= reach));
  return [Math.min(0, sketch.least), top > 0 ? top * 1.12 : 1];
};

const labelsOf = (scale: readonly [number, number], lines: readonly LimitLine[], height: number, oxygen: boolean): PanelModel["labels"] => {
  const [foot, head] = scale;
  const room = (16 / (height - 18)) * (head - foot);
  const wanted = [
    foot < 0 ? 0 : foot,
    ...lines.map((line) => line.value),
    niceBelow(head),
    niceBelow(head) / 2,
    ...(oxygen ? [20.9, 19.5] : []),
  ];
  const taken: number[] = [];
  for (const value of wanted) {
    if (value >= foot && value <= head && taken.every((one) => Math.abs(one - value) >= room) && taken.length < 5) taken.push(value);
  }
  return taken.map((value) => ({ value, text: exactText(Number(value.toPrecision(6))) }));
};

/** Findings that stand beside a panel before the rest is folded. */
export const findingsShown = 4;

/** A panel is as tall as what stands beside it needs, so that no blank opens under it. */
const heightOf = (gravest: boolean, channel: ChannelAnswer, beside: boolean): number => {
  const base = gravest ? 212 : channel.findings.length > 0 ? 132 : 84;
  const rows = channel.findings.slice(0, findingsShown);
  const needed = rows.reduce((sum, finding) => sum + (finding.outcome === "undetermined" ? 92 : 74), 40);
  return beside ? Math.max(base, Math.min(needed, 420)) : base;
};

const bracketOf = (channel: ChannelAnswer, windowMs: number | null): PanelModel["worst"] => {
  const windowed = channel.findings.filter(
    (finding) =>
      finding.windowStart !== null && finding.limit.averagingMinutes !== null && finding.limit.averagingMinutes * 60_000 === windowMs,
  );
  const first = [...windowed].sort((a, b) => severityOf(a.outcome) - severityOf(b.outcome))[0];
  if (first !== undefined && first.windowStart !== null && first.windowEnd !== null)
    return { from: first.windowStart, to: first.windowEnd };
  return windowMs === channel.stel.windowMinutes * 60_000 && channel.stel.low > 0
    ? { from: channel.stel.windowStart, to: channel.stel.windowEnd }
    : null;
};

const modelOf = (sketch: ChannelSketch, answer: ChannelAnswer, height: number, named: boolean, gravest: boolean): PanelModel => {
  const windowMs = windowOf(answer.findings);
  const all = linesOf(answer, windowMs);
  const scale = scaleOf(sketch, all);
  const lines = all.filter((line) => line.value <= scale[1]);
  const compared = lines.filter((line) => line.against === "mean").map((line) => line.value);
  return {
    key: `${sketch.index}/${answer.shift}`,
    sketch,
    answer,
    height,
    scale,
    labels: labelsOf(scale, lines, height, sketch.gas === "oxygen"),
    lines,
    beyond: [
      ...all.filter((line) => line.value > scale[1]).map((line) => `${line.says.replace(", for scale only", "")} lies above this panel`),
      ...otherKinds(answer),
    ],
    windowMs,
    limit: compared.length > 0 ? Math.min(...compared) : null,
    worst: bracketOf(answer, windowMs),
    named,
    gravest,
  };
};

const otherKinds = (channel: ChannelAnswer): readonly string[] =>
  channel.findings
    .filter(({ limit }) => limit.value !== null && inUnit(limit.value, limit.unit, channel.unit) === null)
    .map(({ limit }) => `${limitName(limit)} is in another kind of unit`);

/** The gravest first among equals of the fixed order: H2S, CO, flammable, O2, others. */
export const panelsOf = (
  channels: readonly ChannelAnswer[],
  sketches: readonly ChannelSketch[],
  shift: number,
  series: string | null,
  beside: boolean,
): readonly PanelModel[] => {
  const shown = channels
    .map((answer, place) => ({ answer, sketch: sketchOf(answer, sketches, place) }))
    .filter(
      (one): one is { answer: ChannelAnswer; sketch: ChannelSketch } =>
        one.sketch !== undefined && one.answer.shift === shift && (one.sketch.series?.value ?? null) === series,
    )
    .sort((a, b) => orderOf(a.answer) - orderOf(b.answer) || a.sketch.index - b.sketch.index);
  const tallest = shown.reduce(
    (best, one, place) => (worstOf(one.answer.findings) < worstOf(shown[best]?.answer.findings ?? []) ? place : best),
    0,
  );
  const several = (gas: string | null): boolean => shown.filter((one) => one.answer.gas === gas).length > 1;
  return shown.map((one, place) =>
    modelOf(one.sketch, one.answer, heightOf(place === tallest, one.answer, beside), several(one.answer.gas), place === tallest),
  );
};

const sketchOf = (answer: ChannelAnswer, sketches: readonly ChannelSketch[], place: number): ChannelSketch | undefined => {
  const same = (one: ChannelSketch): boolean => one.name === answer.name && (one.series?.value ?? null) === (answer.series?.value ?? null);
  const straight = sketches[place % Math.max(1, sketches.length)];
  return straight !== undefined && same(straight) ? straight : sketches.find(same);
};

/** A channel of a recording that could not be assessed: it is drawn all the same, without a finding. */
export const unassessed = (sketch: ChannelSketch, clock: Clock): ChannelAnswer => {
  const nothing = { low: 0, best: null, high: null };
  return {
    name: sketch.name,
    series: sketch.series,
    shift: 0,
    gas: sketch.gas,
    unit: sketch.unit,
    samples: sketch.rows,
    start: clock.text(sketch.from),
    end: clock.text(sketch.to),
    sampledSeconds: 0,
    mean: nothing,
    twa8h: nothing,
    stel: { ...nothing, windowMinutes: 15, windowStart: clock.text(sketch.from), windowEnd: clock.text(sketch.from), coverage: 0 },
    peak: null,
    lowest: null,
    findings: [],
    notCompared: [],
    episodes: [],
  };
};
