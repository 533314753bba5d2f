/** Which form the times have, in which zone, and what must be asked for it. */
import { civilFromDays, MILLISECONDS_PER_DAY, nearZoneNames, readDate, readRfc3339, zoneClock } from "../time/index.ts";
import { type Asking, choice, reason } from "./asking.ts";
import type { ColumnEvidence, Sighting, TimeEvidence } from "./evidence.ts";
import { halfDayOf } from "./half-day.ts";
import type { TimeForm, TimeMapping } from "./mapping.ts";
import type { Question, Reason } from "./question.ts";
import { type DateOrder, localOf, timeText } from "./time-text.ts";
import { isSameClock, zoneInText } from "./zone-label.ts";

export interface TimeColumn {
  readonly id: string;
  readonly label: string;
  readonly unitText: string;
  readonly evidence: ColumnEvidence;
  readonly isCount: boolean;
}

export function timeMappingOf(asking: Asking, columns: readonly TimeColumn[], isSplit: boolean): TimeMapping {
  const count = columns.find((column) => column.isCount);
  if (count !== undefined) return countMapping(asking, count);
  const texts = columns.map((column) => column.evidence.times);
  const form = orderOf(asking, texts, columns[0]?.id ?? null);
  const years = yearsOf(asking, texts);
  const local = texts.map((times) => times.local).find((sighting) => sighting.count > 0) ?? null;
  // A date column beside a clock column with an offset is not local: only what has a clock counts.
  const isLocal =
    local !== null && texts.some((times) => times.local.count > 0 && (times.clocks > 0 || times.complete > 0 || columns.length === 1));
  const zone = isLocal ? (zoneInLabels(asking, columns) ?? askZone(asking, local)) : null;
  const fixed = fixedClock(asking);
  const { dayless } = asking.evidence;
  // A date in a later row does not tell the day of the rows before it.
  const hasDay = texts.some((times) => times.complete > 0 || times.dates > 0) && dayless.count === 0;
  return {
    form,
    zone: fixed ?? zone,
    twoDigitYearsFrom: years,
    start: hasDay || texts.length === 0 ? null : firstDay(asking, dayless.count > 0 ? dayless : local, fixed ?? zone),
    repeatedHour: repeatedHour(asking),
    halfDay: halfDayOf(asking, isSplit),
    zoneLetters: lettersOf(asking, texts),
  };
}

/** Times in an hour that the zone leaves out: the logger stayed on one offset. Which one is then its zone. */
function fixedClock(asking: Asking): string | null {
  const { missingHour } = asking.evidence;
  const told = asking.answerTo("fixed clock");
  if (missingHour.count === 0) {
    if (told !== null && !isKnownZone(told)) asking.refuse({ type: "bad-answer", question: "fixed clock", answer: told });
    if (told !== null) asking.note("fixed clock", null, told, "certain", [reason("answered")]);
    return told;
  }
  return asking.ask({
    id: "fixed clock",
    topic: "fixed clock",
    samples: [{ line: missingHour.line, text: missingHour.text }],
    choices: [choice(missingHour.before, reason("the logger did not change its clock")), choice(missingHour.after)],
    suggested: missingHour.before,
  });
}

/** Clock times that no date stands before: on which day does the file begin? */
function firstDay(asking: Asking, sample: Sighting | null, zone: string | null): string | null {
  const answer = asking.ask(startQuestion(sample));
  if (answer === null) return null;
  const day = dayTold(answer, zone);
  if (day === null) asking.refuse({ type: "bad-answer", question: "start", answer });
  return day;
}

export const startQuestion = (sample: Sighting | null): Question => ({
  id: "start",
  topic: "start",
  column: null,
  samples: sample === null ? [] : [{ line: sample.line, text: sample.text }],
  choices: [],
  suggested: null,
  blocking: true,
});

/** The day that a date names, or on which an instant falls in the zone of the file; null where the text is neither. */
export function dayTold(text: string, zone: string | null): string | null {
  if (readDate(text).ok) return text;
  const read = readRfc3339(text);
  if (!read.ok) return null;
  const clock = zone === null ? null : zoneClock(zone);
  return clock?.ok === true ? dayText(read.value.instant + clock.value.offsetAt(read.value.instant)) : text.slice(0, 10);
}

/** A zone name or offset that the room time knows; anything else is refused with the names nearest to it. */
export function isKnownZone(zone: string): boolean {
  return zoneClock(zone).ok;
}

