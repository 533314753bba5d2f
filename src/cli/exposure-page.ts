/** The answer as a page of plain text: the answer sentence first, then each channel, then faults, questions and sources. */

import type { Range } from "../core/finding.ts";
import {
  asksForShift,
  assumptionSentence,
  byGravity,
  channelSentence,
  choiceText,
  clockTexts,
  computedText,
  counted,
  countText,
  coverageWords,
  durationText,
  exactText,
  findingFigures,
  freeAnswerForm,
  gasWords,
  groundSentence,
  guessSentence,
  limitName,
  lowestCounts,
  NAME_THE_SHIFT,
  notComparedSentences,
  partText,
  percentText,
  questionSentence,
  rangeText,
  type ShownUnit,
  shiftRuleName,
  shownUnit,
  sourceLine,
  spanText,
  valueText,
  whatWouldDecide,
  withUnit,
  withVisibleTexts,
} from "../report/index.ts";
import type { ChannelAnswer, EpisodeAnswer, FileAnswer, FindingAnswer } from "../work/answer.ts";
import { wrapped } from "./help.ts";
import { textTable } from "./text-table.ts";

/** Lines of prose break here; tables are as wide as they need to be. */
const WIDTH = 100;
/** Faults and notes beyond these are counted, and the JSON has them all. */
const SHOWN_FAULTS = 12;

export interface PageStyle {
  readonly colour: boolean;
}

export function exposurePage(asComputed: FileAnswer, style: PageStyle): string {
  const answer = withVisibleTexts(asComputed);
  const lines = [
    heavy(answer.file, style),
    ...answerLines(answer, style),
    ...answer.channels.flatMap((channel) => channelLines(channel, answer, style)),
    ...questionLines(answer),
    ...faultLines(answer),
    ...readingLines(answer),
    ...sourceLines(answer),
  ];
  return `${lines.join("\n")}\n`;
}

function answerLines(answer: FileAnswer, style: PageStyle): string[] {
  if (answer.refusal !== null) return [...prose(`Not answered. ${answer.refusal.message}`, "  "), ...prose(answer.refusal.mend, "  ")];
  const gravest = [...answer.channels].sort(byGravestFinding);
  return gravest.flatMap((channel) =>
    prose(`${channelSentence({ ...channel, name: channelName(channel, answer) })}${gasHint(channel)}`, "  ", (text) => marked(text, style)),
  );
}

function gasHint(channel: ChannelAnswer): string {
  // A name with control characters cannot be typed; the hint must be one that can.
  const name = channel.name.includes("\\x") || channel.name.includes("\\u") ? "*" : channel.name;
  return channel.gas === null ? ` Name it with --gas '${name}=GAS'.` : "";
}

/** The channel whose gravest finding is gravest first; one that is set against no limit last. */
function byGravestFinding(one: ChannelAnswer, other: ChannelAnswer): number {
  const [first, second] = [one, other].map(({ findings }) => [...findings].sort(byGravity)[0]);
  if (first === undefined || second === undefined) return Number(first === undefined) - Number(second === undefined);
  return byGravity(first, second);
}

function channelName(channel: ChannelAnswer, answer: FileAnswer): string {
  const series = channel.series === null ? "" : `, ${channel.series.label} ${channel.series.value}`;
  const shift = answer.shifts.length > 1 ? `, shift ${channel.shift + 1}` : "";
  return `${channel.name}${series}${shift}`;
}

function channelLines(channel: ChannelAnswer, answer: FileAnswer, style: PageStyle): string[] {
  const gas = channel.gas === null ? "" : `, ${gasWords(channel.gas)}`;
  return [
    "",
    heavy(`${channelName(channel, answer)}${gas}`, style),
    ...prose(spanSentence(channel, answer), "  "),
    ...textTable(figureRows(channel, answer), "  "),
    ...findingLines(channel, answer, style),
    ...episodeLines(channel, answer),
  ];
}

