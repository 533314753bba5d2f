/** Each kind of mess of `mess.ts`: what is asked first, and what is stored after the answers. */
import { expect, test } from "vitest";
import { MESSES } from "./mess.ts";
import { read, survey, utf8 } from "./reading.ts";

test.for(MESSES.map((mess) => [mess.what, mess] as const))("%s", ([, { text, given = {}, rows, asks, faults = [], skipped }]) => {
  const bytes = typeof text === "string" ? utf8(text) : text;
  if (asks !== undefined) {
    const first = survey(bytes, "zone" in given && !asks.includes("zone") ? { zone: given["zone"] as string } : {});
    expect(
      first.ok &&
        first.value.questions
          .filter(({ blocking }) => blocking)
          .map(({ id }) => id)
          .sort(),
    ).toEqual(asks);
  }
  const found = survey(bytes, given);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  expect(found.value.questions.filter(({ blocking }) => blocking)).toEqual([]);
  const back = read(bytes, found.value.mapping, given);
  if (!back.ok) throw new Error(JSON.stringify(back.refusal));
  const { summary, series } = back.value;
  const shown = back.value.rows.map(
    ({ time, values, series: index }) => `${clock(time)}: ${values.map(plain).join(", ")}${index === null ? "" : ` of ${series[index]}`}`,
  );
  expect(shown).toEqual(rows);
  expect(summary.faults.map(({ line, type, rejected }) => `${line} ${type}${rejected ? "" : " kept"}`)).toEqual(faults);
  if (skipped !== undefined) expect(summary.count.skipped).toEqual(skipped);
  const { lines, header, rows: taken, continued, rejected, skippedCount } = summary.count;
  expect(header + taken + continued + rejected + skippedCount).toBe(lines);
});

const clock = (time: number): string =>
  new Date(time)
    .toISOString()
    .replace("2026-03-04T", "")
    .replace("T", " ")
    .replace(/\.?0*Z$/, "");
const plain = (value: string | null): string => (value?.includes("e-") === true ? Number(value).toFixed(8) : String(value));
