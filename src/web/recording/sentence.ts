import { byGravity, findingFigures, findingSentence, kindName, limitFigure } from "../../report/index.ts";
import type { ChannelAnswer, FileAnswer, FindingAnswer } from "../../work/answer.ts";
import type { Held } from "../desk/shelf.ts";
import { shortGas } from "./gas-names.ts";
import { groundsHash } from "./places.ts";

interface Said {
  readonly channel: ChannelAnswer;
  readonly finding: FindingAnswer;
}

const gravest = (channels: readonly ChannelAnswer[]): readonly Said[] =>
  channels.flatMap((channel) => channel.findings.map((finding) => ({ channel, finding }))).sort((a, b) => byGravity(a.finding, b.finding));

const gases = (said: readonly Said[]): string => [...new Set(said.map(({ channel }) => shortGas(channel.gas) ?? channel.name))].join(", ");

/** A piece of the sentence; with `hash` it is the figure that opens its grounds. */
export interface Piece {
  readonly text: string;
  readonly hash: string | null;
}

const plain = (text: string): readonly Piece[] => [{ text, hash: null }];

const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const exceeded = ({ channel, finding }: Said): readonly Piece[] => {
  const gas = upperFirst(shortGas(channel.gas) ?? channel.name);
  const { limit } = finding;
  const hash = groundsHash(channel, finding);
  if (limit.value === null || finding.parts.length > 0)
    return [
      { text: `${gas} `, hash: null },
      { text: lowerFirst(findingSentence(finding)), hash },
    ];
  const kind = kindName(limit.kind, limit.averagingMinutes).replace(/,$/, "");
  return [
    { text: `${gas} exceeds the ${limit.regime} ${kind}: `, hash: null },
    { text: findingFigures(finding), hash },
    { text: `, limit ${limitFigure(limit)}.`, hash: null },
  ];
};

const rest = (channels: readonly ChannelAnswer[], outcome: string): readonly Said[] =>
  gravest(channels).filter(({ finding }) => finding.outcome === outcome);

/** The page's first sentence: the gravest finding, then how many more, then what cannot be told. */
export const pageSentence = (one: Held, file: FileAnswer | null, channels: readonly ChannelAnswer[]): readonly Piece[] => {
  if (one.fault !== null) return plain(`Lamproom failed while computing: ${one.fault}`);
  if (file === null) return plain("Computing.");
  if (file.refusal !== null) return plain(`${file.refusal.message} ${file.refusal.mend}`);
  const over = rest(channels, "exceeds");
  const open = rest(channels, "undetermined");
  const first = over[0];
  if (first !== undefined) {
    const more =
      over.length === 1 ? "" : over.length === 2 ? " One more limit is exceeded." : ` ${over.length - 1} more limits are exceeded.`;
    return [...exceeded(first), { text: `${more}${open.length > 0 ? ` ${open.length} cannot be told yet.` : ""}`, hash: null }];
  }
  if (open.length > 0)
    return plain(
      `No limit is shown to be exceeded, and ${open.length === 1 ? "one finding" : `${open.length} findings`} for ${gases(open)} cannot be told yet.`,
    );
  const inside = rest(channels, "within");
  if (inside.length > 0)
    return plain(`${upperFirst(gases(inside))}: within the ${inside.length === 1 ? "limit" : "limits"} chosen on these data.`);
  const unnamed = channels.filter((channel) => channel.gas === null).length;
  if (unnamed > 0)
    return plain(
      unnamed === 1
        ? "The gas of one channel is not known. Name it, and limits are set against it."
        : `The gas of ${unnamed} channels is not known. Name it, and limits are set against it.`,
    );
  return plain("No limit of the regimes chosen applies to the gases of this file.");
};
