/** Questions about how the bytes become cells. */
import { type Asking, choice, reason } from "./asking.ts";
import { isOtherEncoding, looksWestern } from "./encoding.ts";
import type { Question } from "./question.ts";

/** Letters: lost ones, line ends, encoding. True where the bytes must be read again. */
export function aboutLetters(asking: Asking): boolean {
  const { encoding, highBytes, lostCharacters, lineEnds } = asking.evidence;
  const lastSeen = { line: lostCharacters.line, text: lostCharacters.text };
  if (lostCharacters.count > 0)
    asking.ask({
      id: "lost character",
      topic: "lost character",
      samples: [lastSeen],
      choices: [choice("go on", reason("U+FFFD: the letter was lost before this file was written", lastSeen.line))],
      suggested: "go on",
    });
  const kinds = Object.entries(lineEnds)
    .filter(([, count]) => count > 0)
    .map(([kind]) => kind);
  if (kinds.length > 1 || lineEnds.crcrlf > 0)
    asking.note("line ends", null, kinds.join(" and "), "certain", [
      reason(lineEnds.crcrlf > 0 ? "CR CR LF: line ends were turned twice" : "line ends differ"),
    ]);
  const isOther = isOtherEncoding(highBytes);
  if (!isOther && encoding.sureness === "certain") {
    if (encoding.encoding !== "utf-8") asking.note("encoding", null, encoding.encoding, "certain", [reason(encoding.reason)]);
    return false;
  }
  const western = isOther && looksWestern(highBytes);
  const suggested = isOther ? (western ? "windows-1252" : null) : encoding.sureness === "strong" ? encoding.encoding : null;
  const answer = asking.ask({
    id: "encoding",
    topic: "encoding",
    samples: highBytes.firstLine === 0 ? sampleLines(asking).slice(0, 1) : [{ line: highBytes.firstLine, text: highBytes.firstText }],
    choices: [],
    suggested,
  });
  return answer !== null && answer.toLowerCase() !== encoding.encoding.toLowerCase();
}

/** Delimiter, quotes, stray lines, heading. True where the bytes must be read again. */
export function aboutBuild(asking: Asking): boolean {
  const { structure, quoteFaults, given: before } = asking.evidence;
  const { dialect } = structure;
  let again = answered(asking, "delimiter") !== null && answered(asking, "delimiter") !== dialect.delimiter;
  asking.note("delimiter", null, dialect.delimiter, structure.delimiterReason === "sep line" ? "certain" : "strong", [
    reason(structure.delimiterReason, structure.sepLine),
  ]);
  if (dialect.wrapped) {
    const answer = asking.ask({
      id: "wrapped lines",
      topic: "wrapped lines",
      samples: sampleLines(asking),
      choices: [choice("yes", reason("every line is one quoted cell that holds the delimiter")), choice("no")],
      suggested: "yes",
    });
    again ||= answer === "no";
  }
  if (dialect.quoteInside === "backslash")
    asking.note("quotes", null, "backslash", "strong", [reason("backslash before every quote inside a cell")]);
  if (dialect.quoteInside === "lenient") {
    const answer = asking.ask({
      id: "quotes",
      topic: "quotes",
      samples: sampleLines(asking),
      choices: [
        choice("lenient", reason("quotes inside quoted cells are not doubled in every row"), reason(`${quoteFaults} rows`)),
        choice("strict", reason("the rows are rejected")),
      ],
      suggested: "lenient",
    });
    again ||= answer === "strict";
  }
  if (structure.strayLines.length > 0)
    asking.ask({
      id: "stray lines",
      topic: "stray lines",
      samples: structure.strayLines,
      choices: [choice("leave out", reason("neither comment nor table"))],
      suggested: "leave out",
    });
  if (structure.headerLines.length === 0)
    asking.ask({ id: "header", topic: "header", samples: sampleLines(asking), choices: [], suggested: null });
  return (
    again ||
    (answered(asking, "header") !== null &&
      before["header"] === undefined &&
      structure.headerLines.length > 0 &&
      answered(asking, "header") === "none")
  );
}

const answered = (asking: Asking, id: string): string | null => asking.answers[id] ?? null;

const sampleLines = (asking: Asking): Question["samples"] =>
  asking.evidence.first.slice(0, 3).map(({ line, cells }) => ({ line, text: cells.join(" | ") }));
