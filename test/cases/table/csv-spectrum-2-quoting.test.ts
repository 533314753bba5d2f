/** Known-answer files of the npm package csv-spectrum 2.0.0 (BSD-2-Clause): the objects beside each file, exactly. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { survey } from "../../core/table/reading.ts";

const FOLDER = dirname(createRequire(import.meta.url).resolve("csv-spectrum"));
/** location_coordinates is left out: its JSON does not agree with its CSV. */
const NAMES = [
  "comma_in_quotes",
  "empty",
  "empty_crlf",
  "escaped_quotes",
  "json",
  "newlines",
  "newlines_crlf",
  "quotes_and_newlines",
  "simple",
  "simple_crlf",
  "utf8",
];

test.for(NAMES)("csv-spectrum %s", (name) => {
  const found = survey(readFileSync(join(FOLDER, "csvs", `${name}.csv`)));
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const { columns, first } = found.value.preview;
  const objects = first.map(({ raw }) => Object.fromEntries(columns.map((label, index) => [label, raw[index]])));
  expect(objects).toEqual(JSON.parse(readFileSync(join(FOLDER, "json", `${name}.json`), "utf8")));
});
