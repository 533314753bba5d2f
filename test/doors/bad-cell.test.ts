import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { ExposureAnswer } from "../../src/work/answer.ts";

function answered(text: string): ExposureAnswer["files"][number] {
  const folder = mkdtempSync(join(tmpdir(), "lamproom-"));
  const path = join(folder, "a.csv");
  writeFileSync(path, text);
  const call = ["src/main/lamproom.ts", "exposure", path, "--regime", "US-NIOSH", "--unsampled", "zero", "--json"];
  const { stdout } = spawnSync(process.execPath, call, { encoding: "utf8" });
  rmSync(folder, { recursive: true });
  return (JSON.parse(stdout) as ExposureAnswer).files[0] as ExposureAnswer["files"][number]; // one file was named
}

const row = (minute: number, carbonMonoxide: string, oxygen: string): string =>
  `2026-03-04T06:${String(minute).padStart(2, "0")}:00Z,${carbonMonoxide},${oxygen}\n`;

test.each([
  ["209", "impossible value"],
  ["20.9x", "not a number"],
])("a bad oxygen cell (%s) takes no carbon monoxide reading with it", (cell, type) => {
  const rows = Array.from({ length: 30 }, (_, minute) => (minute === 10 ? row(minute, "250", cell) : row(minute, "5", "20.9")));
  const file = answered(`time,CO (ppm),O2 (%vol)\n${rows.join("")}`);
  const [carbonMonoxide, oxygen] = file.channels;
  expect(carbonMonoxide?.peak?.value).toBe(250);
  expect(carbonMonoxide?.findings.find(({ limit }) => limit.kind === "ceiling")?.outcome).toBe("exceeds");
  expect([carbonMonoxide?.samples, oxygen?.samples]).toEqual([30, 29]);
  expect([oxygen?.peak?.value, oxygen?.lowest?.value]).toEqual([20.9, 20.9]);
  expect(file.lines).toMatchObject({ rows: 30, rejected: 0 });
  expect(file.faults).toEqual([expect.objectContaining({ type, line: 12, rejected: false, raw: cell })]);
  expect(file.faults[0]?.message).toContain("This reading is a gap; the others of the row are kept.");
});

test("a row of nothing but bad cells is left out", () => {
  const file = answered(`time,CO (ppm),O2 (%vol)\n${row(0, "5", "20.9")}${row(1, "x", "209")}${row(2, "5", "20.9")}`);
  expect(file.lines).toMatchObject({ rows: 2, rejected: 1 });
  expect(file.faults[0]).toMatchObject({ line: 3, rejected: true });
});
