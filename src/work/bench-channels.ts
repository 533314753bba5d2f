/** What an instrument has to show at the bench, gathered from the lists of the site: its channels, what each must raise. */
import type {
  ChannelDescription,
  ChannelReference,
  CylinderComponent,
  GasPath,
  Reading,
  RuleSet,
  SensorKind,
  SetPoint,
  Shown,
} from "../core/instrument/index.ts";
import type { RoomView } from "../report/room/index.ts";

/** One gas of one sensor, with what the rule set asks of it. */
export interface BenchChannel extends ChannelReference, Pick<ChannelDescription, "unit" | "kind" | "lel" | "step"> {
  readonly sensorKind: SensorKind;
  /** Null where the rules have no set points for it. */
  readonly setPoints: readonly SetPoint[] | null;
  /** Names of those that a gas test must raise. */
  readonly raised: readonly string[];
}

/** In the order of the sensors in the instrument. */
export function benchChannels(room: RoomView, instrument: string): readonly BenchChannel[] {
  const body = room.instruments.find(({ id }) => id === instrument);
  return (body?.sensors ?? []).flatMap((id) => {
    const sensor = room.sensors.find((one) => one.id === id);
    return (sensor?.channels ?? []).map((channel) => benchChannel(id, sensor?.sensorKind ?? "unknown", channel, room.rules.inForce));
  });
}

function benchChannel(sensor: string, sensorKind: SensorKind, channel: ChannelDescription, rules: RuleSet | null): BenchChannel {
  const { gas, unit, kind, lel, step } = channel;
  const row = rules === null ? undefined : rowFor(rules.setPoints, gas, sensorKind);
  return { sensor, gas, unit, kind, lel, step, sensorKind, setPoints: row?.points ?? null, raised: row?.raisedByGasTest ?? [] };
}

/** A row for the kind of sensor goes before the row for any kind. */
function rowFor<Row extends { readonly gas: string; readonly sensorKind: SensorKind | null }>(
  rows: readonly Row[],
  gas: string,
  sensorKind: SensorKind,
): Row | undefined {
  return (
    rows.find((row) => row.gas === gas && row.sensorKind === sensorKind) ?? rows.find((row) => row.gas === gas && row.sensorKind === null)
  );
}

type Cylinder = RoomView["cylinders"][number];

/** The component of a cylinder that a channel can be shown: its own gas, or one that the rules let stand for it; else null. */
export function componentFor(channel: BenchChannel, cylinder: Cylinder | null, rules: RuleSet | null): CylinderComponent | null {
  if (cylinder === null) return null;
  const own = cylinder.components.find(({ gas }) => gas === channel.gas);
  if (own !== undefined) return own;
  if (channel.gas === "oxygen") return oxygenOf(cylinder);
  const substitute = (rules?.substitutes ?? []).filter(
    ({ gas, sensorKind }) => gas === channel.gas && (sensorKind === null || sensorKind === channel.sensorKind),
  );
  return cylinder.components.find(({ gas }) => substitute.some(({ component }) => component === gas)) ?? null;
}

/** A low share of oxygen in the balance shows an oxygen sensor something, where the certificate gives it. */
function oxygenOf({ oxygen, components }: Cylinder): CylinderComponent | null {
  const [first] = components;
  if (oxygen === null || first === undefined) return null;
  return { gas: "oxygen", value: oxygen, lel: null, uncertainty: null, tolerancePercent: null, expires: first.expires };
}

/** How gas comes to the sensors of an instrument at a station, with the line parts of the round. */
export function gasPathOf(room: RoomView, instrument: string, station: string | null, lineParts: readonly string[]): GasPath {
  const body = room.instruments.find(({ id }) => id === instrument);
  const model = room.models.find(({ id }) => id === body?.model);
  const isPumped = model?.pump === "built-in" || model?.pump === "attached";
  const throughLine = room.lineParts.some(({ id, part }) => lineParts.includes(id) && WORKING_LINE.has(part));
  if (isPumped) return throughLine ? "pump-and-working-line" : "pump";
  return room.stations.find(({ id }) => id === station)?.sort === "automatic" ? "docked" : "cap";
}

const WORKING_LINE: ReadonlySet<string> = new Set(["hose", "probe"]);

/** A figure on the display of a channel, in its unit and step. */
export const shownOn = ({ unit, kind, step }: BenchChannel, digits: string): Shown => ({ digits, unit, kind, step });

/** Digits as they were typed, or a sign in place of them; null where neither was given. */
export function readingOn(channel: BenchChannel, typed: string): Reading | null {
  const text = typed.trim().replace("−", "-").replace(",", ".");
  const sign = SIGNS[text.toLowerCase()];
  if (sign !== undefined) return { sign };
  return text === "" ? null : shownOn(channel, text);
}

/** As people type what a display shows in place of digits. */
const SIGNS: Readonly<Record<string, "over-range" | "under-range" | "fault" | "not-ready">> = {
  over: "over-range",
  under: "under-range",
  fault: "fault",
  wait: "not-ready",
};
