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

const everyRegime = "all regimes";

const FocusPick = ({ regimes, regime, choose }: RegimeFocusParts): ReactElement => (
  <label className="focus-pick">
    Set against{" "}
    <select value={regime ?? ""} onChange={(event) => choose(event.target.value === "" ? null : event.target.value)}>
      <option value="">{everyRegime}</option>
      {regimes.map((each) => (
        <option key={each}>{each}</option>
      ))}
    </select>
  </label>
);

/** Whose limits the sentence, the panels and the times above a limit are about. The regime is chosen, never assumed. */
export const RegimeFocus = (parts: RegimeFocusParts): ReactElement => (
  <>
    <FocusPick {...parts} />
    <fieldset className="inline focus-words" aria-label="Whose limits">
      <span className="quiet">Set against</span>
      {[null, ...parts.regimes].map((each) => (
        <button
          type="button"
          key={each ?? everyRegime}
          className={each === parts.regime ? "word chosen" : "word"}
          aria-pressed={each === parts.regime}
          title={each === null ? undefined : (regimeWords[each] ?? each)}
          onClick={() => parts.choose(each)}
        >
          {each ?? everyRegime}
        </button>
      ))}
    </fieldset>
  </>
);
