import type { ReactElement } from "react";
import { countText } from "../../report/digits.ts";
import type { Progressing } from "../desk/desk.ts";
import { cancelReading } from "../desk/shelf.ts";

const stages: Readonly<Record<Progressing["stage"], string>> = {
  reading: "Reading",
  understanding: "Understanding",
  computing: "Computing",
};

const amount = ({ done, of }: Progressing): string => {
  const thousands = (bytes: number): string => countText(Math.round(bytes / 1000));
  return of === null ? `${countText(done)}` : `${thousands(done)} of ${thousands(of)} kB`;
};

/** Stage, count and a way to stop, in words and a bar. */
export const ProgressLine = ({ id, progress }: { readonly id: string; readonly progress: Progressing }): ReactElement => (
  <span className="progress" role="status">
    <span>
      {stages[progress.stage]}, {amount(progress)}
    </span>
    <progress value={progress.done} max={progress.of ?? Math.max(progress.done, 1)} aria-label={stages[progress.stage]} />
    <button type="button" className="word" onClick={() => cancelReading(id)}>
      Cancel
    </button>
  </span>
);
