import { type ReactElement, useState } from "react";
import { decimalsFor, durationText, limitName, roundedText, withUnit } from "../../report/index.ts";
import type { ChannelAnswer, EpisodeAnswer } from "../../work/answer.ts";
import type { Clock } from "../parts/clock.ts";
import { Marked } from "../parts/marked.tsx";
import { shortGas } from "./gas-names.ts";
import { momentWords, spanWords } from "./span-words.ts";
import type { View } from "./view.ts";

const shownAtMost = 60;

/** On a phone the rest is folded until asked for. */
const shownOnPhone = 3;

const limitWords = (channel: ChannelAnswer, id: string): string => {
  const limit = channel.findings.find((finding) => finding.limit.id === id)?.limit;
  return limit === undefined ? id : limitName(limit);
};

const peakText = (channel: ChannelAnswer, { peak, atLeast, limit: id }: EpisodeAnswer): string => {
  const limit = channel.findings.find((finding) => finding.limit.id === id)?.limit.value ?? null;
  return `${atLeast ? "at least " : ""}${withUnit(roundedText(peak, decimalsFor([peak]), "nearest", limit), channel.unit)}`;
};

interface EpisodeRowParts {
  readonly channel: ChannelAnswer;
  readonly episode: EpisodeAnswer;
  readonly clock: Clock;
  readonly show: (view: View) => void;
  readonly folded: boolean;
}

const EpisodeRow = ({ channel, episode, clock, show, folded }: EpisodeRowParts): ReactElement => {
  const [from, to] = [clock.ms(episode.start), clock.ms(episode.end)];
  return (
    <tr className={folded ? "folded" : undefined}>
      <td className="wide">
        <Marked text={shortGas(channel.gas) ?? channel.name} />
      </td>
      <td>
        <Marked text={limitWords(channel, episode.limit)} />
      </td>
      <td>
        {spanWords(clock, from, to)}
        {episode.openEnd && <span className="r"> and on: readings end there</span>}
      </td>
      <td className="num">
        <Marked text={`${episode.openEnd ? "at least " : ""}${durationText(episode.seconds)}`} />
      </td>
      <td className="num">
        <Marked text={peakText(channel, episode)} /> at {momentWords(clock, clock.ms(episode.peakAt), channel)}
      </td>
      <td className="num">
        <button
          type="button"
          className="word"
          aria-label={`Show ${spanWords(clock, from, to)}`}
          onClick={() => show({ from: from - (to - from), to: to + (to - from) })}
        >
          Show
        </button>
      </td>
    </tr>
  );
};

interface EpisodesParts {
  readonly channels: readonly ChannelAnswer[];
  readonly clock: Clock;
  readonly show: (view: View) => void;
}

/** Each stretch above a limit. The limit is named by its id in the grounds; here by regime and kind. */
export const Episodes = ({ channels, clock, show }: EpisodesParts): ReactElement | null => {
  const [all, setAll] = useState(false);
  const rows = channels.flatMap((channel) => channel.episodes.map((episode) => ({ channel, episode })));
  if (rows.length === 0) return null;
  return (
    <section>
      <h2>
        Times above a limit <span className="count">{rows.length}</span>
      </h2>
      <table className="dense stack above">
        <thead>
          <tr>
            <th scope="col">Gas</th>
            <th scope="col">Limit</th>
            <th scope="col">From, to</th>
            <th scope="col" className="num">
              Lasted
            </th>
            <th scope="col" className="num">
              Greatest
            </th>
            <th scope="col">
              <span className="hid">Acts</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, shownAtMost).map(({ channel, episode }, place) => (
            <EpisodeRow
              key={`${channel.name}/${channel.series?.value ?? ""}/${episode.limit}/${episode.start}`}
              channel={channel}
              episode={episode}
              clock={clock}
              show={show}
              folded={!all && place >= shownOnPhone}
            />
          ))}
        </tbody>
      </table>
      {rows.length > shownOnPhone && (
        <p className="unfold-phone">
          <button type="button" className="word" aria-expanded={all} onClick={() => setAll(!all)}>
            {all ? "Show fewer" : `Show ${Math.min(rows.length, shownAtMost) - shownOnPhone} more`}
          </button>
        </p>
      )}
      {rows.length > shownAtMost && <p className="small quiet">{rows.length - shownAtMost} more stand in the export.</p>}
    </section>
  );
};
