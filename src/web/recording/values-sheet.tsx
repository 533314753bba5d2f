import { type ReactElement, useEffect, useState } from "react";
import { countText, unitText } from "../../report/index.ts";
import { desk } from "../desk/desk.ts";
import type { ChannelSketch, Settings, ValueRow, ValuesPage } from "../desk/protocol.ts";
import type { Clock } from "../parts/clock.ts";
import { Marked } from "../parts/marked.tsx";
import { Sheet } from "../parts/sheet.tsx";
import { shortGas } from "./gas-names.ts";
import { spanWords } from "./span-words.ts";
import type { View } from "./view.ts";

const most = 500;

const Rows = ({ unit, rows }: { readonly unit: string | null; readonly rows: readonly ValueRow[] }): ReactElement => (
  <table className="dense values">
    <thead>
      <tr>
        <th scope="col">Time</th>
        <th scope="col" className="num">
          {unit === null ? "Value" : unitText(unit)}
        </th>
        <th scope="col">Status</th>
        <th scope="col" className="num">
          Line
        </th>
      </tr>
    </thead>
    <tbody>
      {rows.map((row) => (
        <tr key={row.at}>
          <td>{row.at}</td>
          <td className="num">{row.value}</td>
          <td>{row.status}</td>
          <td className="num r">{row.line === null ? "" : countText(row.line)}</td>
        </tr>
      ))}
    </tbody>
  </table>
);

interface ValuesSheetParts {
  readonly id: string;
  readonly sketch: ChannelSketch;
  readonly view: View;
  readonly clock: Clock;
  readonly settings: Settings;
  readonly onClose: () => void;
}

/** The chart in rows: what the panel shows, with each reading's line in the file. */
export const ValuesSheet = ({ id, sketch, view, clock, settings, onClose }: ValuesSheetParts): ReactElement => {
  const [page, setPage] = useState<ValuesPage | null>(null);
  useEffect(() => {
    let wanted = true;
    void desk()
      .ask({ type: "values", id, channel: sketch.index, from: view.from, to: view.to, most, settings })
      .reply.then((values) => wanted && setPage(values));
    return () => {
      wanted = false;
    };
  }, [id, sketch, view, settings]);
  const gas = shortGas(sketch.gas) ?? sketch.name;
  return (
    <Sheet heading={<Marked text={`Values: ${gas}`} />} label={`Table of values: ${gas}`} onClose={onClose}>
      <p className="small quiet" aria-live="polite">
        {spanWords(clock, view.from, view.to)}, as logged.{" "}
        {page !== null &&
          (page.of > page.rows.length
            ? `The first ${countText(page.rows.length)} of ${countText(page.of)} readings: show less time to see the rest.`
            : `${countText(page.of)} readings.`)}
      </p>
      <Rows unit={sketch.unit} rows={page?.rows ?? []} />
    </Sheet>
  );
};
