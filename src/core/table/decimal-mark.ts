/** Decimal and group marks: a silent factor of ten, so they are asked about as soon as anything but a plain point stands in the file. */
import { type Asking, choice, reason } from "./asking.ts";
import type { ColumnEvidence, Sighting } from "./evidence.ts";
import type { ColumnMapping } from "./mapping.ts";
import type { NumberForm } from "./number-text.ts";

export type Marks = Pick<ColumnMapping, "decimalMark" | "groupMark">;

interface MarkFinding {
  /** Null: both are possible. "either" is only answered by a person. */
  readonly decimal: "." | "," | null;
  readonly suggested: "." | "," | null;
  readonly group: ColumnMapping["groupMark"];
  /** True where a person must say yes. */
  readonly asksDecimal: boolean;
  readonly asksGroup: boolean;
  readonly samples: readonly { readonly line: number; readonly text: string }[];
  readonly reasons: readonly string[];
}

const THREE_AFTER_COMMA = "three digits after the comma";
const POINT_SAYS: readonly NumberForm[] = ["point", "commas then point", "spaced point"];
const COMMA_SAYS: readonly NumberForm[] = ["comma", "points then comma", "spaced comma"];

export function findMarks(column: ColumnEvidence): MarkFinding {
  const has = (form: NumberForm): boolean => column.forms.has(form);
  const point = POINT_SAYS.some(has);
  const comma = COMMA_SAYS.some(has);
  const commaGroups = has("comma groups") || has("commas then point");
  const pointGroups = has("point groups") || has("points then comma");
  const samples = [...column.forms.entries()].filter(([form]) => form !== "whole").map(([, { line, text }]) => ({ line, text }));
  const spaced = has("spaced") || has("spaced comma") || has("spaced point");
  const plainGroup = spaced ? " " : has("apostrophes") ? "'" : null;
  const found = (part: Partial<MarkFinding>): MarkFinding => ({
    decimal: ".",
    suggested: null,
    group: plainGroup,
    asksDecimal: false,
    asksGroup: false,
    samples,
    reasons: [],
    ...part,
  });
  if ((point || commaGroups) && (comma || pointGroups))
    return found({ decimal: null, asksDecimal: true, reasons: ["both marks in one column"] });
  if (comma && has("point three") && !pointGroups)
    return found({ decimal: null, asksDecimal: true, reasons: ["both marks in one column"] });
  if (comma || pointGroups)
    return found({
      decimal: ",",
      suggested: ",",
      group: pointGroups || has("point three") ? "." : plainGroup,
      asksDecimal: true,
      reasons: ["comma followed by other than three digits"],
    });
  if (point && has("comma three"))
    return found({ group: ",", asksGroup: true, suggested: ".", reasons: ["comma before every three digits, point at the end"] });
  if (commaGroups) return found({ group: ",", asksGroup: true, suggested: ".", reasons: ["comma before every three digits"] });
  if (has("comma three")) return found({ decimal: null, asksDecimal: true, reasons: [THREE_AFTER_COMMA] });
  if (has("point three") && !point && has("whole") && greatWholes(column))
    return found({ decimal: null, suggested: ".", asksDecimal: true, reasons: ["three digits after every point"] });
  return found({ suggested: point || has("point three") ? "." : null });
}

/** Hundreds beside "1.050": a point that groups thousands looks just so. */
const greatWholes = (column: ColumnEvidence): boolean => {
  const whole = column.forms.get("whole") as Sighting | undefined;
  return whole !== undefined && /[1-9]\d\d/.test(whole.text);
};

