// A limit that began between two shifts is set against the later one alone: its findings, and its episodes.
import { expect, test } from "vitest";
import { ownLimitsFromJson } from "../../src/core/gas/index.ts";
import { nodeMachine } from "../../src/main/machine.ts";
import { assessExposure, NOTHING_DECLARED } from "../../src/work/assess-exposure.ts";
import { limitBook } from "../../src/work/limits-on-date.ts";
import { openRecording } from "../../src/work/open-recording.ts";
import type { ByteSource } from "../../src/work/ports.ts";

const OWN = {
  ...{ form: "lamproom-own-limits/1", by: "hygienist", on: "2026-03-01", regime: { id: "WORKS", name: "Own limits of the works" } },
  limits: [{ gas: "carbon_monoxide", kind: "ceiling", value: 30, unit: "ppm", why: "agreed on site", validFrom: "2026-03-05" }],
};

const day = (date: string): string => [0, 1, 2, 3].map((minute) => `${date}T07:0${minute}:00Z,${minute === 1 ? 40 : 5}\n`).join("");

// On the date before its first day the regime of the file holds nothing of the gas.
test("neither a finding nor an episode speaks of a limit that did not hold yet", async () => {
  const own = ownLimitsFromJson(OWN);
  if (!own.ok) throw new Error(JSON.stringify(own.refusal));
  const bytes = new TextEncoder().encode(`time,CO (ppm)\n${day("2026-03-04")}${day("2026-03-05")}`);
  const source: ByteSource = { name: "a.csv", size: bytes.length, walk: async (piece) => void piece(bytes) };
  const shifts = ["2026-03-04", "2026-03-05"].map((date) => `${date}T07:00:00Z/${date}T07:05:00Z`);
  const progress = { at: () => undefined, stop: () => false };
  const opened = await openRecording({ source, machine: nodeMachine, progress, answers: {}, mappings: [], shifts });
  const { channels, refusal } = assessExposure(opened, { ...NOTHING_DECLARED, regimes: ["WORKS" as never], limits: limitBook(own.value) });
  expect(refusal).toBeNull();
  expect(channels.map(({ findings }) => findings.map(({ outcome }) => outcome))).toEqual([[], ["exceeds"]]);
  expect(channels.map(({ episodes }) => episodes.map(({ peak }) => peak))).toEqual([[], [40]]);
  expect(channels[0]?.notCompared.map(({ why }) => why)).toEqual(["not covered"]);
});
