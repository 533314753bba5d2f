// A limit left out in silence would look like "no limit": what was not compared is said, with its reason.
import { expect, test } from "vitest";
import { nodeMachine } from "../../src/main/machine.ts";
import { notComparedSentences } from "../../src/report/index.ts";
import type { ChannelAnswer } from "../../src/work/answer.ts";
import { assessExposure, NOTHING_DECLARED } from "../../src/work/assess-exposure.ts";
import { limitBook } from "../../src/work/limits-on-date.ts";
import { openRecording } from "../../src/work/open-recording.ts";
import type { ByteSource } from "../../src/work/ports.ts";

const ROWS = "2026-03-04T07:00:00Z,1\n2026-03-04T07:00:10Z,2\n2026-03-04T07:00:20Z,1\n";

async function assessed(heading: string, gas: string): Promise<ChannelAnswer> {
  const bytes = new TextEncoder().encode(`time,${heading}\n${ROWS}`);
  const source: ByteSource = { name: "a.csv", size: bytes.length, walk: async (piece) => void piece(bytes) };
  const answers = { "gas/*": gas };
  const progress = { at: () => undefined, stop: () => false };
  const opened = await openRecording({ source, machine: nodeMachine, progress, answers, mappings: [], shifts: [] });
  const answer = assessExposure(opened, { ...NOTHING_DECLARED, limits: limitBook(null) });
  expect(answer.refusal).toBeNull();
  const [channel] = answer.channels;
  if (channel === undefined) throw new Error("no channel was answered");
  return channel;
}

const reasons = ({ notCompared }: ChannelAnswer): readonly string[] => [...new Set(notCompared.map(({ why }) => why))];
const about = ({ notCompared }: ChannelAnswer, why: string): readonly string[] =>
  notCompared.filter((one) => one.why === why).map(({ regime, limit }) => limit?.id ?? regime);

test("readings in %LEL meet no limit in ppm, and every limit of the gas is named", async () => {
  const channel = await assessed("Propane (%LEL)", "propane");
  expect(channel.findings).toEqual([]);
  expect(about(channel, "other kind of unit")).toContain("US-OSHA/propane/twa");
  const [sentence] = notComparedSentences(channel);
  expect(sentence).toContain("US-OSHA 8\u202fh average 1\u202f000\u202fppm");
  expect(sentence).toContain("the channel reads in %LEL, another kind of quantity.");
});

test("a gas that the regimes hold without a limit has no limit; one that they do not hold is not covered", async () => {
  const oxygen = await assessed("O2 (vol%)", "oxygen");
  expect(oxygen.findings).toEqual([]);
  expect(about(oxygen, "no limit")).toContain("US-OSHA");
  expect(about(oxygen, "not covered")).not.toContain("US-OSHA");
  const laughingGas = await assessed("N2O (ppm)", "nitrous_oxide");
  expect(about(laughingGas, "no limit")).toContain("US-OSHA");
  expect(about(laughingGas, "not covered")).toEqual(expect.arrayContaining(["GB-WEL", "EU-IOELV"]));
  expect(notComparedSentences(laughingGas).join(" ")).toContain("which is not the same as no limit.");
});

test("a limit that counts a part of the molecule is left to a person", async () => {
  const channel = await assessed("HCN (ppm)", "hydrogen_cyanide");
  expect(channel.findings.length).toBeGreaterThan(0);
  for (const { why, limit } of channel.notCompared) if (limit !== null) expect(why).toBe("counts a part of the molecule");
});

test("every regime asked for has a finding, a limit with a reason, or no limit with a reason", async () => {
  for (const [heading, gas] of [
    ["CO (ppm)", "carbon_monoxide"],
    ["AsH3 (ppm)", "arsine"],
    ["HF (ppm)", "hydrogen_fluoride"],
    ["CO (%LEL)", "carbon_monoxide"],
  ] as const) {
    const channel = await assessed(heading, gas);
    const regimes = new Set([
      ...channel.findings.map(({ limit }) => limit.regime),
      ...channel.notCompared.flatMap(({ limit }) => limit?.regime ?? []),
    ]);
    for (const { regime, limit } of channel.notCompared)
      if (limit === null) expect(regimes.has(regime), `${heading} ${regime}`).toBe(false);
    expect(new Set([...regimes, ...channel.notCompared.map(({ regime }) => regime)]), heading).toEqual(new Set(limitBook(null).regimes));
    expect(reasons(channel), heading).not.toContain("unit not known");
  }
});

test("a limit of several levels stands with its ceiling and its peak, in the unit of the channel (Table Z-2, 29 CFR 1910.1000)", async () => {
  const levels = async (heading: string, gas: string): Promise<unknown> =>
    (await assessed(heading, gas)).findings.flatMap(({ limit }) => (limit.regime === "US-OSHA" ? [[limit.unit, limit.levels]] : []));
  expect(await levels("H2S (ppm)", "hydrogen_sulphide")).toEqual([["ppm", { ceiling: 20, peak: 50 }]]);
  expect(await levels("CO (ppm)", "carbon_monoxide")).toEqual([["ppm", null]]);
});