function spanSentence(channel: ChannelAnswer, answer: FileAnswer): string {
  const date = clockTexts(channel.start, answer.zone).date;
  const zone = answer.timeBasis === "elapsed" ? "from the start of the recording" : (answer.zone ?? "UTC");
  const span = spanText(channel.start, channel.end, answer.zone);
  const day = date === null || span.includes(date) ? "" : `${date}, `;
  return `${counted(channel.samples, "reading")}, ${day}${span} (${zone}), sampled time ${durationText(channel.sampledSeconds)}.`;
}

function figureRows(channel: ChannelAnswer, answer: FileAnswer): string[][] {
  const { mean, peak, lowest } = channel;
  const { unit, inUnit } = shownOf(channel);
  const ranged = (range: Range): string =>
    rangeText({ low: inUnit(range.low), best: changed(range.best, inUnit), high: changed(range.high, inUnit) }, null, unit);
  const reading = (value: number): string => valueText(inUnit(value), unit);
  const averages = [["mean of the sampled time", ranged(mean), ""], ...doseRows(channel, answer, ranged)];
  const greatest =
    peak === null
      ? []
      : [
          [
            "greatest reading",
            `${peak.atLeast ? "at least " : ""}${reading(peak.value)}`,
            `${peak.atLeast ? "over range " : ""}at ${clockTexts(peak.at, answer.zone).clock}`,
          ],
        ];
  const least =
    lowest === null
      ? []
      : [
          [
            "lowest reading",
            `${lowest.atMost ? "at most " : ""}${reading(lowest.value)}`,
            `at ${clockTexts(lowest.at, answer.zone).clock}`,
          ],
        ];
  return isLowestFirst(channel) ? [...least, ...averages, ...greatest] : [...averages, ...greatest, ...least];
}

const isLowestFirst = ({ gas }: ChannelAnswer): boolean => lowestCounts(gas);

function doseRows({ twa8h, stel }: ChannelAnswer, answer: FileAnswer, ranged: (range: Range) => string): string[][] {
  // Of what has no dose the answer holds none.
  if (twa8h === null || stel === null) return [];
  return [
    ["average over 8 h", ranged(twa8h), ""],
    [`greatest ${withUnit(String(stel.windowMinutes), "min")} average`, ranged(stel), windowText(stel, answer)],
  ];
}

function shownOf({ unit, peak }: ChannelAnswer): ShownUnit {
  return shownUnit(unit, peak?.value ?? 0);
}

const changed = (value: number | null, change: (value: number) => number): number | null => (value === null ? null : change(value));

function windowText(stel: NonNullable<ChannelAnswer["stel"]>, answer: FileAnswer): string {
  const measured = stel.coverage >= 1 ? "" : `, ${percentText(stel.coverage)} measured`;
  return `${spanText(stel.windowStart, stel.windowEnd, answer.zone)}${measured}`;
}

function findingLines(channel: ChannelAnswer, answer: FileAnswer, style: PageStyle): string[] {
  // Where there is no finding at all the answer sentence says why.
  if (channel.findings.length === 0) return [];
  const uncompared = notComparedSentences(channel).flatMap((sentence) => prose(sentence, "  "));
  const sorted = [...channel.findings].sort(byGravity);
  return ["", ...sorted.flatMap((finding) => oneFinding(finding, answer, style)), ...shiftLines(sorted), ...uncompared];
}

/** The shift decides them all, so it is asked for once. */
function shiftLines(findings: readonly FindingAnswer[]): string[] {
  const waiting = findings.filter(asksForShift).length;
  if (waiting === 0) return [];
  const which = waiting === 1 ? "the one" : `the ${countText(waiting)}`;
  return prose(`What would decide ${which} undetermined for want of it: ${NAME_THE_SHIFT} The flag is --shift FROM/TO.`, "  ");
}

