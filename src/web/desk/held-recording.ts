/** One recording in the worker: its signals and drawings are made when first asked and kept until settings change. */
import { edgeAt, type RollingMean } from "../../core/exposure/index.ts";
import { blockSummaries, type Channel, type ChannelSignal, type Period, type Recording, signalOf } from "../../core/recording/index.ts";
import type { OpenedRecording } from "../../work/open-recording.ts";
import { type Geometry, meanPaths } from "./drawing.ts";
import { widenedTo } from "./drawn-span.ts";
import { longSignal, meanBase, meanIn } from "./mean-base.ts";
import type { ChannelSketch, Frame, FrameAsk, PanelAsk, PanelFrame, Settings, Stretch } from "./protocol.ts";
import { type DrawnChannel, rawPath } from "./raw-path.ts";
import { stretchesIn, stretchesOf } from "./stretches.ts";
import { signalSettings } from "./unsettled.ts";

interface Drawn extends DrawnChannel {
  readonly stretches: readonly Stretch[];
  readonly bases: Map<number, RollingMean>;
}

/** What of the settings changes a signal; regimes do not. */
const keyOf = (settings: Settings): string =>
  JSON.stringify([
    settings.largestGapMs,
    settings.shifts,
    settings.declarations,
    settings.unsampled.kind === "zero",
    settings.deadBands,
    settings.negativeFloors,
  ]);

export class HeldRecording {
  readonly opened: OpenedRecording;
  readonly recording: Recording;
  #key = "";
  readonly #drawn = new Map<number, Drawn | null>();

  constructor(opened: OpenedRecording, recording: Recording) {
    this.opened = opened;
    this.recording = recording;
  }

  sketches(): readonly ChannelSketch[] {
    return this.recording.channels.map(sketchOf).filter((sketch) => sketch !== null);
  }

  channel(index: number): Channel {
    const channel = this.recording.channels[index];
    if (channel === undefined) throw new Error(`broken promise: the page asks for channels that it was told of, not ${index}`);
    return channel;
  }

  /** Signals and block summaries of the channels that a page shows first: a part of opening, so that drawing is quick. */
  layOut(settings: Settings, most: number): void {
    this.#settle(settings);
    for (let index = 0; index < Math.min(most, this.recording.channels.length); index++) this.#draw(index, settings);
  }

  frame(ask: FrameAsk): Frame {
    this.#settle(ask.settings);
    let partial = false;
    const panels = ask.panels.flatMap((panel) => {
      const drawn = this.#draw(panel.channel, ask.settings);
      if (drawn === null) return [];
      const lacks = panel.windowMs !== null && drawn.signal.signal.low.length > longSignal && !drawn.bases.has(panel.windowMs);
      partial ||= lacks;
      return [panelFrame(drawn, panel, ask, !lacks)];
    });
    return { from: ask.from, to: ask.to, width: ask.width, panels, partial };
  }

  /** Works out one missing rolling mean; the next ask for a frame says whether more are missing. */
  prepare(panels: readonly PanelAsk[]): void {
    for (const { channel, windowMs } of panels) {
      const drawn = this.#drawn.get(channel);
      if (drawn === undefined || drawn === null || windowMs === null || drawn.bases.has(windowMs)) continue;
      if (drawn.signal.signal.low.length <= longSignal) continue;
      drawn.bases.set(windowMs, meanBase(drawn.signal.signal, windowMs));
      return;
    }
  }

  /** From when to when the channels of the same recording have rows. */
  #sameRecording({ series }: Channel): readonly Period[] {
    return this.recording.channels.flatMap((one) => (one.series?.value === series?.value ? rowsSpan(one) : []));
  }

  #settle(settings: Settings): void {
    const key = keyOf(settings);
    if (key !== this.#key) this.#drawn.clear();
    this.#key = key;
  }

  #draw(index: number, settings: Settings): Drawn | null {
    const known = this.#drawn.get(index);
    if (known !== undefined) return known;
    const channel = this.channel(index);
    const signal = channel.times.length === 0 ? null : drawnSignal(channel, this.#sameRecording(channel), settings);
    const drawn = signal === null ? null : drawnOf(channel, signal, settings);
    this.#drawn.set(index, drawn);
    return drawn;
  }
}

