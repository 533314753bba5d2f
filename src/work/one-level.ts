/** One number for all time without readings, and the channels that would each take it in a unit of their own. */
import type { DoorRefusal } from "../report/index.ts";
import type { ChannelAnswer } from "./answer.ts";

type Taking = Pick<ChannelAnswer, "name" | "gas" | "unit">;

type OneLevel = Extract<DoorRefusal, { readonly type: "one-level-for-several-units" }>;

/** Why the level cannot be meant for these channels: gases with units of their own. Null where it can. */
export function levelForSeveralUnits(text: string, taking: readonly Taking[]): OneLevel | null {
  if (new Set(taking.map(({ gas }) => gas)).size < 2 || new Set(taking.map(({ unit }) => unit)).size < 2) return null;
  const channels = [...new Map(taking.map(({ name, unit }) => [name, { name, unit: unit ?? "" }])).values()];
  return { type: "one-level-for-several-units", text, channels };
}

/** Channels of which a finding rests on what was said of time without readings. */
export const takingIt = (channels: readonly ChannelAnswer[]): readonly ChannelAnswer[] =>
  channels.filter(({ findings }) => findings.some(({ assumptions }) => assumptions.some(({ type }) => type === "unsampled-taken-as")));
