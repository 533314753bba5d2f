/** What stands in a column, as far as the short way is concerned, and how large a plain number may be. */
import type { Plan } from "./plan.ts";

export const NUMBER = 0;
export const TIME = 1;
export const COUNT = 2;
export const SAME = 3;
export const SKIP = 4;
export const DATE = 5;

/** Numbers at or above this, and below its negative twin, may be sentinels: the careful way looks at them. */
export const PLAIN_BELOW = 4_999;
export const PLAIN_ABOVE = 98;
export const POWERS = Float64Array.from({ length: 16 }, (_, power) => 10 ** power);

/** Stands among the bits of decimals for `1.234`, which may be a group. */
export const GROUP_LIKE = 1 << 30;

/** Greatest mantissa of a plain number with so many decimals. */
export function limitOf({ channels, channelOf }: Plan, column: number, places: number): number {
  const most = Math.min(PLAIN_BELOW, channels[channelOf[column] as number]?.possible ?? PLAIN_BELOW); // one channel number a column
  return Math.min(2 ** 31 - 1, Math.floor(most * (POWERS[places] as number))); // sixteen powers
}

/** The decimal mark of the readings. */
export const markOf = ({ mapping, channelOf }: Plan): string =>
  mapping.columns.find((_, index) => (channelOf[index] as number) >= 0)?.decimalMark ?? "."; // one channel number a column

export function kindOf(plan: Plan, index: number): number {
  if (index === plan.time) return plan.countScale > 0 ? COUNT : TIME;
  if (index === plan.clock) return TIME;
  if (index === plan.date) return plan.clock >= 0 ? DATE : TIME;
  if ((plan.channelOf[index] as number) >= 0) return NUMBER; // one channel number a column
  return plan.seriesColumns.includes(index) || plan.statuses.includes(index) ? SAME : SKIP;
}

/** No line holds it. */
const NEVER = Uint8Array.of(0);

/** The bytes of a text that stays the same from row to row; such as no line holds where the careful way must look at it. */
export function sameBytes({ badStatus }: Plan, text: string): Uint8Array {
  if (badStatus.has(text) || !/^[ -~]*$/.test(text) || text !== text.trim()) return NEVER;
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

/** One reading a line, day numbers, clocks of twelve hours, wrapped lines, and numbers that were said to be words take the careful way throughout. */
export function canEverBePlain(plan: Plan): boolean {
  const { dialect, columns, time } = plan.mapping;
  if (plan.isLong || dialect.wrapped || dialect.delimiter === "" || plan.channels.length === 0 || plan.looseNumbers.length > 0)
    return false;
  if (
    time.form.startsWith("day-number") ||
    (plan.time < 0 && plan.clock < 0) ||
    (plan.date < 0 && plan.clock >= 0) ||
    plan.halfDay !== null
  )
    return false;
  const marks = columns
    .filter((_, index) => (plan.channelOf[index] as number) >= 0 || (index === plan.time && plan.countScale > 0))
    .map((column) => column.decimalMark); // one channel number a column
  if (new Set(marks).size > 1 || marks[0] === dialect.delimiter) return false;
  return ![...plan.words.keys()].some((word) => /^-?\d/.test(word) && Number(word) >= -PLAIN_ABOVE && Number(word) <= PLAIN_BELOW);
}