function askZone(asking: Asking, local: Sighting): string | null {
  return asking.ask({ id: "zone", topic: "zone", samples: [{ line: local.line, text: local.text }], choices: [], suggested: null });
}

/** A zone that does not exist is refused whether the file needs one or not: who gave it meant something. */
export function checkZone(asking: Asking): void {
  const told = asking.answerTo("zone");
  if (told !== null && !isKnownZone(told)) asking.refuse({ type: "unknown-zone", zone: told, near: nearZoneNames(told) });
}

/**
 * `Time (UTC)`, or a zone or offset in the units row: the file itself says which clock it is. Who told another one is
 * asked: neither is overridden silently.
 */
function zoneInLabels(asking: Asking, columns: readonly TimeColumn[]): string | null {
  for (const { label, unitText } of columns) {
    for (const text of [unitText, label]) {
      const zone = zoneInText(text);
      if (zone === null) continue;
      const because = reason("written in the heading", asking.evidence.structure.headerLines[0] ?? null, text);
      const told = asking.answerTo("zone");
      if (told !== null && isKnownZone(told) && !isSameClock(told, zone)) return askZoneConflict(asking, zone, told, because);
      asking.note("zone", null, zone, "certain", [because]);
      return zone;
    }
  }
  return null;
}

/** The heading says one zone and the answer another: until somebody decides, the heading's is shown. */
function askZoneConflict(asking: Asking, seen: string, told: string, because: Reason): string {
  const answer = asking.ask({
    id: "zone conflict",
    topic: "zone",
    samples: [{ line: because.line ?? 0, text: because.text ?? "" }],
    choices: [choice(seen, because), choice(told, reason("told"))],
  });
  return answer ?? seen;
}

function lettersOf(asking: Asking, texts: readonly TimeEvidence[]): Record<string, string> {
  const meanings: Record<string, string> = {};
  for (const times of texts) {
    for (const [letters, sighting] of times.letters) {
      const answer = asking.ask({
        id: `zone letters/${letters}`,
        topic: "zone letters",
        samples: [{ line: sighting.line, text: letters }],
      });
      if (answer === null) continue;
      if (!isKnownZone(answer)) asking.refuse({ type: "unknown-zone", zone: answer, near: nearZoneNames(answer) });
      meanings[letters] = answer;
    }
  }
  return meanings;
}

function repeatedHour(asking: Asking): "earlier" | "later" | null {
  const { repeatedHour: seen } = asking.evidence;
  const told = asking.answerTo("repeated hour");
  if (seen.count === 0) {
    if (told !== "earlier" && told !== "later") return null;
    // A walk under the answer raises no question; that it was answered is said all the same.
    asking.note("repeated hour", null, told, "certain", [reason("answered")]);
    return told;
  }
  const answer = asking.ask({
    id: "repeated hour",
    topic: "repeated hour",
    samples: [{ line: seen.line, text: seen.text }],
    choices: [choice("earlier"), choice("later")],
  });
  return answer as "earlier" | "later" | null; // `ask` lets no other answer pass
}

function yearsOf(asking: Asking, texts: readonly TimeEvidence[]): number | null {
  const seen = texts.map((times) => times.twoDigitYears).find((sighting) => sighting.count > 0);
  if (seen === undefined) return null;
  const answer = asking.ask({
    id: "two-digit year",
    topic: "two-digit year",
    samples: [{ line: seen.line, text: seen.text }],
    choices: [
      choice("1970", reason("70 to 99 are 1970 to 1999, 00 to 69 are 2000 to 2069")),
      choice("2000", reason("00 to 99 are 2000 to 2099")),
      choice("1950", reason("50 to 99 are 1950 to 1999, 00 to 49 are 2000 to 2049")),
      choice("1900", reason("00 to 99 are 1900 to 1999")),
    ],
    suggested: "1970",
  });
  return answer === null ? 1970 : Number(answer);
}

/** The order of day and month, settled by a number above 12 anywhere in the file, or asked with both readings. */
function orderOf(asking: Asking, texts: readonly TimeEvidence[], column: string | null): DateOrder {
  const dated = texts.filter((times) => times.numbers > 0);
  if (dated.length === 0) return "year-month-day";
  const top = (pick: (times: TimeEvidence) => Sighting): Sighting =>
    dated.map(pick).reduce((best, next) => (next.count > best.count ? next : best));
  const [first, second, third] = [top((times) => times.first), top((times) => times.second), top((times) => times.third)];
  const told = asking.answerTo("day and month");
  const settled = told === null ? settledOrder(first, second, third) : null;
  if (settled !== null) {
    asking.note("day and month", null, settled.order, "certain", [settled.because]);
    return settled.order;
  }
  return askOrder(asking, dated, third, column);
}

