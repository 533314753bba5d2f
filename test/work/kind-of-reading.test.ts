/** Who said what kind the readings are goes with them into the recording, whatever way the file was opened. */
import { expect, test } from "vitest";
import { jsonFromMapping, mappingFromJson, type TableMapping } from "../../src/core/table/index.ts";
import { nodeMachine } from "../../src/main/machine.ts";
import { openRecording } from "../../src/work/open-recording.ts";

const CSV = "time,CO (ppm)\n2026-03-04T07:30:00Z,1\n2026-03-04T07:31:00Z,2\n";
const AVERAGES = CSV.replace("CO (ppm)", "CO avg (ppm)");
const PACK = '[{"bn":"works:","bver":26,"n":"co","u":"ppm","v":1,"t":1772609400},{"n":"co","u":"ppm","v":2,"t":1772609460}]';

function open(text: string, answers: Readonly<Record<string, string>> = {}, mappings: readonly TableMapping[] = []) {
  const bytes = new TextEncoder().encode(text);
  return openRecording({
    source: { name: "log.csv", size: bytes.length, walk: async (piece) => void piece(bytes) },
    machine: nodeMachine,
    progress: { at: () => undefined, stop: () => false },
    answers,
    mappings,
    shifts: [],
  });
}

async function mappingOf(text: string, answers: Readonly<Record<string, string>> = {}): Promise<TableMapping> {
  const { mapping } = await open(text, answers);
  const kept = mappingFromJson(jsonFromMapping(mapping as TableMapping)); // a readable file has one
  if (!kept.ok) throw new Error(JSON.stringify(kept.refusal));
  return kept.value;
}

const MEAN = { "reading kind/*": "interval mean" };
const NONE = {};

test.each([
  ["a table, nobody says", CSV, NONE, null, "spot default"],
  ["a table, its heading says", AVERAGES, NONE, null, "interval mean file"],
  ["a table, a person says", CSV, MEAN, null, "interval mean person"],
  ["a kept mapping in which nobody said, and nobody says", CSV, NONE, NONE, "spot default"],
  ["a kept mapping in which nobody said, and a person says", CSV, MEAN, NONE, "interval mean person"],
  ["a kept mapping in which a person said, and nobody says", CSV, NONE, MEAN, "interval mean person"],
  ["a pack, nobody says", PACK, NONE, null, "spot default"],
  ["a pack, a person says", PACK, MEAN, null, "interval mean person"],
  ["a pack, a person says it of its channel", PACK, { "reading kind/works:co": "interval peak" }, null, "interval peak person"],
] as const)("%s", async (_, text, answers, kept, expected) => {
  const opened = await open(text, answers, kept === null ? [] : [await mappingOf(text, kept)]);
  const [channel] = opened.recording?.channels ?? [];
  expect(`${channel?.kind} ${channel?.kindChosenBy}`).toBe(expected);
});

test.each([CSV, PACK])("a word that is no kind is refused", async (text) => {
  const opened = await open(text, { "reading kind/*": "mean" });
  expect(opened.refusal).toEqual({ type: "bad-answer", question: "reading kind/*", answer: "mean" });
});

test("a kept mapping in which a person said otherwise is not overridden", async () => {
  const opened = await open(CSV, { "reading kind/CO (ppm)": "interval peak" }, [await mappingOf(CSV, MEAN)]);
  expect(opened.refusal).toMatchObject({ type: "mapping-says-otherwise", question: "reading kind/CO (ppm)", mapped: "interval mean" });
});

test("JSON that breaks off is refused by the place where it does, JSON of another kind as before", async () => {
  expect((await open('[{"n":"co",\n"v":')).refusal).toMatchObject({
    type: "senml-not-readable",
    why: "not JSON",
    at: { line: 2, character: 5 },
  });
  expect((await open('{"a":1}')).refusal).toMatchObject({ type: "not-a-table", looksLike: "JSON" });
});

test("what is said of a pack as a whole is about no line", async () => {
  const { notes } = await open(PACK.replace('"bver":26,', ""));
  expect(notes).toEqual([{ line: null, text: expect.stringContaining('the readings are in "ppm"') }]);
});
