import { Link } from "@tanstack/react-router";
import { type ReactElement, useEffect, useState } from "react";
import { openExampleNamed } from "./examples.ts";

/** An address of a recording that this page does not hold: files stay where they are and are not kept here. */
export const NotKept = ({ id }: { readonly id: string }): ReactElement => {
  const [looked, setLooked] = useState(false);
  useEffect(() => {
    openExampleNamed(id).then(
      (found) => setLooked(!found),
      () => setLooked(true),
    );
  }, [id]);
  return (
    <main>
      <h1 className="answer">
        {looked ? `Not loaded: ${id} is not kept here. Drop the file again to open it.` : "Opening the recording."}
      </h1>
      {looked && (
        <p className="acts">
          <Link className="act main" to="/recordings">
            Go to Recordings
          </Link>
        </p>
      )}
    </main>
  );
};
