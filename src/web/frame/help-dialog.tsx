import { type ReactElement, useEffect, useRef, useState } from "react";
import { setSingleKeys, singleKeysAct } from "../parts/keys.ts";

const keys: readonly (readonly [string, string])[] = [
  ["/", "go to the find box"],
  ["?", "open this page"],
  ["Esc", "close the side sheet or this page"],
  ["+ −", "on a chart: show less time, show more"],
  ["← →", "on a chart: earlier, later"],
  ["Home End", "on a chart: the start, the end"],
  ["0", "on a chart: the whole recording"],
  ["g", "on a figure: open its grounds"],
  ["Enter", "open the link or press the key that has the focus"],
];

const words: readonly (readonly [string, string])[] = [
  ["exceeds", "Even the lowest value that the readings allow is above the limit."],
  [
    "within",
    "Even the highest value that the readings allow is at or below the limit, on these data. It says nothing about other times, gases or places.",
  ],
  ["undetermined", "The limit lies between the lowest and the highest value. What would decide it stands under it."],
  ["open", "There is no upper bound: time was not measured, or readings were over range, and nobody declared how high it can have been."],
  ["coverage", "The share of the averaging time that was really measured."],
  ["gap", "Time without a reading. It is never counted as nought unless a named person declares it."],
  ["declaration", "A named person’s statement about time that the data cannot speak for, with its reason."],
  [
    "put away",
    "Off the list, and forgotten by this browser: the file, the answers and the declarations. Until then they stay here, on this machine.",
  ],
  ["grounds", "What a figure rests on: readings, their lines in the file, the limit and its source, what was assumed."],
  ["(memory)", "The limit’s figure was recalled and nobody has checked it against the published text."],
  ["over range", "The reading was at the end of the sensor’s range: the true value was at least that."],
];

export const HelpDialog = ({ onClose }: { readonly onClose: () => void }): ReactElement => {
  const dialog = useRef<HTMLDialogElement>(null);
  const [acting, setActing] = useState(singleKeysAct);
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="help-heading" className="help">
      <header>
        <h2 id="help-heading">Keys and words</h2>
        <button type="button" className="close" onClick={() => dialog.current?.close()}>
          Close <kbd>Esc</kbd>
        </button>
      </header>
      <h3>Keys</h3>
      <dl>
        {keys.map(([key, act]) => (
          <div key={key}>
            <dt>
              {key.split(" ").map((one) => (
                <kbd key={one}>{one}</kbd>
              ))}
            </dt>
            <dd>{act}</dd>
          </div>
        ))}
      </dl>
      <label className="tick">
        <input
          type="checkbox"
          checked={acting}
          onChange={(event) => {
            setSingleKeys(event.target.checked);
            setActing(event.target.checked);
          }}
        />
        Single keys act anywhere on the page. Switch this off if speech input or a scanner fires them by mistake; keys on a chart or a
        figure go on working while it has the focus.
      </label>
      <h3>Words</h3>
      <dl>
        {words.map(([word, says]) => (
          <div key={word} id={`word-${word}`}>
            <dt>{word}</dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
    </dialog>
  );
};