const rowsSpan = ({ times }: Channel): readonly Period[] => {
  const [from, to] = [times[0], times.at(-1)];
  return from === undefined || to === undefined ? [] : [{ from, to }];
};

/**
 * The signal over the rows, or, where a shift that touches the recording is longer, over the shift too: what nobody
 * measured in it is a gap as any other. A refusal is told by the assessment in words: where even the rows meet one the
 * panel stays blank.
 */
const drawnSignal = (channel: Channel, own: readonly Period[], settings: Settings): ChannelSignal | null => {
  const over = (period: Period | null) =>
    signalOf(
      channel,
      { ...signalSettings(channel, settings), outside: settings.unsampled.kind === "zero" ? "unexposed" : "unsampled" },
      settings.declarations,
      period,
    );
  const rows = over(null);
  if (!rows.ok) return null;
  const { timing, low } = rows.value.signal;
  const wide = widenedTo({ from: edgeAt(timing, 0), to: edgeAt(timing, low.length) }, own, settings.shifts);
  const widened = wide === null ? rows : over(wide);
  return widened.ok ? widened.value : rows.value;
};

const drawnOf = (channel: Channel, signal: ChannelSignal, settings: Settings): Drawn => ({
  channel,
  signal,
  summaries: blockSummaries(channel, signal.largestGap.ms),
  stretches: stretchesOf(channel, signal, settings.declarations),
  bases: new Map(),
});

const noMean = { mean: "", thin: "", hot: "", wash: "", ribbon: "", unbounded: "", unboundedRuns: [] };

const panelFrame = (drawn: Drawn, panel: PanelAsk, ask: FrameAsk, withMean: boolean): PanelFrame => {
  const span = ask.to - ask.from;
  const [from, to] = [ask.from - span, ask.to + span];
  const { height, head, foot, scale } = panel;
  const geometry: Geometry = { left: -ask.width, height, head, foot, scale };
  const columns = ask.width * 3;
  const { signal } = drawn.signal;
  const base = panel.windowMs === null ? null : (drawn.bases.get(panel.windowMs) ?? null);
  const { unboundedRuns, ...means } =
    panel.windowMs === null || !withMean
      ? noMean
      : meanPaths(meanIn(signal, base, panel.windowMs, from, to, columns), panel.limit, geometry);
  const at = (column: number): number => from + (column * (to - from)) / columns;
  const open = unboundedRuns
    .filter(([first, last]) => last - first > wideEnoughForWords)
    .map(([first, last]): Stretch => ({ kind: "no upper bound", from: at(first), to: at(last), says: "no upper bound" }));
  return {
    channel: panel.channel,
    ...{ height, head, foot, scale },
    raw: rawPath(drawn, from, to, columns, geometry),
    ...means,
    stretches: [...stretchesIn(drawn.stretches, from, to, span / ask.width), ...open],
  };
};

/** Pixels that "no upper bound" takes. */
const wideEnoughForWords = 96;

const sketchOf = (channel: Channel, index: number): ChannelSketch | null => {
  const rows = channel.times.length;
  if (rows === 0) return null;
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const { values, codes } = channel;
  for (let row = 0; row < rows; row++) {
    // Rows that hold a reading or its bound: codes below 3.
    if (codes !== null && (codes[row] as number) > 2) continue; // one code a row
    const value = values[row] as number; // as many values as times
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  const unit = 10 ** channel.decimals;
  return {
    index,
    name: channel.name,
    series: channel.series,
    gas: channel.gas,
    unit: channel.unit,
    kind: channel.kind,
    decimals: channel.decimals,
    rows,
    from: channel.times[0] as number, // there is a row
    to: channel.times[rows - 1] as number, // as above
    least: Number.isFinite(least) ? least / unit : 0,
    greatest: Number.isFinite(greatest) ? greatest / unit : 0,
  };
};
