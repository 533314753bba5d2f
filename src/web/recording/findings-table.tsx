import { Link, useNavigate } from "@tanstack/react-router";
import { type ReactElement, useState } from "react";
import {
  assumptionSentence,
  byGravity,
  comparedText,
  comparedValue,
  coverageSentence,
  groundSentence,
  loweredWords,
  lowestCounts,
  notComparedSentences,
  partText,
  rangeFigures,
  rangeText,
  shiftRuleName,
  unitText,
  valueText,
  whatWouldDecide,
} from "../../report/index.ts";
import type { ChannelAnswer, FindingAnswer } from "../../work/answer.ts";
import type { Clock } from "../parts/clock.ts";
import { Marked } from "../parts/marked.tsx";
import { OutcomeMark } from "../parts/marks.tsx";
import { extremeOf } from "./extreme-words.ts";
import { shortKind } from "./kind-short.ts";
import { findingsShown } from "./panel-model.ts";
import { groundsHash } from "./places.ts";
import { SpanBar } from "./span-bar.tsx";
import { momentWords, spanWords } from "./span-words.ts";
import type { Standing } from "./standing.ts";

const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const Figures = ({ finding }: { readonly finding: FindingAnswer }): ReactElement => {
  const figures = rangeFigures(finding, comparedValue(finding.limit));
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

/** A best figure that is not written is not drawn either. */
const shownBest = (finding: FindingAnswer): number | null =>
  rangeFigures(finding, comparedValue(finding.limit)).best === null ? null : finding.best;

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

/** Of what no moment may pass: when the greatest reading was. */
const greatestAt = ({ limit }: FindingAnswer, channel: ChannelAnswer, clock: Clock): string | null => {
  if (limit.averagingMinutes !== null || channel.peak === null) return null;
  const at = momentWords(clock, clock.ms(channel.peak.at), channel);
  return channel.peak.atLeast ? `Over range at ${at}.` : `Greatest reading at ${at}.`;
};

const noteOf = (finding: FindingAnswer, channel: ChannelAnswer, clock: Clock): readonly string[] => {
  const window =
    finding.windowStart === null || finding.windowEnd === null || finding.windowStart === finding.windowEnd
      ? null
      : `${spanWords(clock, clock.ms(finding.windowStart), clock.ms(finding.windowEnd))}.`;
  const figure = rangeFigures(finding, comparedValue(finding.limit)).best;
  const best = figure !== null && finding.outcome === "undetermined" ? `Best ${figure}.` : null;
  const parts = finding.parts.map((part) => `${upperFirst(partText(part))}.`);
  const rule = finding.shiftRule === null ? null : `${upperFirst(shiftRuleName(finding.shiftRule))}.`;
  const coverage = finding.coverage < 1 ? coverageSentence(finding.coverage) : null;
  const mark =
    finding.limit.mark === "read" ? null : finding.limit.mark === "memory" ? "Limit from memory." : `Limit: ${finding.limit.mark}.`;
  const lowered = loweredWords(finding.limit);
  return [
    mark,
    lowered === null ? null : `${upperFirst(lowered)}.`,
    best,
    window ?? greatestAt(finding, channel, clock),
    rule,
    ...parts,
    coverage,
    ...statedIn(finding),
  ].filter((part) => part !== null);
};

/** What a person said, and what nobody put a name to, stands beside each outcome that it moved. */
const statedIn = ({ assumptions, grounds }: FindingAnswer): readonly string[] => [
  ...assumptions.filter(({ type }) => type === "unsampled-taken-as" || type === "declared-setting").map(assumptionSentence),
  ...grounds.filter(({ type }) => type === "declaration" || type === "ceiling-as-average").map(groundSentence),
];

const Note = ({ channel, finding, clock, several, declare }: Omit<FindingRowsParts, "folded">): ReactElement => {
  const decide = whatWouldDecide(finding);
  const note = noteOf(finding, channel, clock).join(" ");
  return (
    <>
      {several && `${finding.limit.regime}${note === "" ? "." : ": "}`}
      <Marked text={note} />
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
  /** Not on the screen until asked for; on paper it stands with the others. */
  readonly folded: boolean;
  readonly declare: () => void;
}

const FindingRows = ({ channel, finding, clock, several, folded, declare }: FindingRowsParts): ReactElement => {
  const { limit } = finding;
  const kind = shortKind(limit.kind, limit.averagingMinutes);
  const compared = comparedValue(limit);
  return (
    <tbody className={folded ? "finding folded" : "finding"}>
      <tr>
        <td className={finding.outcome === "exceeds" ? "o bad" : "o"}>
          <OutcomeMark outcome={finding.outcome} />
          {upperFirst(finding.outcome)}
        </td>
        <td className="lim">
          <Marked text={limit.value === null ? kind : `${kind}, ${comparedText(limit)}`} />
        </td>
        <td className="num">
          <GroundsLink hash={groundsHash(channel, finding)} label={`Grounds of ${finding.outcome}, ${limit.regime} ${kind}`}>
            <span>
              {finding.parts.length > 0 ? <span className="v soft">grounds</span> : <Figures finding={finding} />}
              {finding.parts.length === 0 && finding.unit !== limit.unit && <span className="u">{`\u202f${unitText(finding.unit)}`}</span>}
            </span>
          </GroundsLink>
        </td>
        <td className="spancell">
          {/* A rule of several tests has no one figure, and no place against one limit. */}
          {finding.parts.length === 0 && compared !== null && finding.unit === limit.unit && compared > 0 && (
            <SpanBar low={finding.low} best={shownBest(finding)} high={finding.high} limit={compared} outcome={finding.outcome} />
          )}
        </td>
      </tr>
      <tr>
        <td className="note" colSpan={4}>
          <Note channel={channel} finding={finding} clock={clock} several={several} declare={declare} />
        </td>
      </tr>
    </tbody>
  );
};

/** A limit that was not looked at is not a limit that is not there. */
const NotComputed = ({ standing }: { readonly standing: Exclude<Standing, { readonly type: "assessed" }> }): ReactElement => (
  <tbody>
    <tr>
      <td className="quiet wide">{standing.type === "computing" ? "Computing." : <Marked text={`Not computed. ${standing.says}`} />}</td>
    </tr>
  </tbody>
);

const whyNoFinding = (channel: ChannelAnswer, regimes: readonly string[]): string => {
  if (channel.gas === null) return "Its gas is not known, so no limit is set against it.";
  const uncompared = notComparedSentences(channel);
  if (uncompared.length > 0) return uncompared.join(" ");
  return `No exposure limit in ${regimes.length > 2 ? "the regimes chosen" : regimes.join(", ")}.`;
};

/** Of oxygen the lowest stands first; mean and greatest say where it was otherwise. */
const OxygenRest = ({ channel, clock }: Pick<FindingsParts, "channel" | "clock">): ReactElement | null => {
  const { gas, mean, peak, unit } = channel;
  if (!lowestCounts(gas) || peak === null) return null;
  const greatest = `${peak.atLeast ? "at least " : ""}${valueText(peak.value, unit)} at ${momentWords(clock, clock.ms(peak.at), channel)}`;
  return (
    <tr>
      <td className="note" colSpan={2}>
        <Marked text={`Mean of the sampled time ${rangeText(mean, null, unit)}. Greatest reading ${greatest}.`} />
      </td>
    </tr>
  );
};

const NoLimit = ({ id, channel, clock, regimes }: Omit<FindingsParts, "standing" | "declare">): ReactElement => {
  const extreme = extremeOf(channel, clock);
  return (
    <tbody>
      <tr>
        <td className="quiet wide">
          {channel.gas === null && (
            <>
              <Link to="/recordings/$id/reading" params={{ id }}>
                Name its gas
              </Link>
              .{" "}
            </>
          )}
          {whyNoFinding(channel, regimes)}
        </td>
        <td className="num">
          {extreme === null ? (
            "not measured"
          ) : (
            <>
              {extreme.before} <span className="v">{valueText(extreme.value, null)}</span>
              <span className="u">{channel.unit === null ? "" : `\u202f${unitText(channel.unit)}`}</span>
              {extreme.after}
            </>
          )}
        </td>
      </tr>
      <OxygenRest channel={channel} clock={clock} />
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

interface FindingsParts {
  readonly id: string;
  readonly channel: ChannelAnswer;
  readonly clock: Clock;
  readonly regimes: readonly string[];
  readonly standing: Standing;
  readonly declare: () => void;
}

const Heads = (): ReactElement => (
  <thead className="hid">
    <tr>
      <th scope="col">Outcome</th>
      <th scope="col">Limit</th>
      <th scope="col">Figure</th>
      <th scope="col">Against the limit</th>
    </tr>
  </thead>
);

/** The findings of one panel, gravest first, each with its mark, its limit, its figures and its place against the limit. */
export const FindingsTable = ({ id, channel, clock, regimes, standing, declare }: FindingsParts): ReactElement => {
  const [all, setAll] = useState(false);
  const findings = [...channel.findings].sort(byGravity);
  const folded = findings.slice(findingsShown);
  const several = new Set(findings.map((finding) => finding.limit.regime)).size > 1 || regimes.length !== 1;
  if (findings.length === 0) {
    return (
      <table className="find-t none">
        {standing.type === "assessed" ? (
          <NoLimit id={id} channel={channel} clock={clock} regimes={regimes} />
        ) : (
          <NotComputed standing={standing} />
        )}
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
      <Heads />
      {findings.map((finding, place) => (
        <FindingRows
          key={finding.id}
          channel={channel}
          finding={finding}
          clock={clock}
          several={several}
          folded={!all && place >= findingsShown}
          declare={declare}
        />
      ))}
      <NotCompared channel={channel} />
      {folded.length > 0 && (
        <tbody className="unfold">
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
