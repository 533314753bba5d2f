import { Link } from "@tanstack/react-router";
import type { ReactElement } from "react";

export const NotHere = (): ReactElement => (
  <main>
    <h1 className="answer">There is no page at this address.</h1>
    <p className="acts">
      <Link className="act main" to="/recordings">
        Go to Recordings
      </Link>
    </p>
  </main>
);
