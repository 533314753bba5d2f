import type { ReactElement } from "react";
import { findingFigures, kindName, severityOf, valueText } from "../../report/index.ts";
import type { ChannelAnswer, FindingAnswer } from "../../work/answer.ts";
import { Marked } from "../parts/marked.tsx";
import { OutcomeMark } from "../parts/marks.tsx";
import { GroundsLink } from "./findings-table.tsx";
import { shortGas } from "./gas-names.ts";
import { groundsHash } from "./places.ts";
import { regimeWords } from "./regimes.ts";

const Cell = ({ channel, findings }: { readonly channel: ChannelAnswer; readonly findings: readonly FindingAnswer[] }): ReactElement => {
  if (findings.length === 0) return <td className="quiet">none set</td>;
  return (
    <td>
      {[...findings]
        .sort((a, b) => severityOf(a.outcome) - severityOf(b.outcome))
        .map((finding) => (
          <p key={finding.id} className={finding.outcome === "exceeds" ? "side bad" : "side"}>
            <span className="o">
              <OutcomeMark outcome={finding.outcome} />
              {finding.outcome}
            </span>{" "}
            <Marked
              text={finding.limit.value === null ? kindName(finding.limit.kind, null) : valueText(finding.limit.value, finding.limit.unit)}
            />
            {finding.limit.mark === "memory" && <span className="r"> (memory)</span>}
            <br />
            <GroundsLink hash={groundsHash(channel, finding)} label={`Grounds of ${finding.outcome}, ${finding.limit.regime}`}>
              <span className="r">{finding.limit.value === null ? "grounds" : findingFigures(finding)}</span>
            </GroundsLink>
          </p>
        ))}
    </td>
  );
};

const rowKey = (finding: FindingAnswer): string => kindName(finding.limit.kind, finding.limit.averagingMinutes).replace(/,$/, "");

/** The same readings under each regime: a row for each gas and kind of limit, a column for each regime. */
export const SideBySide = ({ channels }: { readonly channels: readonly ChannelAnswer[] }): ReactElement | null => {
  const regimes = [...new Set(channels.flatMap((channel) => channel.findings.map((finding) => finding.limit.regime)))];
  if (regimes.length < 2) return null;
  const rows = channels.flatMap((channel) => [...new Set(channel.findings.map(rowKey))].map((kind) => ({ channel, kind })));
  return (
    <section>
      <h2>Regimes side by side</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls on its own has to take the focus to be scrolled by keys. */}
      <section className="scroll" aria-label="Regimes side by side" tabIndex={0}>
        <table className="dense sides">
          <thead>
            <tr>
              <th scope="col">Gas and limit</th>
              {regimes.map((regime) => (
                <th scope="col" key={regime} title={regimeWords[regime] ?? regime}>
                  {regime}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ channel, kind }) => (
              <tr key={`${channel.name}/${channel.series?.value ?? ""}/${kind}`}>
                <th scope="row">
                  <Marked text={shortGas(channel.gas) ?? channel.name} />, {kind}
                </th>
                {regimes.map((regime) => (
                  <Cell
                    key={regime}
                    channel={channel}
                    findings={channel.findings.filter((finding) => finding.limit.regime === regime && rowKey(finding) === kind)}
                  />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
};
