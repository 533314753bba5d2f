import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { blocksOf, checkExamples } from "../../scripts/doc-examples.ts";
import { isSame } from "../../scripts/example-result.ts";
import { root } from "../../scripts/run-tool.ts";

const comment = (...lines: readonly string[]) => `/**\n * Adds.\n *\n * @example\n${lines.map((line) => ` * ${line}\n`).join("")} */\n`;
const sum = "export function sum(one: number, other: number): number {\n  return one + other;\n}\n";

async function complaintsOf(name: string, ...lines: readonly string[]): Promise<string> {
  const folder = join(root, ".work", "example-tests", name);
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "sum.ts"), comment("```ts", 'import { sum } from "./sum.ts";', ...lines, "```") + sum);
  const checks = await checkExamples([`.work/example-tests/${name}/sum.ts`], join(root, ".work", `examples-${name}`));
  return checks.flatMap((check) => check.complaints).join("\n");
}

describe("an example in a comment", () => {
  test("that is right passes", async () => {
    expect(await complaintsOf("right", "sum(1, 2); // => 3", "const three = sum(0.1, 0.2); // => 0.3", "[three > 0]; // => [true]")).toBe(
      "",
    );
  });
  test("that is wrong is placed and shown", async () => {
    expect(await complaintsOf("wrong", "sum(1, 2); // => 4")).toContain("gives 3, the example says 4");
  });
  test("that does not compile is told", async () => {
    expect(await complaintsOf("uncompiled", 'sum("1", 2); // => "12"')).toContain("not assignable");
  });
  test("that throws is told", async () => {
    expect(await complaintsOf("thrown", '(() => { throw new Error("broken"); })(); // => 1')).toContain("broken");
  });
  test("that shows no result is told", async () => {
    expect(await complaintsOf("silent", "sum(1, 2);")).toContain("shows no result");
  });
});

test("a block outside @example is prose, and in a page it counts", () => {
  expect(blocksOf("a.ts", "/**\n * ```ts\n * one; // => 1\n * ```\n */\n")).toEqual([]);
  expect(blocksOf("a.md", "Text.\n\n```ts\none; // => 1\n```\n")).toEqual([{ file: "a.md", line: 4, text: "one; // => 1\n" }]);
});

test.each<[unknown, unknown, boolean]>([
  [1, 1 + 1e-12, true],
  [1, 1 + 1e-8, false],
  [Number.NaN, Number.NaN, true],
  [new Float64Array([1, 2]), [1, 2], true],
  [{ a: 1, b: undefined }, { a: 1 }, true],
  [{ a: 1 }, { a: 1, b: null }, false],
  [[1, [2]], [1, [2]], true],
  [[1], [1, 2], false],
  [3n, 3n, true],
  [3n, 3, false],
  ["a", "a", true],
  [null, undefined, false],
  [null, {}, false],
])("%o and %o: the same is %s", (given, wanted, same) => {
  expect(isSame(given, wanted)).toBe(same);
});
