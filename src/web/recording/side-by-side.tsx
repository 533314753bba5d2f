import { type ReactElement, useState } from "react";
import { findingFigures, kindName, limitFigure, severityOf } from "../../report/index.ts";
import type { ChannelAnswer, LimitAnswer } from "../../work/answer.ts";
import { Marked } from "../parts/marked.tsx";
import { OutcomeMark } from "../parts/marks.tsx";
import { GroundsLink } from "./findings-table.tsx";
import { shortGas } from "./gas-names.ts";
import { groundsHash } from "./places.ts";
import { regimeWords } from "./regimes.ts";

interface CellParts {
  readonly channel: ChannelAnswer;
  readonly regime: string;
  readonly kind: string;
}

const Cell = ({ channel, regime, kind }: CellParts): ReactElement => {
  const findings = channel.findings.filter((finding) => finding.limit.regime === regime && kindOf(finding.limit) === kind);
  if (findings.length === 0)
    return (
      <td className="quiet" data-regime={regime}>
        {withoutFinding({ channel, regime, kind })}
      </td>
    );
  return (
    <td data-regime={regime}>
      {[...findings]
        .sort((a, b) => severityOf(a.outcome) - severityOf(b.outcome))
        .map((finding) => (
          <p key={finding.id} className={finding.outcome === "exceeds" ? "side bad" : "side"}>
            <span className="o">
              <OutcomeMark outcome={finding.outcome} />
              {finding.outcome}
            </span>{" "}
            <Marked text={finding.limit.value === null ? kindName(finding.limit.kind, null) : limitFigure(finding.limit)} />
            {finding.limit.mark === "memory" && <span className="r"> (memory)</span>}
            <br />{" "}
            <GroundsLink hash={groundsHash(channel, finding)} label={`Grounds of ${finding.outcome}, ${finding.limit.regime}`}>
              <span className="r">{finding.parts.length > 0 ? "grounds" : findingFigures(finding)}</span>
            </GroundsLink>
          </p>
        ))}
    </td>
  );
};

const kindOf = ({ kind, averagingMinutes }: LimitAnswer): string => kindName(kind, averagingMinutes);

/** "Not covered" and "not compared" are not "none set". */
const withoutFinding = ({ channel, regime, kind }: CellParts): string => {
  const reasons = channel.notCompared.filter((one) => one.regime === regime);
  if (reasons.some(({ why }) => why === "not covered")) return "not covered";
  return reasons.some(({ limit }) => limit !== null && kindOf(limit) === kind) ? "not compared" : "none set";
};

/** The same readings under each regime: a row for each gas and kind of limit, a column for each regime. */
export const SideBySide = ({ channels }: { readonly channels: readonly ChannelAnswer[] }): ReactElement | null => {
  const [open, setOpen] = useState(false);
  const regimes = [...new Set(channels.flatMap((channel) => channel.findings.map((finding) => finding.limit.regime)))];
  if (regimes.length < 2) return null;
  const rows = channels.flatMap((channel) =>
    [...new Set(channel.findings.map(({ limit }) => kindOf(limit)))].map((kind) => ({ channel, kind })),
  );
  return (
    <section>
      <h2>Regimes side by side</h2>
      <p className="unfold-phone">
        <button type="button" className="word" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? "Fold it" : `Show ${regimes.length} regimes under each of ${rows.length} limits`}
        </button>
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls on its own has to take the focus to be scrolled by keys. */}
      <section className={open ? "scroll" : "scroll folded"} aria-label="Regimes side by side" tabIndex={0}>
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
                  <Cell key={regime} channel={channel} regime={regime} kind={kind} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
};
