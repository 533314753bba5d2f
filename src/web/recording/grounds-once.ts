/** Grounds on paper: what several findings rest on stands once, and nothing is left out. */

export interface GroundsOnce {
  /** Lines that stand in every list of every group. */
  readonly all: readonly string[];
  readonly groups: readonly {
    /** Lines that stand in every list of the group, beyond those of all. */
    readonly shared: readonly string[];
    /** What is left to each list. */
    readonly own: readonly (readonly string[])[];
  }[];
}

const inEach = (lists: readonly (readonly string[])[]): readonly string[] => {
  const [first, ...rest] = lists;
  // Of one list nothing is shared.
  if (first === undefined || rest.length === 0) return [];
  return [...new Set(first)].filter((line) => rest.every((list) => list.includes(line)));
};

const without = (lines: readonly string[], known: readonly string[]): readonly string[] => lines.filter((line) => !known.includes(line));

/** Of lists of lines in groups: what all have, what a group has, and the rest. The three together are each list again. */
export const groundsOnce = (groups: readonly (readonly (readonly string[])[])[]): GroundsOnce => {
  const all = inEach(groups.flat());
  return {
    all,
    groups: groups.map((lists) => {
      const shared = without(inEach(lists), all);
      return { shared, own: lists.map((lines) => without(without(lines, all), shared)) };
    }),
  };
};
