/** Which recording of a file is shown, and from when to when it lasts. */
import type { ShiftSpan } from "../../core/exposure/assessment.ts";
import { drawnSpan } from "../desk/drawn-span.ts";
import type { ChannelSketch } from "../desk/protocol.ts";
import type { View } from "./view.ts";

/** What of a shift was not measured belongs to the recording: it is shown as a gap. */
export const extentOf = (channels: readonly ChannelSketch[], shifts: readonly ShiftSpan[]): View => {
  const { from, to } = drawnSpan(channels, shifts);
  return { from, to: Math.max(to, from + 1000) };
};

export const inSeries = (channels: readonly ChannelSketch[], series: string | null): readonly ChannelSketch[] =>
  channels.filter((channel) => (channel.series?.value ?? null) === series);

/** Names of the recordings that stand in one file; none where the file is one recording. */
export const seriesIn = (channels: readonly ChannelSketch[]): readonly string[] => [
  ...new Set(channels.map((channel) => channel.series?.value).filter((value) => value !== undefined)),
];
