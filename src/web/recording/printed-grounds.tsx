import type { ReactElement } from "react";
import { findingSentence } from "../../report/index.ts";
import type { ChannelAnswer, FileAnswer } from "../../work/answer.ts";
import { Marked } from "../parts/marked.tsx";
import { shortGas } from "./gas-names.ts";
import { groundLines } from "./grounds-sheet.tsx";

/** On paper nothing can be opened: the grounds of every finding follow on a page of their own. */
export const PrintedGrounds = ({
  file,
  channels,
}: {
  readonly file: FileAnswer;
  readonly channels: readonly ChannelAnswer[];
}): ReactElement => (
  <section className="print-only">
    <h2>Grounds</h2>
    <p className="small">
      {file.file}, SHA-256 <span className="tag hash">{file.sha256}</span>
    </p>
    {channels.flatMap((channel) =>
      channel.findings.map((finding) => (
        <div key={`${channel.name}/${finding.id}`}>
          <h3>
            <Marked text={`${shortGas(channel.gas) ?? channel.name}: ${findingSentence(finding)}`} />
          </h3>
          <ul>
            {groundLines(finding).map((line) => (
              <li key={line}>
                <Marked text={line} />
              </li>
            ))}
          </ul>
        </div>
      )),
    )}
  </section>
);
