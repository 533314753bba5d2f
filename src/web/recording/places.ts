import type { ChannelAnswer, FindingAnswer } from "../../work/answer.ts";

/** What the side sheet shows stands in the address, so that a link or the back key finds it again. */
export type SheetPlace =
  | { readonly type: "finding"; readonly finding: string; readonly channel: string }
  | { readonly type: "values"; readonly channel: number }
  | { readonly type: "declare"; readonly channel: string };

const keyOf = (channel: ChannelAnswer): string => `${channel.series?.value ?? ""}~${channel.name}~${channel.shift}`;

export const groundsHash = (channel: ChannelAnswer, finding: FindingAnswer): string =>
  `grounds/${encodeURIComponent(keyOf(channel))}/${encodeURIComponent(finding.id)}`;
export const valuesHash = (channel: number): string => `values/${channel}`;
export const declareHash = (channel: string): string => `declare/${encodeURIComponent(channel)}`;

export const sheetPlace = (hash: string): SheetPlace | null => {
  const [sort, first, second] = hash.split("/").map((part) => decodeURIComponent(part));
  if (sort === "grounds" && first !== undefined && second !== undefined) return { type: "finding", channel: first, finding: second };
  if (sort === "values" && first !== undefined && /^\d+$/.test(first)) return { type: "values", channel: Number(first) };
  if (sort === "declare" && first !== undefined) return { type: "declare", channel: first };
  return null;
};

export const findingAt = (
  channels: readonly ChannelAnswer[],
  place: SheetPlace,
): { readonly channel: ChannelAnswer; readonly finding: FindingAnswer } | null => {
  if (place.type !== "finding") return null;
  const channel = channels.find((one) => keyOf(one) === place.channel);
  const finding = channel?.findings.find((one) => one.id === place.finding);
  return channel === undefined || finding === undefined ? null : { channel, finding };
};
