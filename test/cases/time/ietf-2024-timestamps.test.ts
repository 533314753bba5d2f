// RFC 3339 (2002) and RFC 9557 (2024). The examples of the RFCs themselves are from memory.
import { describe, expect, test } from "vitest";
import { readRfc3339, readRfc9557, rfc3339FromInstant, type ZonedText } from "../../../src/core/time/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

test(nameOf("formats-g-rfc3339-01"), () => {
  const { inputs, expected } = goldenRow("formats-g-rfc3339-01");
  expect(inputs.texts.map((text: string) => readRfc3339(text).ok)).toEqual(expected.accepted);
});

test(nameOf("formats-g-rfc3339-02"), () => {
  const { inputs, expected } = goldenRow("formats-g-rfc3339-02");
  const seconds = inputs.texts.map((text: string) => answerOf(readRfc3339(text)).instant / 1000);
  expect(seconds).toEqual(inputs.texts.map(() => expected.unix_s));
});

test(nameOf("formats-g-rfc9557-01"), () => {
  const { inputs, expected } = goldenRow("formats-g-rfc9557-01");
  const read = answerOf(readRfc9557(inputs.text));
  expect([rfc3339FromInstant(read.instant), read.zone]).toEqual([expected.utc, expected.zone]);
});

test(nameOf("formats-g-rfc9557-02"), () => {
  const { inputs, expected } = goldenRow("formats-g-rfc9557-02");
  const read: readonly ZonedText[] = inputs.texts.map((text: string) => answerOf(readRfc9557(text)));
  expect(read.map((one) => rfc3339FromInstant(one.instant))).toEqual(expected.utc);
  expect(read.map((one) => one.offsetMinutes !== null)).toEqual(expected.local_offset_known);
});

// RFC 3339 section 5.8 [memory]: the same instant twice in each row; leap seconds are what an instant here cannot hold.
describe("RFC 3339 section 5.8, examples", () => {
  test.each([
    ["1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.520Z"],
    ["1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57Z"],
    ["1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27.870Z"],
  ])("%s", (text, inUtc) => expect(rfc3339FromInstant(answerOf(readRfc3339(text)).instant)).toBe(inUtc));

  test.each(["1990-12-31T23:59:60Z", "1990-12-31T15:59:60-08:00"])("%s is a leap second", (text) => {
    expect(readRfc3339(text)).toEqual({ ok: false, refusal: { type: "leap-second" } });
  });
});

// RFC 9557 sections 3.3, 3.4 and 4.2 [memory].
describe("RFC 9557, examples and rules", () => {
  test.each([
    ["1996-12-19T16:39:57-08:00[America/Los_Angeles]", "America/Los_Angeles"],
    ["1996-12-19T16:39:57-08:00[America/Los_Angeles][u-ca=hebrew]", "America/Los_Angeles"],
    ["1996-12-19T16:39:57-08:00[_foo=bar][_baz=bat]", null],
    ["2022-07-08T00:14:07+01:00[Europe/London]", "Europe/London"],
    ["2022-07-08T00:14:07Z[Europe/London]", "Europe/London"],
    ["2022-07-08T00:14:07Z[!Europe/London]", "Europe/London"],
    ["2022-07-08T00:14:07+00:00[!u-ca=iso8601]", null],
    ["2022-07-08T02:14:07+02:00[+02:00]", "+02:00"],
  ])("%s is read", (text, zone) => expect(answerOf(readRfc9557(text)).zone).toBe(zone));

  test.each([
    ["2022-07-08T00:14:07+00:00[Europe/London]", "offset-disagrees-with-zone"],
    ["2022-07-08T00:14:07+00:00[!Europe/London]", "offset-disagrees-with-zone"],
    ["2022-07-08T00:14:07+01:00[+02:00]", "offset-disagrees-with-zone"],
    ["2022-07-08T00:14:07Z[!_foo=bar]", "critical-suffix-not-understood"],
    ["2022-07-08T00:14:07Z[!u-ca=hebrew]", "critical-suffix-not-understood"],
    ["2022-07-08T00:14:07Z[u-ca=iso8601][!u-ca=gregory]", "critical-suffix-not-understood"],
    ["2022-07-08T00:14:07Z[u-ca=iso8601][Europe/London]", "bad-suffix"],
    ["2022-07-08T00:14:07Z[]", "bad-suffix"],
    ["2022-07-08T00:14:07Z[Europe/London", "bad-suffix"],
    ["2022-07-08T00:14:07Z[Europe/London]x", "bad-suffix"],
    ["2022-07-08T00:14:07Z[Europe/Nowhere]", "unknown-zone"],
  ])("%s is refused: %s", (text, type) => {
    const read = readRfc9557(text);
    expect(read.ok ? "read" : read.refusal.type).toBe(type);
  });
});
