import type { ReactElement } from "react";
import { csvCell } from "../../report/index.ts";
import type { ExposureAnswer, FileAnswer } from "../../work/answer.ts";
import { download } from "../parts/download.ts";

const heads = [
  "file",
  "sha256",
  "series",
  "channel",
  "gas",
  "unit",
  "shift",
  "regime",
  "limit",
  "limit_value",
  "limit_lowered",
  "limit_unit",
  "averaging_minutes",
  "outcome",
  "low",
  "best",
  "high",
  "finding_unit",
  "coverage",
  "w_star",
  "shift_rule",
  "window_start",
  "window_end",
  "source",
  "edition",
  "mark",
  "review",
];

/** Findings as rows, nothing rounded; an empty cell is "open" for high and "not given" for best. */
const findingsCsv = (file: FileAnswer): string => {
  const rows = file.channels.flatMap((channel) =>
    channel.findings.map((finding) => [
      file.file,
      file.sha256,
      channel.series?.value ?? null,
      channel.name,
      channel.gas,
      channel.unit,
      channel.shift,
      finding.limit.regime,
      finding.limit.kind,
      finding.limit.value,
      finding.limit.lowered,
      finding.limit.unit,
      finding.limit.averagingMinutes,
      finding.outcome,
      finding.low,
      finding.best,
      finding.high,
      finding.unit,
      finding.coverage,
      finding.wStar,
      finding.shiftRule,
      finding.windowStart,
      finding.windowEnd,
      finding.limit.source,
      finding.limit.edition,
      finding.limit.mark,
      "computed",
    ]),
  );
  return [heads, ...rows].map((row) => `${row.map(csvCell).join(",")}\r\n`).join("");
};

const asJson = (file: FileAnswer): string => {
  const answer: ExposureAnswer = { form: "lamproom-exposure/1", files: [file] };
  return `${JSON.stringify(answer, null, 2)}\n`;
};

export const Exports = ({ file }: { readonly file: FileAnswer }): ReactElement => (
  <section className="exports">
    <h2>Take it along</h2>
    <p className="acts">
      <button type="button" className="act" onClick={() => download(`${file.file}.exposure.json`, "application/json", asJson(file))}>
        Save as JSON
      </button>
      <button type="button" className="act" onClick={() => download(`${file.file}.findings.csv`, "text/csv", findingsCsv(file))}>
        Save the findings as CSV
      </button>
      <button type="button" className="act" onClick={() => window.print()}>
        Print
      </button>
    </p>
  </section>
);
