/** What is wrong with the part of the page that computes, and the way on: an answer that does not come is said. */
import type { ReactElement } from "react";
import { type DeskState, desk, patienceMs, useDeskState } from "../desk/desk.ts";

const wordsOf = (state: Exclude<DeskState, { readonly type: "well" }>): string => {
  switch (state.type) {
    case "silent":
      return `Nothing has come from the part of this page that computes for ${patienceMs / 1000} seconds. It may still be at work, or it may have died. What was asked waits.`;
    case "gone":
      return `The part of this page that computes has stopped: ${state.why}. What was asked waits.`;
    case "fault":
      return `Lamproom failed at one thing that this page asked for: ${state.why}. What should stand there is missing.`;
  }
};

export const DeskLine = (): ReactElement => {
  const state = useDeskState();
  return (
    <div role="alert">
      {state.type !== "well" && (
        <p className="desk-line error">
          {wordsOf(state)}{" "}
          <button type="button" className="word" onClick={() => void desk().startAgain()}>
            Start it again
          </button>
        </p>
      )}
    </div>
  );
};