/** The marks of each number column, asked for where they are not plain. */
export function marksOf(
  asking: Asking,
  columns: readonly { readonly id: string; readonly evidence: ColumnEvidence }[],
): Map<string, Marks> {
  const findings = columns.map((column) => ({ ...column, finding: findMarks(column.evidence) }));
  const anyComma = findings.some(({ finding }) => finding.decimal === "," || finding.decimal === null);
  const anyPoint = findings.some(({ finding }) => finding.decimal === "." && finding.suggested === ".");
  // One column with "77,7" says for the others what "26,951" means, as long as no point speaks against it.
  const settled = findings.filter(({ finding }) => finding.decimal === ",");
  const goesAlong = (finding: MarkFinding): boolean =>
    finding.decimal === "," || (finding.decimal === "." && finding.suggested === null) || finding.reasons.includes(THREE_AFTER_COMMA);
  const allAgree = settled.length > 0 && !anyPoint && findings.every(({ finding }) => goesAlong(finding));
  const shared = allAgree
    ? askDecimal(
        asking,
        "*",
        null,
        settled.map(({ finding }) => finding),
      )
    : null;
  const marks = new Map<string, Marks>();
  for (const { id, finding } of findings)
    marks.set(id, allAgree ? sharedMarks(shared ?? ",", finding) : ownMarks(asking, id, finding, anyComma));
  return marks;
}

/** A point said by a person over commas makes the commas groups. */
const sharedMarks = (mark: "." | ",", finding: MarkFinding): Marks =>
  mark === ","
    ? { decimalMark: mark, groupMark: finding.group === "," ? null : finding.group }
    : { decimalMark: mark, groupMark: finding.asksDecimal ? "," : finding.group };

function ownMarks(asking: Asking, id: string, finding: MarkFinding, anyComma: boolean): Marks {
  const mustAsk = finding.asksDecimal || (anyComma && finding.suggested !== null && !finding.asksGroup);
  const decimal = mustAsk ? askDecimal(asking, id, id, [finding]) : finding.decimal;
  const mark = decimal ?? finding.suggested ?? ".";
  if (!mustAsk && finding.suggested === "." && !finding.asksGroup)
    asking.note("decimal mark", id, ".", "strong", [
      reason("only points", finding.samples[0]?.line ?? null, finding.samples[0]?.text ?? null),
    ]);
  if (finding.asksGroup) {
    const first = finding.samples[0];
    asking.ask({
      id: `group mark/${id}`,
      topic: "group mark",
      column: id,
      samples: finding.samples,
      choices: [choice(",", ...finding.reasons.map((code) => reason(code, first?.line, first?.text)))],
      suggested: ",",
    });
    return { decimalMark: ".", groupMark: "," };
  }
  if (finding.decimal === null && finding.reasons.includes(THREE_AFTER_COMMA))
    return mark === "." ? { decimalMark: ".", groupMark: "," } : { decimalMark: ",", groupMark: null };
  if (finding.decimal === null && finding.reasons.includes("three digits after every point"))
    return mark === "." ? { decimalMark: ".", groupMark: null } : { decimalMark: ",", groupMark: "." };
  return { decimalMark: mark, groupMark: finding.group === mark ? null : finding.group };
}

function askDecimal(asking: Asking, id: string, column: string | null, findings: readonly MarkFinding[]): "." | "," | null {
  const [first] = findings;
  const because = (first?.reasons ?? []).map((code) => reason(code, first?.samples[0]?.line ?? null, first?.samples[0]?.text ?? null));
  const suggested = findings.every((finding) => finding.suggested === first?.suggested) ? (first?.suggested ?? null) : null;
  // It is why the semicolons are there (common practice); still it is asked, as everything that changes the figures.
  if (suggested === "," && asking.evidence.structure.dialect.delimiter === ";") because.push(reason("semicolons between the cells"));
  const answer = asking.ask({
    id: `decimal mark/${id}`,
    topic: "decimal mark",
    column,
    samples: findings.flatMap((finding) => finding.samples).slice(0, 6),
    choices: [choice(",", ...(suggested === "." ? [] : because)), choice(".", ...(suggested === "," ? [] : because))],
    suggested,
  });
  return answer as "." | "," | null; // `ask` lets no other answer pass
}
