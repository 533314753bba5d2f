/**
 * What two windows of one browser said of the same recording, put together: what only one of them changed since they
 * last agreed stands, statements of both stand, and what both changed otherwise stands as this window has it, and is named.
 */
import type { Declaration } from "../../core/recording/declaration.ts";
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Answers } from "../../core/table/question.ts";
import type { Settings } from "./protocol.ts";

/** All that a person said of a recording. */
export interface Words {
  readonly given: Answers;
  readonly mapping: TableMapping | null;
  readonly settings: Settings;
}

export interface Merged {
  readonly words: Words;
  /** Names of what both changed, each in its own way. */
  readonly differ: readonly string[];
}

/** A choice stands with the name of whoever made it: what belongs together is taken from one window, whole. */
const together: readonly { readonly name: string; readonly keys: readonly (keyof Settings)[] }[] = [
  { name: "the regimes", keys: ["regimes"] },
  { name: "the shifts", keys: ["shifts"] },
  { name: "what unsampled time was", keys: ["unsampled", "unsampledBy"] },
  { name: "the largest gap", keys: ["largestGapMs"] },
  {
    name: "the settings of the site",
    keys: ["settingsBy", "deadBands", "negativeFloors", "measurableThresholds", "meansStandForCeilings", "longShiftModel"],
  },
];

/** Both sides are plain and were written by this page: one order of keys. */
const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

const pick = (settings: Settings, keys: readonly (keyof Settings)[]): Partial<Settings> =>
  Object.fromEntries(keys.map((key) => [key, settings[key]]));

const mergeDeclarations = (base: Settings, ours: Settings, theirs: Settings): readonly Declaration[] => {
  const was = new Set(base.declarations.map(({ id }) => id));
  const here = new Set(ours.declarations.map(({ id }) => id));
  const there = new Set(theirs.declarations.map(({ id }) => id));
  // One that was agreed and is missing on one side was withdrawn there.
  return [
    ...theirs.declarations.filter(({ id }) => here.has(id) || !was.has(id)),
    ...ours.declarations.filter(({ id }) => !there.has(id) && !was.has(id)),
  ];
};

interface Sides<Value> {
  readonly base: Value;
  readonly ours: Value;
  readonly theirs: Value;
}

const changedByBoth = <Value>({ base, ours, theirs }: Sides<Value>): boolean =>
  !same(ours, theirs) && !same(ours, base) && !same(theirs, base);

const chosen = <Value>({ base, ours, theirs }: Sides<Value>): Value => (same(ours, base) ? theirs : ours);

export const mergeWords = (base: Words, ours: Words, theirs: Words): Merged => {
  const groups = together.map(({ name, keys }) => ({
    name,
    sides: { base: pick(base.settings, keys), ours: pick(ours.settings, keys), theirs: pick(theirs.settings, keys) },
  }));
  // Answers and mapping are one reading of the file: halves of two readings are none.
  const reading = ({ given, mapping }: Words): Pick<Words, "given" | "mapping"> => ({ given, mapping });
  const read = { name: "how the file is read", sides: { base: reading(base), ours: reading(ours), theirs: reading(theirs) } };
  // All groups together are all keys but the declarations.
  const settings: Settings = Object.assign({ ...ours.settings }, ...groups.map(({ sides }) => chosen(sides)));
  return {
    words: {
      ...chosen(read.sides),
      settings: { ...settings, declarations: mergeDeclarations(base.settings, ours.settings, theirs.settings) },
    },
    differ: [
      ...(changedByBoth(read.sides) ? [read.name] : []),
      ...groups.filter(({ sides }) => changedByBoth(sides)).map(({ name }) => name),
    ],
  };
};

export const sameWords = (one: Words, other: Words): boolean => same(wordsOf(one), wordsOf(other));
export const sameReading = (one: Words, other: Words): boolean => same([one.given, one.mapping], [other.given, other.mapping]);

/** Only the words, in one order of keys. */
export const wordsOf = ({ given, mapping, settings }: Words): Words => ({
  given: Object.fromEntries(Object.entries(given).sort(([one], [other]) => (one < other ? -1 : 1))),
  mapping,
  settings: Object.fromEntries(
    // All keys of the settings, each once.
    Object.entries(settings).sort(([one], [other]) => (one < other ? -1 : 1)),
  ) as unknown as Settings,
});
