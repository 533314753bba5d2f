import { Link } from "@tanstack/react-router";
import { type ReactElement, useEffect, useState } from "react";
import { countText, visibleText } from "../../report/index.ts";
import { useShelfState, wake } from "../desk/shelf.ts";
import { openExampleNamed } from "./examples.ts";

/** An address of a recording that this browser does not hold: its file is named where it is known. */
export const NotKept = ({ id }: { readonly id: string }): ReactElement => {
  const { ready, missing } = useShelfState();
  const [looked, setLooked] = useState(false);
  const gone = missing.find((one) => one.id === id);
  useEffect(() => void wake(id), [id]);
  useEffect(() => {
    if (!ready || gone !== undefined) return;
    openExampleNamed(id).then(
      (found) => setLooked(!found),
      () => setLooked(true),
    );
  }, [id, ready, gone]);
  const says =
    gone !== undefined
      ? `Not loaded: ${visibleText(gone.name)}, ${countText(gone.size)} bytes, was too large to be kept in this browser. Drop it again, and all that was said of it stands.`
      : looked
        ? "Not loaded: this browser keeps no recording of this address. Drop its file again to open it."
        : "Opening the recording.";
  return (
    <main>
      <h1 className="answer">{says}</h1>
      {(looked || gone !== undefined) && (
        <p className="acts">
          <Link className="act main" to="/recordings">
            Go to Recordings
          </Link>
        </p>
      )}
    </main>
  );
};
