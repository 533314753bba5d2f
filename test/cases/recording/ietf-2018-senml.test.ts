import { describe, expect, test } from "vitest";
import {
  inPrimaryUnit,
  isSenmlName,
  isVersionKnown,
  resolveSenml,
  SENML_READING,
  type SenmlPack,
  type SenmlReading,
  senmlUnit,
  versionFor,
} from "../../../src/core/recording/index.ts";
import { type Golden, goldens, named } from "./golden.ts";

const cases = goldens("formats");

function resolved(pack: unknown, reading: SenmlReading = SENML_READING): SenmlPack {
  const made = resolveSenml(pack, reading);
  if (!made.ok) throw new Error(JSON.stringify(made.refusal));
  return made.value;
}

const isAccepted = (pack: unknown) => resolveSenml(pack, SENML_READING).ok;
const numbers = (pack: SenmlPack) => pack.records.map(({ value }) => (value?.kind === "number" ? value.number : null));
const seconds = (pack: SenmlPack) => pack.records.map((record) => record.seconds);

const checks: Readonly<Record<string, (golden: Golden) => void>> = {
  "formats-g-senml-resolve-01": ({ inputs }) => {
    expect(resolved(inputs.pack)).toMatchObject({
      time: "relative",
      records: [{ name: "urn:dev:ow:10e2073a01080063", unit: "Cel", seconds: 0, value: { number: 23.1 } }],
    });
  },
  "formats-g-senml-resolve-02": ({ inputs, expected }) => {
    expect(resolveSenml(inputs.pack, SENML_READING)).toMatchObject({ ok: false, refusal: { why: "version not known", text: "5" } });
    const { records } = resolved(inputs.pack, { ...SENML_READING, legacyVersions: true });
    const current = records.filter(({ name }) => name.endsWith("current"));
    expect(records).toHaveLength(expected.count);
    expect(current.map((record) => record.seconds)).toEqual(expected.current_t_unix_s);
    expect(current.map(({ value }) => value?.kind === "number" && value.number)).toEqual(expected.current_v);
    expect(new Set(current.map(({ unit }) => unit))).toEqual(new Set([expected.current_u]));
    const voltage = records.find(({ name }) => name.endsWith("voltage"));
    expect(voltage).toMatchObject({ seconds: expected.voltage.t_unix_s, unit: expected.voltage.u, value: { number: expected.voltage.v } });
  },
  "formats-g-senml-resolve-03": ({ inputs, expected: { fourth_record: fourth } }) => {
    expect(resolved(inputs.pack).records[3]).toMatchObject({
      name: fourth.n,
      seconds: fourth.t_unix_s,
      unit: fourth.u,
      value: { number: fourth.v },
    });
  },
  "formats-g-senml-resolve-04": ({ inputs, expected }) => {
    const pack = resolved(inputs.pack);
    expect([seconds(pack), numbers(pack)]).toEqual([expected.t_unix_s, expected.v]);
  },
  "formats-g-senml-resolve-05": ({ inputs, expected }) => {
    const { records } = resolved(inputs.pack);
    expect(records.map(({ name }) => name)).toEqual(expected.names);
    const [bytes] = records.flatMap(({ value }) => (value?.kind === "bytes" ? [value.bytes] : []));
    expect([...(bytes ?? [])].map((byte) => byte.toString(16).padStart(2, "0")).join("")).toBe(expected.vd_bytes_hex);
    expect(records.flatMap(({ value }) => (value?.kind === "truth" ? [value.truth] : []))).toEqual([expected.vb]);
  },
  "formats-g-senml-resolve-06": ({ inputs, expected }) => {
    const pack = resolved(inputs.pack);
    expect(numbers(pack)).toEqual(expected.v);
    expect(pack.records.map(({ sum }) => sum)).toEqual(expected.s);
    expect(seconds(pack)).toEqual(expected.t_unix_s);
  },
  "formats-g-senml-resolve-07": ({ inputs, expected }) => expect(inputs.packs.map(isAccepted)).toEqual(expected.accepted),
  "formats-g-senml-time-01": ({ inputs }) => {
    const at = (t: number) => resolved([{ n: "a", v: 1, t }]).time;
    expect([at(inputs.t_s), at(inputs.t_s - 1)]).toEqual(["absolute", "relative"]);
  },
  "formats-g-senml-version-01": ({ inputs, expected }) => {
    expect(inputs.bver.map((version: number) => isVersionKnown(version, SENML_READING))).toEqual(expected.accepted);
    expect(inputs.bver.map((bver: number) => isAccepted([{ bver, n: "a", v: 1 }]))).toEqual(expected.accepted);
  },
  "formats-g-senml-version-02": ({ inputs, expected }) => {
    const plain = { ...SENML_READING, secondaryUnits: false };
    expect(inputs.bver.map((version: number) => isVersionKnown(version, plain))).toEqual(expected.accepted);
  },
  "formats-g-senml-version-03": ({ inputs, expected }) => expect(inputs.units_used.map(versionFor)).toEqual(expected.bver),
  "formats-g-senml-unit-01": ({ inputs, expected }) => {
    const ratio = inPrimaryUnit(inputs.v, inputs.u);
    expect(ratio).toEqual({ value: expected.ratio, unit: "/" });
    expect((ratio?.value ?? 0) * 100).toBeCloseTo(expected.percent, 9);
  },
  "formats-g-senml-unit-02": ({ inputs, expected }) => expect(inPrimaryUnit(inputs.v, inputs.u)?.value).toBeCloseTo(expected.ratio, 12),
  "formats-g-senml-unit-03": ({ inputs, expected }) => expect(inPrimaryUnit(inputs.v, inputs.u)?.value).toBeCloseTo(expected.ratio, 15),
  "formats-g-senml-unit-04": ({ inputs, expected }) => expect(inPrimaryUnit(inputs.v, inputs.u)?.value).toBeCloseTo(expected.Pa, 9),
  "formats-g-senml-unit-05": ({ inputs, expected }) =>
    expect(inputs.u.map((unit: string) => senmlUnit(unit) !== null)).toEqual(expected.known),
  "formats-g-senml-label-01": ({ inputs, expected }) => expect(inputs.packs.map(isAccepted)).toEqual(expected.accepted),
  "formats-g-senml-name-01": ({ inputs, expected }) => {
    expect(inputs.names.map(isSenmlName)).toEqual(expected.accepted);
    expect(inputs.names.map((n: string) => isAccepted([{ n, v: 1 }]))).toEqual(expected.accepted);
  },
};

describe("SenML: RFC 8428, RFC 8798, RFC 9100", () => {
  const reached = [...cases.values()].filter(({ topic }) => topic.startsWith("senml-"));
  test.each(reached.map((golden) => [named(golden), golden] as const))("%s", (_, golden) => {
    const check = checks[golden.id];
    if (check === undefined) throw new Error(`no check for ${golden.id}`);
    check(golden);
  });
});
