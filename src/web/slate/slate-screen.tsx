import { Link } from "@tanstack/react-router";
import type { ReactElement } from "react";
import { Marked } from "../parts/marked.tsx";
import { useCalculators } from "./calculators.ts";

/** Calculators that need no record. */
export const SlateScreen = (): ReactElement => {
  const all = useCalculators();
  return (
    <main>
      <title>Slate: Lamproom</title>
      <h1 className="answer">Work one thing out by hand, with its grounds. Nothing is kept.</h1>
      <p className="basis">The figures are the same as those of the command line: lamproom slate.</p>
      <table className="slate-list stack">
        <thead>
          <tr>
            <th scope="col">Calculator</th>
            <th scope="col">What it works out</th>
          </tr>
        </thead>
        <tbody>
          {(all ?? []).map((one) => (
            <tr key={one.id}>
              <td className="wide">
                <Link to="/slate/$name" params={{ name: one.id }} search={{}}>
                  <Marked text={one.title} />
                </Link>
              </td>
              <td>
                <Marked text={one.says} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </main>
  );
};
