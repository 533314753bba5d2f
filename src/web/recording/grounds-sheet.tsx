import { type ReactElement, useState } from "react";
import {
  assumptionSentence,
  counted,
  coverageSentence,
  findingSentence,
  groundSentence,
  kindName,
  limitFigure,
  partText,
  shiftRuleName,
  sourceLine,
  spanText,
  unitText,
  whatWouldDecide,
} from "../../report/index.ts";
import type { ChannelAnswer, FileAnswer, FindingAnswer } from "../../work/answer.ts";
import { Marked } from "../parts/marked.tsx";
import { OutcomeMark } from "../parts/marks.tsx";
import { Sheet } from "../parts/sheet.tsx";
import { shortGas } from "./gas-names.ts";

const operatorWords: Readonly<Record<string, string>> = {
  ">": "must not be exceeded; exactly this value meets it",
  ">=": "must be less than this; exactly this value does not meet it",
};

const Leaves = ({ lines }: { readonly lines: readonly string[] }): ReactElement => (
  <ul>
    {lines.map((line) => (
      <li key={line}>
        <Marked text={line} />
      </li>
    ))}
  </ul>
);

const readingsOf = (finding: FindingAnswer): readonly string[] =>
  finding.grounds
    .filter((ground) => ground.type !== "limit-edition" && ground.type !== "declaration" && ground.type !== "divisor")
    .map(groundSentence);

/** Whatever a person said: declarations, how unsampled time is taken, settings of the site. */
const isSaid = ({ type }: FindingAnswer["assumptions"][number]): boolean => type === "unsampled-taken-as" || type === "declared-setting";

const declaredOf = (finding: FindingAnswer): readonly string[] => [
  ...finding.grounds.filter((ground) => ground.type === "declaration").map(groundSentence),
  ...finding.assumptions.filter(isSaid).map(assumptionSentence),
];

const assumedOf = (finding: FindingAnswer): readonly string[] =>
  finding.assumptions.filter((assumption) => !isSaid(assumption)).map(assumptionSentence);

const limitOf = (finding: FindingAnswer): readonly string[] => {
  const { limit } = finding;
  const divisor = finding.grounds.filter((ground) => ground.type === "divisor").map(groundSentence);
  return [
    `${limit.regime}, ${kindName(limit.kind, limit.averagingMinutes)}${limit.value === null ? "" : ` ${limitFigure(limit)}`}: ${operatorWords[limit.operator] ?? limit.operator}.`,
    ...divisor,
    ...(finding.shiftRule === null ? [] : [`Averaged as: ${shiftRuleName(finding.shiftRule)}.`]),
    sourceLine(limit),
  ];
};

/** All that one finding rests on, line by line. */
export const restsOn = (finding: FindingAnswer): readonly string[] => [
  ...readingsOf(finding),
  ...declaredOf(finding),
  ...limitOf(finding),
  ...assumedOf(finding),
];

/** The grounds of one finding, line by line, as they are copied. */
const groundLines = (finding: FindingAnswer): readonly string[] => [
  ...restsOn(finding),
  ...whatWouldDecide(finding).map((act) => `What would decide it: ${act}`),
];

const asText = (channel: ChannelAnswer, finding: FindingAnswer): string =>
  [`${shortGas(channel.gas) ?? channel.name}: ${findingSentence(finding)}`, ...groundLines(finding)].join("\n");

const CopyAct = ({ text }: { readonly text: string }): ReactElement => {
  const [said, setSaid] = useState<string | null>(null);
  return (
    <>
      <button
        type="button"
        className="word"
        onClick={() =>
          void navigator.clipboard.writeText(text).then(
            () => setSaid("Copied."),
            () => setSaid("This browser does not let the page copy."),
          )
        }
      >
        Copy
      </button>
      <span role="status">{said === null ? "" : ` ${said}`}</span>
    </>
  );
};

const windowOf = (finding: FindingAnswer, zone: string | null): readonly string[] =>
  finding.windowStart === null || finding.windowEnd === null
    ? []
    : [`Window or instant: ${spanText(finding.windowStart, finding.windowEnd, zone)}.`];

const Tree = ({ file, channel, finding }: Omit<GroundsSheetParts, "onClose">): ReactElement => {
  const decide = whatWouldDecide(finding);
  const declared = declaredOf(finding);
  const assumed = assumedOf(finding);
  return (
    <ul className="tree">
      <li>
        <b>Readings</b> of {channel.name}, {channel.unit === null ? "unit not known" : unitText(channel.unit)}
        <Leaves lines={[...readingsOf(finding), coverageSentence(finding.coverage), ...windowOf(finding, file.zone)]} />
      </li>
      <li>
        <b>Declared</b>
        <Leaves lines={declared.length > 0 ? declared : ["Nothing."]} />
      </li>
      {finding.parts.length > 0 && (
        <li>
          <b>Tests of the rule</b>
          <Leaves lines={finding.parts.map(partText)} />
        </li>
      )}
      <li>
        <b>Limit</b>
        <Leaves lines={limitOf(finding)} />
        {finding.limit.mark !== "read" && (
          <span className="src">Mark: {finding.limit.mark}. Nobody has checked this figure against the published text.</span>
        )}
      </li>
      <li>
        <b>Assumed</b>
        <Leaves lines={assumed.length > 0 ? assumed : ["Nothing beyond the readings."]} />
      </li>
      {decide.length > 0 && (
        <li>
          <b>What would decide it</b>
          <Leaves lines={decide} />
        </li>
      )}
    </ul>
  );
};

interface GroundsSheetParts {
  readonly file: FileAnswer;
  readonly channel: ChannelAnswer;
  readonly finding: FindingAnswer;
  readonly onClose: () => void;
}

/** What one finding rests on. Every leaf ends in a file line, a declaration, or a source with its mark. */
export const GroundsSheet = ({ file, channel, finding, onClose }: GroundsSheetParts): ReactElement => {
  const gas = shortGas(channel.gas) ?? channel.name;
  const kind = kindName(finding.limit.kind, finding.limit.averagingMinutes).replace(/,$/, "");
  return (
    <Sheet
      heading={<Marked text={`Grounds: ${gas}, ${kind}`} />}
      label={`Grounds: ${gas}, ${finding.limit.regime} ${kind}`}
      onClose={onClose}
    >
      <p className={finding.outcome === "exceeds" ? "big bad" : "big"}>
        <OutcomeMark outcome={finding.outcome} /> <Marked text={findingSentence(finding)} strong />
      </p>
      <p className="small quiet">
        Computed, not reviewed. Method “{finding.method.id}”, edition {finding.method.edition}.
      </p>
      <Tree file={file} channel={channel} finding={finding} />
      <h3>What rests on the same file</h3>
      <p className="small">
        {counted(
          file.channels.reduce((sum, one) => sum + one.findings.length, 0),
          "finding",
        )}{" "}
        of {counted(file.channels.length, "channel")}. SHA-256 <span className="tag hash">{file.sha256}</span>
      </p>
      <p className="small sheet-acts">
        <CopyAct text={asText(channel, finding)} />
        <button type="button" className="word" onClick={() => window.print()}>
          Print
        </button>
      </p>
      <p className="small quiet">A finding supports a competent person’s judgement and does not replace it. Local law decides.</p>
    </Sheet>
  );
};
