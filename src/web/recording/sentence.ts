import { findingFigures, findingSentence, kindName, severityOf, valueText } from "../../report/index.ts";
import type { ChannelAnswer, FileAnswer, FindingAnswer } from "../../work/answer.ts";
import type { Held } from "../desk/shelf.ts";
import { shortGas } from "./gas-names.ts";

interface Said {
  readonly channel: ChannelAnswer;
  readonly finding: FindingAnswer;
}

const gravest = (channels: readonly ChannelAnswer[]): readonly Said[] =>
  channels
    .flatMap((channel) => channel.findings.map((finding) => ({ channel, finding })))
    .sort((a, b) => severityOf(a.finding.outcome) - severityOf(b.finding.outcome));

const gases = (said: readonly Said[]): string => [...new Set(said.map(({ channel }) => shortGas(channel.gas) ?? channel.name))].join(", ");

const exceeded = ({ channel, finding }: Said): string => {
  const gas = shortGas(channel.gas) ?? channel.name;
  const { limit } = finding;
  if (limit.value === null || finding.parts.length > 0) return `${gas}: ${findingSentence(finding)}`;
  const kind = kindName(limit.kind, limit.averagingMinutes).replace(/,$/, "");
  return `${gas} exceeds the ${limit.regime} ${kind}: ${findingFigures(finding)}, limit ${valueText(limit.value, limit.unit)}.`;
};

const rest = (channels: readonly ChannelAnswer[], outcome: string): readonly Said[] => gravest(channels).filter(({ finding }) => finding.outcome === outcome);

/** The page's first sentence: the gravest finding, then how many more, then what cannot be told. */
export const pageSentence = (one: Held, file: FileAnswer | null, channels: readonly ChannelAnswer[]): string => {
  if (one.fault !== null) return `Lamproom failed while computing: ${one.fault}`;
  if (file === null) return "Computing.";
  if (file.refusal !== null) return `${file.refusal.message} ${file.refusal.mend}`;
  const over = rest(channels, "exceeds");
  const open = rest(channels, "undetermined");
  const first = over[0];
  if (first !== undefined) {
    const more = over.length > 1 ? ` So do ${over.length - 1} more of its findings.` : "";
    return `${exceeded(first)}${more.replace("So do 1 more of its findings", "One more finding exceeds")}${open.length > 0 ? ` ${open.length} cannot be told yet.` : ""}`;
  }
  if (open.length > 0) return `No limit is shown to be exceeded, and ${open.length === 1 ? "one finding" : `${open.length} findings`} for ${gases(open)} cannot be told yet.`;
  const inside = rest(channels, "within");
  if (inside.length > 0) return `${gases(inside)} within the ${inside.length === 1 ? "limit" : "limits"} chosen on these data.`;
  return "No limit of the regimes chosen applies to the gases of this file.";
};
