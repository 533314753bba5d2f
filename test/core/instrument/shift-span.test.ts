import { describe, expect, test } from "vitest";
import { shiftSpan } from "../../../src/core/instrument/index.ts";

const SHIFTS = [
  { name: "early", from: "06:00", to: "14:00" },
  { name: "late", from: "14:00", to: "22:00" },
  { name: "night", from: "22:00", to: "06:00" },
];
const DAY = [{ name: "day", from: "07:30", to: "16:00" }];
const CROSSING = [{ name: "crossing", from: "01:30", to: "02:30" }];

// Clocks of Europe/Berlin went forward on 29 March 2026 at 02:00 and go back on 25 October at 03:00 (IANA zone database).
test.each([
  ["a shift runs", "Europe/Berlin", SHIFTS, "2026-03-04T06:00Z", "early", "2026-03-04T05:00Z", "2026-03-04T13:00Z"],
  ["its end is not of it", "Europe/Berlin", SHIFTS, "2026-03-04T13:00Z", "late", "2026-03-04T13:00Z", "2026-03-04T21:00Z"],
  ["a night begun yesterday", "Europe/Berlin", SHIFTS, "2026-03-04T02:00Z", "night", "2026-03-03T21:00Z", "2026-03-04T05:00Z"],
  ["none runs: the next", "Europe/Berlin", DAY, "2026-03-04T16:00Z", "day", "2026-03-05T06:30Z", "2026-03-05T15:00Z"],
  ["a night without an hour", "Europe/Berlin", SHIFTS, "2026-03-29T00:30Z", "night", "2026-03-28T21:00Z", "2026-03-29T04:00Z"],
  ["a night with an hour more", "Europe/Berlin", SHIFTS, "2026-10-25T00:30Z", "night", "2026-10-24T20:00Z", "2026-10-25T05:00Z"],
  [
    "an end that the clock leaves out",
    "Europe/Berlin",
    CROSSING,
    "2026-03-29T00:40Z",
    "crossing",
    "2026-03-29T00:30Z",
    "2026-03-29T01:00Z",
  ],
  ["an end that comes twice", "Europe/Berlin", CROSSING, "2026-10-25T00:00Z", "crossing", "2026-10-24T23:30Z", "2026-10-25T01:30Z"],
])("%s", (_what, zone, shifts, at, name, from, to) => {
  expect(shiftSpan({ zone, shifts }, Date.parse(at))).toEqual({ name, from: Date.parse(from), to: Date.parse(to) });
});

describe("nothing is made up", () => {
  test.each([
    ["no shifts", { zone: "UTC", shifts: [] }],
    ["no such zone", { zone: "Nowhere/Land", shifts: SHIFTS }],
    ["no such time", { zone: "UTC", shifts: [{ name: "odd", from: "25:00", to: "26:00" }] }],
  ])("%s", (_what, rules) => expect(shiftSpan(rules, 0)).toBeNull());
});