function oneFinding(finding: FindingAnswer, answer: FileAnswer, style: PageStyle): string[] {
  const figures = finding.parts.length > 0 ? finding.parts.map(partText) : [findingFigures(finding)];
  const window =
    finding.windowStart === null || finding.windowEnd === null ? [] : [windowWords(finding.windowStart, finding.windowEnd, answer)];
  const rule = finding.shiftRule === null ? [] : [shiftRuleName(finding.shiftRule)];
  const covered = finding.coverage >= 1 ? [] : [coverageWords(finding.coverage)];
  const head = `${finding.outcome.padEnd(12)}  ${limitName(finding.limit)}`;
  return [
    `  ${finding.outcome === "exceeds" ? marked(head, style) : head}`,
    ...prose(`${[...figures, ...window, ...rule, ...covered].join("; ")}.`, "                "),
    ...finding.grounds
      .filter(({ type }) => type === "ceiling-as-average")
      .flatMap((ground) => prose(groundSentence(ground), "                ")),
    ...spokenFor(finding).flatMap((sentence) => prose(`Rests on: ${sentence}`, "                ")),
    ...whatWouldDecide(finding)
      .filter((sentence) => sentence !== NAME_THE_SHIFT || !asksForShift(finding))
      .flatMap((sentence) => prose(`What would decide it: ${sentence}`, "                ")),
    ...flagHints(finding).flatMap((sentence) => prose(sentence, "                ")),
  ];
}

/** What a person said stands beside every verdict that rests on it, not in a list far below. */
function spokenFor({ assumptions }: FindingAnswer): readonly string[] {
  return assumptions.filter(({ type }) => type === "unsampled-taken-as" || type === "declared-setting").map(assumptionSentence);
}

/** The flag for the one act that would decide it. */
function flagHints(finding: FindingAnswer): readonly string[] {
  return finding.undecidedBy.flatMap(({ type }) => {
    if (type === "measurable-threshold-not-declared") return ["The flag is --measurable GAS=VALUE."];
    if (type === "interval-average-hides-peaks") return ["The flag is --means-stand-for-ceilings."];
    return [];
  });
}

function windowWords(from: string, to: string, answer: FileAnswer): string {
  return from === to ? `at ${clockTexts(from, answer.zone).clock}` : spanText(from, to, answer.zone);
}

function episodeLines(channel: ChannelAnswer, answer: FileAnswer): string[] {
  if (channel.episodes.length === 0) return [];
  const rows = channel.episodes.slice(0, SHOWN_FAULTS).map((episode) => episodeRow(episode, channel, answer));
  return ["", "  Episodes above a limit", ...textTable(rows, "    "), ...more(channel.episodes.length - SHOWN_FAULTS, "    ", "episodes")];
}

function episodeRow(episode: EpisodeAnswer, channel: ChannelAnswer, answer: FileAnswer): string[] {
  const { unit, inUnit } = shownOf(channel);
  const limit = channel.findings.find((finding) => finding.limit.id === episode.limit)?.limit;
  const name = limit === undefined ? episode.limit : limitName(limit);
  const long = `${durationText(episode.seconds)}${episode.openEnd ? " or longer" : ""}`;
  return [
    name,
    spanText(episode.start, episode.end, answer.zone),
    long,
    `greatest ${episode.atLeast ? "at least " : ""}${computedText(inUnit(episode.peak), unit)}`,
  ];
}

function questionLines(answer: FileAnswer): string[] {
  if (answer.questions.length === 0) return [];
  const open = answer.questions.flatMap((question) => {
    const choices = question.choices.length > 0 ? question.choices.map(choiceText) : [freeAnswerForm(question.topic)];
    const suggested = question.suggested === null ? "" : ` Suggested: ${question.suggested}.`;
    return [
      ...prose(`${questionSentence(question)}${suggested}`, "    "),
      ...choices.map((choice) => `      - ${choice}`),
      `      --answer '${question.id}=${question.suggested ?? question.choices[0]?.value ?? "…"}'`,
    ];
  });
  return ["", "  Questions", ...open];
}

