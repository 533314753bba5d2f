/** The settings card: what the instrument is set to, compared by eye with the list of the rule set. */
import type { Bodies, ChannelSettings, SetPoint } from "../core/instrument/index.ts";
import type { BenchChannel } from "./bench-channels.ts";
import { type AtBench, aboutInstrument, byTester, type Said } from "./record-at-bench.ts";

export interface SettingsSeen {
  readonly channels: readonly BenchChannel[];
  /** Digits that differ from the list, by sensor, gas and name of the set point; what is not here is as the list has it. */
  readonly differs: ReadonlyMap<string, string>;
  readonly firmware: string | null;
}

export const settingPlace = ({ sensor, gas }: Pick<BenchChannel, "sensor" | "gas">, point: string): string => `${sensor} ${gas} ${point}`;

/** Channels whose set points the rules do not list are left out: nobody could say that they agree. */
export function recordSettingsCard(bench: AtBench, { channels, differs, firmware }: SettingsSeen): Said {
  const listed = channels.filter(({ setPoints }) => setPoints !== null);
  const body: Bodies["settings-card-seen"] = {
    ...{ how: "compared-by-eye", firmware, files: [] },
    channels: listed.map((channel) => settingsOf(channel, differs)),
  };
  return aboutInstrument("settings-card-seen", bench, body, { subjects: [byTester(bench)] });
}

function settingsOf(channel: BenchChannel, differs: ReadonlyMap<string, string>): ChannelSettings {
  const { sensor, gas, unit, kind, lel } = channel;
  const setPoints = (channel.setPoints ?? []).map((point) => foundAs(point, differs.get(settingPlace(channel, point.name))));
  return { sensor, gas, unit, kind, lel, span: null, response: null, setPoints };
}

const foundAs = (point: SetPoint, digits: string | undefined): SetPoint =>
  digits === undefined ? point : { ...point, value: { ...point.value, digits } };
