import { describe, expect, test } from "vitest";
import type { KnownEntry } from "../../../src/core/instrument/index.ts";
import { REQUEST_REASONS, reasonWords } from "../../../src/report/index.ts";
import { entrySays } from "../../../src/report/room/index.ts";
import { CORPUS } from "../../cases/forms/corpus.ts";

const said = (kind: string, body: unknown): string =>
  entrySays({ type: "known", kind, body, private: null, isPrivateDisposed: false } as unknown as KnownEntry); // bodies of the released corpus fit

describe("every kind has its sentence", () => {
  test.each(CORPUS.flatMap(({ kind, good }) => good.map((body, at) => [kind, at, body] as const)))("%s, body %d", (kind, _at, body) => {
    const sentence = said(kind, body);
    expect(sentence).toMatch(/^[A-Z].*\.$/s);
    expect(sentence).not.toMatch(/undefined|null|\[object|NaN|\bsafe\b|^\W|: \./);
  });

  test("what was not looked at is said, and is no yes", () => {
    const card = { noFaultShown: "yes", gasNamesAsExpected: "no", clockWithinMinute: "not-looked", noDueDatePassed: "yes" };
    expect(said("daily-card-seen", card)).toBe("Daily card: not so: gas names as expected, not looked at: clock within a minute.");
  });

  test("a sign on a display is no figure", () => {
    const body = {
      shownCleanBy: "zero-air",
      expectedOxygen: null,
      readings: [{ sensor: "s", gas: "methane", reading: { sign: "over-range" } }],
    };
    expect(said("clean-air-read", body)).toBe("Reading in clean air: CH4 over range, shown clean by zero air.");
  });

  test("a digit is never rounded, a minus is a minus", () => {
    const reading = { digits: "-0.30", unit: "%", kind: "volume-fraction", step: "0.01" };
    const body = { shownCleanBy: "not-shown", expectedOxygen: null, readings: [{ sensor: "s", gas: "oxygen", reading }] };
    expect(said("clean-air-read", body)).toContain("−0.30\u202fvol %");
  });
});

test.each(REQUEST_REASONS)("%s has a message and a mend, each one sentence or more", (reason) => {
  const { message, mend } = reasonWords(reason, "keeper");
  for (const text of [message, mend]) expect(text).toMatch(/^[A-Z].+[.?]?$/);
});