function settledOrder(first: Sighting, second: Sighting, third: Sighting): { order: DateOrder; because: Reason } | null {
  const because = (sighting: Sighting): Reason => reason("a number above 12 can only be a day", sighting.line, sighting.text);
  if (first.count > 31) return { order: "year-month-day", because: reason("a number above 31 can only be a year", first.line, first.text) };
  if (third.count <= 31) return null;
  if (first.count > 12 && second.count <= 12) return { order: "day-month-year", because: because(first) };
  if (second.count > 12 && first.count <= 12) return { order: "month-day-year", because: because(second) };
  return null;
}

function askOrder(asking: Asking, dated: readonly TimeEvidence[], third: Sighting, column: string | null): DateOrder {
  const samples = (dated[0] as TimeEvidence).samples; // dated holds one at least
  const orders: DateOrder[] =
    third.count > 31 ? ["day-month-year", "month-day-year"] : ["day-month-year", "month-day-year", "year-month-day"];
  const rated = orders.map((order) => ({ order, ...stepsUnder(order, samples) })).sort((a, b) => a.falls - b.falls || a.span - b.span);
  const [best, next] = rated as [(typeof rated)[0], (typeof rated)[0]]; // two orders at least
  const isClear = best.falls < next.falls || best.span * 2 < next.span;
  const ambiguous = samples.find(({ text }) => timeText(text)?.date?.order === "numbers") ?? samples[0];
  // Where dots part day, month and year, the day stands first (common practice); the steps of the rows may say otherwise.
  const isDotted = third.count > 31 && samples.every(({ text }) => /^\d{1,2}\.\d{1,2}\.\d{4}/.test(text));
  const dots = (order: DateOrder): Reason[] => (isDotted && order === "day-month-year" ? [reason("dots between day, month and year")] : []);
  const choices = rated
    .map(({ order, reasons }) => choice(order, ...dots(order), ...reasons))
    .sort((a, b) => orders.indexOf(a.value as DateOrder) - orders.indexOf(b.value as DateOrder)); // the values are orders
  const answer = asking.ask({
    id: "day and month",
    topic: "day and month",
    column,
    samples: ambiguous === undefined ? [] : [ambiguous],
    choices,
    suggested: isClear ? best.order : isDotted ? "day-month-year" : null,
  });
  return (answer ?? best.order) as DateOrder; // `ask` lets no other answer pass
}

interface Steps {
  readonly falls: number;
  readonly span: number;
  readonly reasons: readonly Reason[];
}

/** What the rows' own order says: under the wrong order of day and month the steps leap. */
function stepsUnder(order: DateOrder, samples: readonly { readonly line: number; readonly text: string }[]): Steps {
  const times = samples.map(({ text }) => {
    const parsed = timeText(text);
    return parsed === null ? Number.NaN : localOf(parsed, order, 1970);
  });
  let falls = 0;
  let longest = 0;
  let longestAt = 0;
  for (let index = 1; index < times.length; index++) {
    const step = (times[index] as number) - (times[index - 1] as number); // both are below the length
    if (Number.isNaN(step)) falls++;
    else {
      if (step < 0) falls++;
      if (Math.abs(step) > longest) [longest, longestAt] = [Math.abs(step), index];
    }
  }
  const sample = samples[0];
  const reads =
    sample === undefined || Number.isNaN(times[0]) ? [] : [reason(`reads as ${dayText(times[0] as number)}`, sample.line, sample.text)];
  const at = samples[longestAt];
  const step = longest === 0 || at === undefined ? [] : [reason(`longest step ${stepText(longest)}`, at.line, at.text)];
  return {
    falls,
    span: longest,
    reasons: [...reads, ...step, ...(falls > 0 ? [reason(`${falls} of ${times.length - 1} steps go back or fail`)] : [])],
  };
}

