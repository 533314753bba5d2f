import { type ReactElement, useState } from "react";
import type { ChannelAnswer } from "../../work/answer.ts";
import { remember, remembered } from "../parts/remember.ts";
import { regimeWords } from "./regimes.ts";

const KEY = "regime";

/** Which regime the page looks at; null = all of them. Remembered in this browser: a works is seldom under two laws. */
export function useRegimeFocus(): readonly [string | null, (regime: string | null) => void] {
  const [regime, setRegime] = useState<string | null>(() => remembered(KEY));
  const choose = (next: string | null): void => {
    remember(KEY, next);
    setRegime(next);
  };
  return [regime, choose];
}

/** Channels with the findings and episodes of one regime only, and what it leaves uncompared. */
export const underRegime = (channels: readonly ChannelAnswer[], regime: string | null): readonly ChannelAnswer[] =>
  regime === null
    ? channels
    : channels.map((channel) => ({
        ...channel,
        findings: channel.findings.filter(({ limit }) => limit.regime === regime),
        notCompared: channel.notCompared.filter((one) => one.regime === regime),
        episodes: channel.episodes.filter(({ limit }) => limit.startsWith(`${regime}/`)),
      }));

interface RegimeFocusParts {
  readonly regimes: readonly string[];
  readonly regime: string | null;
  readonly choose: (regime: string | null) => void;
}

/** Whose limits the sentence, the panels and the times above a limit are about. The regime is chosen, never assumed. */
export const RegimeFocus = ({ regimes, regime, choose }: RegimeFocusParts): ReactElement => (
  <fieldset className="inline" aria-label="Whose limits">
    <span className="quiet">Set against</span>
    {[null, ...regimes].map((each) => (
      <button
        type="button"
        key={each ?? "all"}
        className={each === regime ? "word chosen" : "word"}
        aria-pressed={each === regime}
        title={each === null ? undefined : (regimeWords[each] ?? each)}
        onClick={() => choose(each)}
      >
        {each ?? "all regimes"}
      </button>
    ))}
  </fieldset>
);