function faultLines(answer: FileAnswer): string[] {
  const further = Object.values(answer.moreFaults).reduce((sum, count) => sum + count, 0);
  const shown = answer.faults.slice(0, SHOWN_FAULTS);
  const notes = answer.notes.filter(({ line }) => line === null).flatMap(({ text }) => prose(text, "    "));
  return [
    ...(shown.length === 0
      ? []
      : [
          "",
          answer.faults.some(({ provisional }) => provisional)
            ? "  Lines that need a look, going by what is known before the answers"
            : "  Lines that need a look",
          ...shown.flatMap(({ message }) => prose(message, "    ")),
        ]),
    ...more(answer.faults.length + further - shown.length, "    ", "faults"),
    ...(notes.length === 0 ? [] : ["", "  About the file", ...notes]),
  ];
}

function readingLines(answer: FileAnswer): string[] {
  if (answer.lines === null) return [];
  const { lines, rows, rejected, skipped, header } = answer.lines;
  const count = `${counted(lines, "line")} read: ${counted(rows, "row")} taken, ${countText(header)} of the heading, ${countText(rejected)} rejected, ${countText(skipped)} skipped.`;
  const guesses = answer.guesses.filter(({ sureness }) => sureness !== "certain").map((guess) => `    ${guessSentence(guess)}`);
  return ["", ...prose(count, "  "), ...(guesses.length > 0 ? ["  Taken without asking"] : []), ...guesses];
}

/** Grounds that the page says in other places, or that say nothing that a reader looks for there. */
const ELSEWHERE: ReadonlySet<string> = new Set(["readings", "file", "divisor", "limit-edition", "ceiling-as-average"]);

/** Every limit, assumption and ground once, however many findings rest on it. */
function sourceLines(answer: FileAnswer): string[] {
  const findings = answer.channels.flatMap((channel) => channel.findings);
  // What the figures of a channel rest on stands here too where no limit was set beside them.
  const all = [...answer.channels, ...findings];
  const assumptions = unique(all.flatMap((one) => one.assumptions.map(assumptionSentence)));
  const grounds = unique(all.flatMap((one) => one.grounds.filter(({ type }) => !ELSEWHERE.has(type)).map(groundSentence)));
  const sources = unique(findings.map(({ limit }) => `${limit.regime}: ${sourceLine(limit)}`));
  return [
    ...section("Rests on", grounds),
    ...section("Assumed", assumptions),
    ...section("Sources of the limits", sources),
    ...(answer.sha256 === null ? [] : ["", `  SHA-256 of the file ${answer.sha256}, ${countText(answer.bytes)} bytes.`]),
  ];
}

function section(title: string, sentences: readonly string[]): string[] {
  return sentences.length === 0 ? [] : ["", `  ${title}`, ...sentences.flatMap((sentence) => prose(sentence, "    "))];
}

function more(count: number, indent: string, what: string): string[] {
  return count <= 0 ? [] : [`${indent}and ${exactText(count)} more ${what}; --json lists them all.`];
}

function unique(texts: readonly string[]): string[] {
  return [...new Set(texts)];
}

function prose(text: string, indent: string, style: (text: string) => string = (plain) => plain): string[] {
  return wrapped(text, WIDTH - indent.length).map((line) => `${indent}${style(line)}`);
}

const ESCAPE = String.fromCharCode(27);

function heavy(text: string, { colour }: PageStyle): string {
  return colour ? `${ESCAPE}[1m${text}${ESCAPE}[0m` : text;
}

/** The word itself is red, where colour is wanted; the word says it without. */
function marked(text: string, { colour }: PageStyle): string {
  return colour ? text.replace(/\b(exceeds)\b/g, `${ESCAPE}[1;31m$1${ESCAPE}[0m`) : text;
}
