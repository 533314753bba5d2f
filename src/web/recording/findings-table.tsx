import { Link, useNavigate } from "@tanstack/react-router";
import { type ReactElement, useState } from "react";
import {
  coverageSentence,
  notComparedSentences,
  partText,
  rangeFigures,
  shiftRuleName,
  unitText,
  valueText,
  whatWouldDecide,
} from "../../report/index.ts";
import type { ChannelAnswer, FindingAnswer } from "../../work/answer.ts";
import type { Clock } from "../parts/clock.ts";
import { Marked } from "../parts/marked.tsx";
import { OutcomeMark } from "../parts/marks.tsx";
import { shortKind } from "./kind-short.ts";
import { findingsShown } from "./panel-model.ts";
import { groundsHash } from "./places.ts";
import { SpanBar } from "./span-bar.tsx";

const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const Figures = ({ finding }: { readonly finding: FindingAnswer }): ReactElement => {
  const figures = rangeFigures(finding, finding.limit.value);
  if (figures.high === null) {
    return (
      <span className="v soft">
        {figures.low} to <em className="open">open</em>
      </span>
    );
  }
  if (figures.low === figures.high) return <span className={finding.outcome === "undetermined" ? "v soft" : "v"}>{figures.low}</span>;
  const bounds = `${figures.low} to ${figures.high}`;
  if (finding.outcome === "undetermined" || figures.best === null) return <span className="v soft">{bounds}</span>;
  return (
    <>
      <span className="v">{figures.best}</span> <span className="r">{bounds}</span>
    </>
  );
};

/** A figure that opens its grounds: by press, by Enter, and by g while it has the focus. */
export const GroundsLink = ({
  hash,
  children,
  label,
}: {
  readonly hash: string;
  readonly children: ReactElement;
  readonly label: string;
}): ReactElement => {
  const navigate = useNavigate();
  const open = (): void => void navigate({ to: ".", hash });
  return (
    <a
      className="g"
      href={`#${hash}`}
      onClick={(event) => {
        event.preventDefault();
        event.currentTarget.focus();
        open();
      }}
      onKeyDown={(event) => {
        if (event.key === "g") open();
      }}
    >
      {children}
      <span className="hid"> {label}</span>
    </a>
  );
};

const noteOf = (finding: FindingAnswer, clock: Clock): readonly string[] => {
  const window =
    finding.windowStart === null || finding.windowEnd === null || finding.windowStart === finding.windowEnd
      ? null
      : `${clock.time(clock.ms(finding.windowStart))} to ${clock.time(clock.ms(finding.windowEnd))}.`;
  const best =
    finding.best !== null && finding.outcome === "undetermined" ? `Best ${rangeFigures(finding, finding.limit.value).best}.` : null;
  const parts = finding.parts.map((part) => `${upperFirst(partText(part))}.`);
  const rule = finding.shiftRule === null ? null : `${upperFirst(shiftRuleName(finding.shiftRule))}.`;
  const coverage = finding.coverage < 1 ? coverageSentence(finding.coverage) : null;
  const mark =
    finding.limit.mark === "read" ? null : finding.limit.mark === "memory" ? "Limit from memory." : `Limit: ${finding.limit.mark}.`;
  return [mark, best, window, rule, ...parts, coverage].filter((part) => part !== null);
};

const Note = ({ finding, clock, several, declare }: Omit<FindingRowsParts, "channel">): ReactElement => {
  const decide = whatWouldDecide(finding);
  return (
    <>
      {several && `${finding.limit.regime}: `}
      <Marked text={noteOf(finding, clock).join(" ")} />
      {decide.length > 0 && (
        <>
          {" "}
          <b>What would decide it:</b> <Marked text={decide.join(" And: ")} />{" "}
          {finding.undecidedBy.some((one) => one.type === "unsampled-time" || one.type === "over-range") && (
            <button type="button" className="word todo" onClick={declare}>
              Declare it
            </button>
          )}
        </>
      )}
    </>
  );
};

interface FindingRowsParts {
  readonly channel: ChannelAnswer;
  readonly finding: FindingAnswer;
  readonly clock: Clock;
  readonly several: boolean;
  readonly declare: () => void;
}

