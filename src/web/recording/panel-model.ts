/** What each panel shows: which channel, on which scale, with which limits on it, and in which order panels stand. */
import { byGravity, exactText, limitName, severityOf } from "../../report/index.ts";
import type { ChannelAnswer, FindingAnswer } from "../../work/answer.ts";
import type { ChannelSketch, Plotting } from "../desk/protocol.ts";
import type { Clock } from "../parts/clock.ts";
import { inUnit, type LimitLine, limitLines } from "./limit-lines.ts";

/** A plot is a place to draw in: readings lie between the band at its head and the band at its foot, and nothing else does. */
export interface PanelModel extends Plotting {
  readonly key: string;
  readonly sketch: ChannelSketch;
  readonly answer: ChannelAnswer;
  /** Values at the axis; those of limits are told apart from the round ones, which only give the scale. */
  readonly labels: readonly { readonly value: number; readonly text: string; readonly isLimit: boolean }[];
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

/** The band over the readings holds the gas's name and what is said of stretches; that under them the greatest window. */
const headBand = 24;
const footBand = 22;
const bareFoot = 4;

/** Where a value stands in its plot, in pixels from the top. */
export const yOf = (value: number, { scale: [foot, top], height, head, foot: band }: Plotting): number =>
  height - band - ((value - foot) / (top - foot)) * (height - band - head);

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

const worstOf = (findings: readonly FindingAnswer[]): number =>
  findings.reduce((worst, finding) => Math.min(worst, severityOf(finding.outcome)), 9);

/** The averaging time of the rolling mean: that of the gravest windowed finding, else the 15 minutes of the trade. */
const windowOf = (findings: readonly FindingAnswer[]): number | null => {
  const windowed = findings.filter(({ limit }) => limit.averagingMinutes !== null && limit.averagingMinutes < 120);
  if (findings.length === 0) return null;
  const first = [...windowed].sort(byGravity)[0];
  return (first?.limit.averagingMinutes ?? 15) * 60_000;
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

/** A value's text is so tall; two of them, or two limits, closer than this would run into each other. */
const labelPixels = 16;

/** Every limit on the panel has its value at the axis where there is room; round values between them give way. */
const labelsOf = (plotting: Plotting, lines: readonly LimitLine[], oxygen: boolean): PanelModel["labels"] => {
  const [foot, top] = plotting.scale;
  const taken: number[] = [];
  const take = (value: number, room: number): void => {
    const apart = (one: number): number => Math.abs(yOf(one, plotting) - yOf(value, plotting));
    if (value >= foot && value <= top && taken.every((one) => apart(one) >= room)) taken.push(value);
  };
  take(foot < 0 ? 0 : foot, 0);
  for (const line of lines) take(line.value, labelPixels);
  for (const round of oxygen ? [20.9, 19.5, 20] : [niceBelow(top), niceBelow(top) / 2]) if (taken.length < 5) take(round, labelPixels * 2);
  return taken.map((value) => {
    const line = lines.find((one) => one.value === value);
    return { value, text: line?.figure ?? exactText(Number(value.toPrecision(6))), isLimit: line !== undefined };
  });
};

/** Findings that stand beside a panel before the rest is folded. */
export const findingsShown = 4;

/** A panel is at most so tall, however many findings stand beside it. */
const tallest = 520;

const heightOf = (gravest: boolean, channel: ChannelAnswer, beside: number): number =>
  Math.max(gravest ? 212 : channel.findings.length > 0 ? 160 : 84, Math.min(beside, tallest));

const bracketOf = (channel: ChannelAnswer, windowMs: number | null): PanelModel["worst"] => {
  const windowed = channel.findings.filter(
    (finding) =>
      finding.windowStart !== null && finding.limit.averagingMinutes !== null && finding.limit.averagingMinutes * 60_000 === windowMs,
  );
  const first = [...windowed].sort(byGravity)[0];
  if (first !== undefined && first.windowStart !== null && first.windowEnd !== null)
    return { from: first.windowStart, to: first.windowEnd };
  const { stel } = channel;
  return stel !== null && windowMs === stel.windowMinutes * 60_000 && stel.low > 0 ? { from: stel.windowStart, to: stel.windowEnd } : null;
};

const modelOf = (sketch: ChannelSketch, answer: ChannelAnswer, height: number, named: boolean, gravest: boolean): PanelModel => {
  const windowMs = windowOf(answer.findings);
  const all = limitLines(answer, windowMs);
  const scale = scaleOf(sketch, all);
  const lines = all.filter((line) => line.value <= scale[1]);
  const compared = lines.filter((line) => line.against === "mean").map((line) => line.value);
  const worst = bracketOf(answer, windowMs);
  const plotting: Plotting = { height, head: headBand, foot: worst === null ? bareFoot : footBand, scale };
  return {
    ...plotting,
    key: keyOf(sketch, answer),
    sketch,
    answer,
    labels: labelsOf(plotting, lines, sketch.gas === "oxygen"),
    lines,
    beyond: [...beyondOf(all.filter((line) => line.value > scale[1])), ...otherKinds(answer)],
    windowMs,
    limit: compared.length > 0 ? Math.min(...compared) : null,
    worst,
    named,
    gravest,
  };
};

const keyOf = (sketch: ChannelSketch, answer: ChannelAnswer): string => `${sketch.index}/${answer.shift}`;

/** "Above this panel: US-NIOSH ceiling 200; …". */
const beyondOf = (lines: readonly LimitLine[]): readonly string[] =>
  lines.length === 0
    ? []
    : [`Above this panel: ${lines.map(({ names, figure }) => `${names.replace(", for scale only", "")} ${figure}`).join("; ")}.`];

const otherKinds = (channel: ChannelAnswer): readonly string[] =>
  channel.findings
    .filter(({ limit }) => limit.value !== null && inUnit(limit.value, limit.unit, channel.unit) === null)
    .map(({ limit }) => `${limitName(limit)} is in another kind of unit.`);

/** In the fixed order: H2S, CO, flammable, O2, others; each as tall as its findings beside it (`beside`, by the panel's key). */
export const panelsOf = (
  channels: readonly ChannelAnswer[],
  sketches: readonly ChannelSketch[],
  shift: number,
  series: string | null,
  beside: ReadonlyMap<string, number>,
): readonly PanelModel[] => {
  const shown = channels
    .map((answer, place) => ({ answer, sketch: sketchOf(answer, sketches, place) }))
    .filter(
      (one): one is { answer: ChannelAnswer; sketch: ChannelSketch } =>
        one.sketch !== undefined && one.answer.shift === shift && (one.sketch.series?.value ?? null) === series,
    )
    .sort((a, b) => orderOf(a.answer) - orderOf(b.answer) || a.sketch.index - b.sketch.index);
  const gravest = shown.reduce(
    (best, one, place) => (worstOf(one.answer.findings) < worstOf(shown[best]?.answer.findings ?? []) ? place : best),
    0,
  );
  const several = (gas: string | null): boolean => shown.filter((one) => one.answer.gas === gas).length > 1;
  return shown.map((one, place) =>
    modelOf(
      one.sketch,
      one.answer,
      heightOf(place === gravest, one.answer, beside.get(keyOf(one.sketch, one.answer)) ?? 0),
      several(one.answer.gas),
      place === gravest,
    ),
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
    grounds: [],
    assumptions: [],
    findings: [],
    notCompared: [],
    episodes: [],
  };
};
