// Every write, sync and cut that SQLite makes for a book fails in turn, until a run passes in which none failed
// (handbook of faults: SQLite's own tests do the same; a failed sync is never tried again: Rebello et al., USENIX ATC 2020).
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Between, between, whyNotBetween } from "./between.ts";

interface Row {
  readonly at: number;
  readonly count: number;
  readonly hasFailed: boolean;
  readonly sent: readonly string[];
  readonly acknowledged: readonly string[];
  readonly refused: readonly string[];
  readonly late: readonly string[];
  readonly found: {
    readonly opened: string;
    readonly ids: readonly string[];
    readonly verdict: { readonly type: string } | null;
    readonly takesMore: boolean;
  };
}

let disk: Between | null = null;
beforeAll(async () => {
  if (whyNotBetween === null) disk = await between();
});
afterAll(async () => {
  await disk?.end();
});

/** Calls of opening, seven commits, emptying of the log and closing; fewer would mean that the layer sees nothing. */
const LEAST_CALLS = 200;

describe.skipIf(whyNotBetween !== null)(`one call to the disk fails${whyNotBetween === null ? "" : ` (skipped: ${whyNotBetween})`}`, () => {
  test.each([
    ["full", "the disk is full"],
    ["error", "the disk has a fault"],
    ["short", "half of a write fits, then the disk is full"],
  ])("%s, each in turn: %s", async (how) => {
    const folder = join(disk?.folder ?? "", how);
    await mkdir(folder);
    const rows = (await disk?.run(["fail", folder, how])) as readonly Row[]; // written by disk-writer
    const last = rows.at(-1);
    expect(rows.length).toBeGreaterThan(LEAST_CALLS);
    expect([last?.hasFailed, last?.refused, last?.acknowledged.length]).toEqual([false, [], 21]);
    for (const row of rows) {
      const { at, sent, acknowledged, late, found } = row;
      expect({ at, opened: found.opened, takesMore: found.takesMore, verdict: found.verdict?.type }).toEqual({
        at,
        opened: "yes",
        takesMore: true,
        verdict: "whole",
      });
      expect({ at, lost: acknowledged.filter((id) => !found.ids.includes(id)), late }).toEqual({ at, lost: [], late: [] });
      expect({ at, never: found.ids.filter((id) => !sent.includes(id)), twice: found.ids.length - new Set(found.ids).size }).toEqual({
        at,
        never: [],
        twice: 0,
      });
    }
    // Until the book is closed every failure was told; while it closes all has been answered for already.
    const told = rows.filter(({ refused }) => refused.length > 0);
    expect(told.map(({ at }) => at)).toEqual(told.map((_, index) => index + 1));
    expect(rows.filter(({ refused, acknowledged }) => refused.length === 0 && acknowledged.length !== 21)).toEqual([]);
    process.stdout.write(`${how}: ${rows.length - 1} calls failed one by one, ${told.length} of them told, nothing acknowledged lost\n`);
  });
});