const FindingRows = ({ channel, finding, clock, several, declare }: FindingRowsParts): ReactElement => {
  const { limit } = finding;
  const kind = shortKind(limit.kind, limit.averagingMinutes);
  return (
    <tbody>
      <tr>
        <td className={finding.outcome === "exceeds" ? "o bad" : "o"}>
          <OutcomeMark outcome={finding.outcome} />
          {upperFirst(finding.outcome)}
        </td>
        <td className="lim">
          <Marked text={limit.value === null ? kind : `${kind}, ${valueText(limit.value, limit.unit)}`} />
        </td>
        <td className="num">
          <GroundsLink hash={groundsHash(channel, finding)} label={`Grounds of ${finding.outcome}, ${limit.regime} ${kind}`}>
            <span>
              {finding.parts.length > 0 && finding.limit.value === null ? (
                <span className="v soft">grounds</span>
              ) : (
                <Figures finding={finding} />
              )}
              {finding.unit !== limit.unit && <span className="u">{`\u202f${unitText(finding.unit)}`}</span>}
            </span>
          </GroundsLink>
        </td>
        <td className="spancell">
          {limit.value !== null && finding.unit === limit.unit && limit.value > 0 && (
            <SpanBar low={finding.low} best={finding.best} high={finding.high} limit={limit.value} outcome={finding.outcome} />
          )}
        </td>
      </tr>
      <tr>
        <td className="note" colSpan={4}>
          <Note finding={finding} clock={clock} several={several} declare={declare} />
        </td>
      </tr>
    </tbody>
  );
};

const NoLimit = ({
  id,
  channel,
  clock,
  regimes,
}: {
  readonly id: string;
  readonly channel: ChannelAnswer;
  readonly clock: Clock;
  readonly regimes: readonly string[];
}): ReactElement => {
  const uncompared = notComparedSentences(channel);
  const extreme = channel.gas === "oxygen" ? channel.lowest : channel.peak;
  const word = channel.gas === "oxygen" ? "lowest" : "peak";
  return (
    <tbody>
      <tr>
        <td className="quiet wide">
          {channel.gas === null && (
            <Link to="/recordings/$id/reading" params={{ id }}>
              Name its gas
            </Link>
          )}
          {channel.gas === null ? ". " : ""}
          {channel.gas === null
            ? "Its gas is not known, so no limit is set against it"
            : uncompared.length > 0
              ? uncompared.join(" ")
              : `No exposure limit in ${regimes.length > 2 ? "the regimes chosen" : regimes.join(", ")}`}
        </td>
        <td className="num">
          {extreme === null ? (
            "not measured"
          ) : (
            <>
              {word} {channel.gas !== "oxygen" && channel.peak?.atLeast === true && "at least "}
              <span className="v">{valueText(extreme.value, null)}</span>
              <span className="u">{channel.unit === null ? "" : `\u202f${unitText(channel.unit)}`}</span> at{" "}
              {clock.time(clock.ms(extreme.at))}
            </>
          )}
        </td>
      </tr>
    </tbody>
  );
};

const countedOutcomes = (findings: readonly FindingAnswer[]): string =>
  [...new Set(findings.map((finding) => finding.outcome))]
    .map((outcome) => `${findings.filter((finding) => finding.outcome === outcome).length} ${outcome}`)
    .join(", ");

/** Under the findings: the limits and regimes that none of them speaks of, each with its reason. */
const NotCompared = ({ channel }: { readonly channel: ChannelAnswer }): ReactElement | null => {
  const sentences = notComparedSentences(channel);
  if (sentences.length === 0) return null;
  return (
    <tbody>
      <tr>
        <td className="note" colSpan={4}>
          <Marked text={sentences.join(" ")} />
        </td>
      </tr>
    </tbody>
  );
};

/** The findings of one panel, gravest first, each with its mark, its limit, its figures and its place against the limit. */
export const FindingsTable = ({
  id,
  channel,
  clock,
  regimes,
  declare,
}: {
  readonly id: string;
  readonly channel: ChannelAnswer;
  readonly clock: Clock;
  readonly regimes: readonly string[];
  readonly declare: () => void;
}): ReactElement => {
  const [all, setAll] = useState(false);
  const folded = channel.findings.slice(findingsShown);
  const several = new Set(channel.findings.map((finding) => finding.limit.regime)).size > 1 || regimes.length !== 1;
  if (channel.findings.length === 0) {
    return (
      <table className="find-t none">
        <NoLimit id={id} channel={channel} clock={clock} regimes={regimes} />
      </table>
    );
  }
  return (
    <table className="find-t">
      <colgroup>
        <col className="c1" />
        <col />
        <col className="c3" />
        <col className="c4" />
      </colgroup>
      <thead className="hid">
        <tr>
          <th scope="col">Outcome</th>
          <th scope="col">Limit</th>
          <th scope="col">Figure</th>
          <th scope="col">Against the limit</th>
        </tr>
      </thead>
      {(all ? channel.findings : channel.findings.slice(0, findingsShown)).map((finding) => (
        <FindingRows key={finding.id} channel={channel} finding={finding} clock={clock} several={several} declare={declare} />
      ))}
      <NotCompared channel={channel} />
      {folded.length > 0 && (
        <tbody>
          <tr>
            <td className="note fold" colSpan={4}>
              <button type="button" className="word" aria-expanded={all} onClick={() => setAll(!all)}>
                {all ? "Show fewer" : `Show ${folded.length} more: ${countedOutcomes(folded)}`}
              </button>
            </td>
          </tr>
        </tbody>
      )}
    </table>
  );
};
