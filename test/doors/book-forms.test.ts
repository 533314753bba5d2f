import { describe, expect, test } from "vitest";
import { asked } from "../../src/server/asked.ts";
import { CONSISTENCY, ENTRIES, NEW_BOOK, OFFER } from "../../src/server/book-forms.ts";
import { clockOffset } from "../../src/server/clock-offset.ts";
import { foreignOrigin } from "../../src/server/own-origin.ts";

const offer = (more: object): object => ({ offered: [], sent: "2026-03-04T07:31:00.000Z", roundTripMs: null, expect: [], ...more });

describe("what is asked is taken in its form alone", () => {
  test.each([
    ["nothing said is the usual", ENTRIES, {}, { before: null, limit: 50, kind: null, subject: null, text: null }],
    ["digits of an address", ENTRIES, { before: "18", limit: "7" }, { before: 18, limit: 7, kind: null, subject: null, text: null }],
    ["an offer", OFFER, offer({}), { offered: [], sent: Date.UTC(2026, 2, 4, 7, 31), roundTripMs: null, expect: [] }],
  ])("%s", (_what, form, said, read) => expect(asked<unknown>(said, form as never)).toEqual({ ok: true, value: read }));

  test.each([
    ["a name of blanks", NEW_BOOK, { name: "  ", zone: "UTC", isDemonstration: false }, "name"],
    ["a member that is not known", NEW_BOOK, { name: "A", zone: "UTC", isDemonstration: false, owner: "me" }, "owner"],
    ["yes for true", NEW_BOOK, { name: "A", zone: "UTC", isDemonstration: "yes" }, "isDemonstration"],
    ["a list", NEW_BOOK, [], "the request"],
    ["nothing", NEW_BOOK, undefined, "the request"],
    ["a number below one", ENTRIES, { before: "0" }, "before"],
    ["a number with a sign", ENTRIES, { limit: "-5" }, "limit"],
    ["more lines than are given", ENTRIES, { limit: "501" }, "limit"],
    ["a number beyond what is exact", CONSISTENCY, { earlier: "9007199254740992" }, "earlier"],
    ["a name for an id", ENTRIES, { subject: "MB-01" }, "subject"],
    ["a member of every object", ENTRIES, { constructor: "1" }, "constructor"],
    ["bytes that nobody would write so", OFFER, offer({ offered: [{ submission: "Zm9=", body: "", private: null }] }), "offered"],
    ["a date for an instant", OFFER, offer({ sent: "2026-03-04" }), "sent"],
    ["a round trip before it began", OFFER, offer({ roundTripMs: -1 }), "roundTripMs"],
  ])("%s is not", (_what, form, said, at) => {
    const read = asked<unknown>(said, form as never);
    expect(read.ok ? null : read.refusal).toMatchObject({ type: "asked-not-fitting", at });
  });
});

// The call left at 1000 of the true clock, came in at 1040, and its device was 5000 ahead.
test.each([
  [6000, 1040, 80, 5000],
  [6000, 1040, 40, 5000],
  [6000, 1000, 0, 5000],
  [-4000, 1040, 80, -5000],
])("a clock at %d, come in at %d with a round trip of %d: %d ahead lies within", (sent, received, roundTrip, truth) => {
  const offset = clockOffset(sent, received, roundTrip);
  expect(offset?.lowest).toBeLessThanOrEqual(truth);
  expect(offset?.highest).toBeGreaterThanOrEqual(truth);
  expect((offset?.highest ?? Infinity) - (offset?.lowest ?? 0)).toBeLessThanOrEqual(roundTrip + 2);
});

test("without a round trip nobody measured", () => expect(clockOffset(6000, 1040, null)).toBeNull());

test.each([
  [{ host: "127.0.0.1:4680" }, null],
  [{ host: "127.0.0.1:4680", origin: "http://127.0.0.1:4680", "sec-fetch-site": "same-origin" }, null],
  [{ host: "127.0.0.1:4680", origin: "http://127.0.0.1:8080" }, "http://127.0.0.1:8080"],
  [{ host: "127.0.0.1:4680", origin: "https://127.0.0.1:4680" }, "https://127.0.0.1:4680"],
  [{ host: "127.0.0.1:4680", origin: "null" }, "null"],
  [{ host: "127.0.0.1:4680", "sec-fetch-site": "cross-site" }, "another site"],
  [{ host: "127.0.0.1:4680", "sec-fetch-site": "same-site" }, "another site"],
])("a call with %j comes from elsewhere: %s", (headers, origin) => expect(foreignOrigin(headers)).toBe(origin));
