import { describe, expect, test } from "vitest";
import type { Declaration } from "../../src/core/recording/declaration.ts";
import { noSettings } from "../../src/web/desk/held-files.ts";
import { mergeWords, type Words } from "../../src/web/desk/merge-said.ts";
import type { Settings } from "../../src/web/desk/protocol.ts";

const words = (settings: Partial<Settings> = {}, rest: Partial<Words> = {}): Words => ({
  given: {},
  mapping: null,
  ...rest,
  settings: { ...noSettings, ...settings },
});

const stated = (id: string): Declaration =>
  ({
    id,
    kind: "unexposed",
    channel: "*",
    from: 0,
    to: 1,
    by: "A. Marl",
    reason: "canteen",
  }) as Declaration; // the fields that merging looks at

const ids = ({ settings }: Words): readonly string[] => settings.declarations.map(({ id }) => id);

describe("two windows of one browser", () => {
  test("changes of different things both stand", () => {
    const { words: merged, differ } = mergeWords(words(), words({ regimes: ["GB-WEL"] }), words({ largestGapMs: 60_000 }));
    expect(merged.settings).toMatchObject({ regimes: ["GB-WEL"], largestGapMs: 60_000 });
    expect(differ).toEqual([]);
  });

  test("a choice comes with the name of whoever made it, never with the other's", () => {
    const base = words();
    const ours = words({ unsampled: { kind: "zero" }, unsampledBy: { by: "ours", reason: "r" } });
    const theirs = words({ unsampled: { kind: "like" }, unsampledBy: { by: "theirs", reason: "r" } });
    const { words: merged, differ } = mergeWords(base, ours, theirs);
    expect([merged.settings.unsampled.kind, merged.settings.unsampledBy?.by]).toEqual(["zero", "ours"]);
    expect(differ).toEqual(["what unsampled time was"]);
  });

  test.each([
    ["both add one", [], ["a"], ["b"], ["b", "a"]],
    ["one is withdrawn here", ["a", "b"], ["b"], ["a", "b"], ["b"]],
    ["one is withdrawn there, one added here", ["a"], ["a", "c"], [], ["c"]],
    ["withdrawn in both", ["a"], [], [], []],
  ])("statements: %s", (_, base, ours, theirs, expected) => {
    const of = (all: readonly string[]): Words => words({ declarations: all.map(stated) });
    expect(ids(mergeWords(of(base), of(ours), of(theirs)).words)).toEqual(expected);
  });

  test("answers are one reading: they are taken from one window, whole", () => {
    const { words: merged, differ } = mergeWords(words(), words({}, { given: { unit: "ppm" } }), words({}, { given: { zone: "UTC" } }));
    expect([merged.given, differ]).toEqual([{ unit: "ppm" }, ["how the file is read"]]);
  });
});
