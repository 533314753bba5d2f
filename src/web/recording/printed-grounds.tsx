import type { ReactElement } from "react";
import { byGravity, findingSentence, visibleText } from "../../report/index.ts";
import type { ChannelAnswer, FileAnswer, FindingAnswer } from "../../work/answer.ts";
import { Marked } from "../parts/marked.tsx";
import { shortGas } from "./gas-names.ts";
import { groundsOnce } from "./grounds-once.ts";
import { restsOn } from "./grounds-sheet.tsx";

const Lines = ({ lines }: { readonly lines: readonly string[] }): ReactElement | null =>
  lines.length === 0 ? null : (
    <ul>
      {lines.map((line) => (
        <li key={line}>
          <Marked text={line} />
        </li>
      ))}
    </ul>
  );

/** Sources end in their mark; in a row with others each line needs its end. */
const closed = (line: string): string => (/[.!?]$/.test(line) ? line : `${line}.`);

interface OfChannelParts {
  readonly channel: ChannelAnswer;
  readonly findings: readonly FindingAnswer[];
  readonly shared: readonly string[];
  readonly own: readonly (readonly string[])[];
}

const OfChannel = ({ channel, findings, shared, own }: OfChannelParts): ReactElement => {
  const gas = shortGas(channel.gas) ?? channel.name;
  return (
    <section className="grounds-of">
      <h3>
        <Marked text={`${gas}${shared.length > 0 ? ": all its findings rest on" : ""}`} />
      </h3>
      <Lines lines={shared} />
      {findings.map((finding, at) => (
        <div key={finding.id} className="finding-grounds">
          <h4>
            <Marked text={findingSentence(finding)} />
          </h4>
          <p>
            <Marked text={(own[at] ?? []).map(closed).join(" ")} />
          </p>
        </div>
      ))}
    </section>
  );
};

const methodLine = ({ method }: FindingAnswer): string => `Method “${method.id}”, edition ${method.edition}.`;

/**
 * On paper nothing can be opened: the grounds of every finding follow on a page of their own, each line once where
 * several findings share it. What would decide a finding stands beside it under its panel.
 */
export const PrintedGrounds = ({
  file,
  channels,
}: {
  readonly file: FileAnswer;
  readonly channels: readonly ChannelAnswer[];
}): ReactElement => {
  const found = channels
    .filter(({ findings }) => findings.length > 0)
    .map((channel) => ({ channel, findings: [...channel.findings].sort(byGravity) }));
  const { all, groups } = groundsOnce(found.map(({ findings }) => findings.map((finding) => [...restsOn(finding), methodLine(finding)])));
  return (
    <section className="print-only">
      <h2>Grounds</h2>
      <p className="small">
        {visibleText(file.file)}, SHA-256 <span className="tag hash">{file.sha256}</span>
      </p>
      {all.length > 0 && <h3>Every finding rests on</h3>}
      <Lines lines={all} />
      {found.map(({ channel, findings }, at) => (
        <OfChannel
          key={`${channel.name}/${channel.series?.value ?? ""}/${channel.shift}`}
          channel={channel}
          findings={findings}
          shared={groups[at]?.shared ?? []}
          own={groups[at]?.own ?? []}
        />
      ))}
    </section>
  );
};
