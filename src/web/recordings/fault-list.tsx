import { type ReactElement, useState } from "react";
import type { LineFault } from "../../core/table/question.ts";
import type { TableSummary } from "../../core/table/reading.ts";
import { countText, csvCell, FAULTS } from "../../report/index.ts";
import { download } from "../parts/download.ts";

const asCsv = (faults: readonly LineFault[]): string =>
  [["line", "column", "what", "raw"], ...faults.map((fault) => [String(fault.line), fault.column ?? "", fault.type, fault.raw])]
    .map((row) => `${row.map(csvCell).join(",")}\r\n`)
    .join("");

const FaultRow = ({ fault }: { readonly fault: LineFault }): ReactElement => (
  <tr>
    <td className="num">{countText(fault.line)}</td>
    <td className="wide">
      <span className="raw">{fault.raw}</span>
    </td>
    <td>
      {fault.column !== null && `${fault.column}: `}
      {FAULTS[fault.type].says}. <span className="quiet">{FAULTS[fault.type].mend}</span>
    </td>
    <td>{fault.rejected ? <b>left out</b> : "kept"}</td>
  </tr>
);

const shownAtFirst = 40;

const Heading = ({ faults, file }: { readonly faults: readonly LineFault[]; readonly file: File }): ReactElement => {
  const rejected = faults.filter((fault) => fault.rejected);
  return (
    <h2>
      Faults <span className="count">{countText(faults.length)}</span>
      {rejected.length > 0 && (
        <span className="aside">
          <button type="button" className="act" onClick={() => download(`${file.name}.left-out.csv`, "text/csv", asCsv(rejected))}>
            Download the lines left out
          </button>
        </span>
      )}
    </h2>
  );
};

interface FaultListParts {
  readonly faults: readonly LineFault[];
  readonly summary: TableSummary;
  readonly file: File;
}

/** Every line that something is wrong with, what, and what became of it. */
export const FaultList = ({ faults, summary, file }: FaultListParts): ReactElement => {
  const [all, setAll] = useState(false);
  const more = Object.entries(summary.moreFaults).filter(([, count]) => count > 0);
  const shown = all ? faults : faults.slice(0, shownAtFirst);
  if (faults.length === 0) {
    return (
      <section>
        <h2>Faults</h2>
        <p>None found in {countText(summary.count.lines)} lines.</p>
      </section>
    );
  }
  return (
    <section>
      <Heading faults={faults} file={file} />
      <table className="dense stack">
        <thead>
          <tr>
            <th scope="col" className="num">
              Line
            </th>
            <th scope="col">Raw</th>
            <th scope="col">What is wrong, and what mends it</th>
            <th scope="col">Row</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((fault) => (
            <FaultRow key={`${fault.line}/${fault.byteOffset}/${fault.type}/${fault.column}`} fault={fault} />
          ))}
        </tbody>
      </table>
      {!all && faults.length > shownAtFirst && (
        <p>
          <button type="button" className="word" onClick={() => setAll(true)}>
            Show all {countText(faults.length)}
          </button>
        </p>
      )}
      {more.length > 0 && (
        <p className="small quiet">Not listed one by one: {more.map(([type, count]) => `${countText(count)} × ${type}`).join(", ")}.</p>
      )}
    </section>
  );
};