const dayText = (local: number): string => {
  const { year, month, day } = civilFromDays(Math.floor(local / MILLISECONDS_PER_DAY));
  return `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
};

function stepText(milliseconds: number): string {
  const days = Math.floor(milliseconds / MILLISECONDS_PER_DAY);
  return days > 0 ? `${days} ${days === 1 ? "day" : "days"}` : `${milliseconds / 1000} s`;
}

const UNIT_FORMS: readonly (readonly [RegExp, TimeForm])[] = [
  [/^(?:s|secs?|seconds?)$/i, "seconds-from-start"],
  [/^ms$/i, "milliseconds-from-start"],
  [/^(?:mins?|minutes)$/i, "minutes-from-start"],
  [/^(?:h|hrs?|hours)$/i, "hours-from-start"],
];

function countMapping(asking: Asking, column: TimeColumn): TimeMapping {
  const form = countForm(asking, column);
  const isDayNumber = form === "day-number-1900" || form === "day-number-1904";
  const local = { count: 1, line: firstLine(column.evidence), text: firstText(column.evidence) };
  return {
    form,
    zone: isDayNumber ? (zoneInLabels(asking, [column]) ?? askZone(asking, local)) : null,
    twoDigitYearsFrom: null,
    start: startOf(asking, form),
    repeatedHour: isDayNumber ? repeatedHour(asking) : null,
    halfDay: null,
    zoneLetters: {},
  };
}

export const isFromStart = (form: TimeForm): boolean => form.endsWith("-from-start");

function startOf(asking: Asking, form: TimeForm): string | null {
  const answer = asking.answers["start"];
  if (answer === undefined || !isFromStart(form)) return null;
  if (!readRfc3339(answer).ok) asking.refuse({ type: "bad-answer", question: "start", answer });
  return answer;
}

function countForm(asking: Asking, column: TimeColumn): TimeForm {
  const told = asking.answerTo("time form");
  const unit = column.unitText.replaceAll(/^[([{]|[)\]}]$/g, "").trim();
  const byUnit = UNIT_FORMS.find(([pattern]) => pattern.test(unit))?.[1];
  const { greatest } = column.evidence;
  if (told === null && byUnit !== undefined) {
    const isAbsolute = byUnit === "seconds-from-start" && /unix|epoch|1970/i.test(column.label);
    const form = isAbsolute
      ? "unix-seconds"
      : byUnit === "milliseconds-from-start" && /unix|epoch|1970/i.test(column.label)
        ? "unix-milliseconds"
        : byUnit;
    // Seconds in the thousand millions are counted from 1970, whatever the label says: no recording lasts 30 years.
    if (isAbsolute || greatest < 300_000_000 || form !== "seconds-from-start") {
      asking.note("time form", null, form, "strong", [reason("unit of the time column", null, unit)]);
      return form;
    }
  }
  if (told === null && /elapsed|seconds|\bsecs?\b/i.test(column.label) && greatest < 300_000_000) {
    asking.note("time form", null, "seconds-from-start", "strong", [reason("label of the time column", null, column.label)]);
    return "seconds-from-start";
  }
  const likely = likelyForm(greatest);
  if (told === null && /unix|epoch/i.test(column.label) && likely?.startsWith("unix") === true) {
    asking.note("time form", null, likely, "strong", [reason("label of the time column", null, column.label)]);
    return likely;
  }
  const forms: readonly TimeForm[] = [
    "seconds-from-start",
    "milliseconds-from-start",
    "minutes-from-start",
    "hours-from-start",
    "unix-seconds",
    "unix-milliseconds",
    "day-number-1900",
    "day-number-1904",
  ];
  const answer = asking.ask({
    id: "time form",
    topic: "time form",
    column: column.id,
    samples: [{ line: firstLine(column.evidence), text: firstText(column.evidence) }],
    choices: forms.map((form) => (form === likely ? choice(form, reason("size of the numbers")) : choice(form))),
    suggested: likely,
  });
  return (answer ?? likely ?? "seconds-from-start") as TimeForm; // `ask` lets no other answer pass
}

function likelyForm(greatest: number): TimeForm | null {
  if (greatest >= 1e9 && greatest < 5e9) return "unix-seconds";
  if (greatest >= 1e12 && greatest < 5e12) return "unix-milliseconds";
  return greatest >= 30_000 && greatest < 80_000 ? "day-number-1900" : null;
}

const firstForm = (column: ColumnEvidence): Sighting | undefined => [...column.forms.values()].sort((a, b) => a.line - b.line)[0];
const firstLine = (column: ColumnEvidence): number => firstForm(column)?.line ?? 0;
const firstText = (column: ColumnEvidence): string => firstForm(column)?.text ?? "";
