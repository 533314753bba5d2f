/** What is wrong first, then what to test in the order of the bench, then a count of the rest: one cause, one item. */

import { naturalOrder } from "./natural-order.ts";
import type { CauseGroup, InstrumentLine, StandingMark, TodayView } from "./views.ts";

export type Around = Pick<TodayView, "basis" | "questions" | "gas">;

/** `lines`: every instrument that is not retired, once. */
export function todayView(lines: readonly InstrumentLine[], around: Around): TodayView {
  const of = (mark: StandingMark): readonly InstrumentLine[] => lines.filter((line) => line.mark === mark).sort(benchOrder);
  const [withdrawn, notProven, ends, proven] = [of("withdrawn"), of("not proven"), of("ends"), of("proven")];
  return {
    basis: around.basis,
    counts: { withdrawn: withdrawn.length, "not proven": notProven.length, ends: ends.length, proven: proven.length },
    ...{ withdrawn, notProven: causesOf(notProven), ends, proven },
    questions: around.questions,
    stair: stairOf([...ends, ...proven], around.basis.at),
    gas: around.gas,
  };
}

/** What ends first is needed first; then what is done quickly; then by its label. */
export function benchOrder(first: InstrumentLine, second: InstrumentLine): number {
  const ends = ({ until }: InstrumentLine): string => until ?? "";
  if (ends(first) !== ends(second)) return ends(first) < ends(second) ? -1 : 1;
  const minutes = (line: InstrumentLine): number => line.minutes ?? Number.MAX_VALUE;
  return minutes(first) - minutes(second) || naturalOrder(labelOf(first), labelOf(second));
}

const labelOf = ({ tag, serial }: InstrumentLine): string => tag ?? serial;

/** In the order of their first instruments; within a cause the order of the bench stays. */
function causesOf(lines: readonly InstrumentLine[]): readonly CauseGroup[] {
  const groups = new Map<string, InstrumentLine[]>();
  for (const line of lines) {
    const cause = line.first?.cause ?? "";
    put(groups, cause, line);
  }
  return [...groups].map(([cause, group]) => ({
    ...{ cause, why: group[0]?.first?.why ?? "", next: group[0]?.first?.next ?? null },
    lines: group,
  }));
}

function put(groups: Map<string, InstrumentLine[]>, cause: string, line: InstrumentLine): void {
  const group = groups.get(cause);
  if (group === undefined) groups.set(cause, [line]);
  else group.push(line);
}

/** From the instant on; one step down for each moment at which some end. */
function stairOf(proven: readonly InstrumentLine[], at: string): TodayView["stair"] {
  const ends = proven.flatMap(({ until }) => (until === null ? [] : [until])).sort();
  const steps = [{ at, count: proven.length }];
  for (const end of ends) {
    const last = steps.at(-1);
    const count = (last?.count ?? 0) - 1;
    if (last?.at === end) last.count = count;
    else steps.push({ at: end, count });
  }
  return steps;
}
