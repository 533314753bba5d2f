/** What calls about the book ask, member by member. */
import type { EntriesAsked } from "../work/room/look-at-entries.ts";
import * as form from "./asked.ts";
import type { NewBook } from "./contract.ts";

/** Submissions of a phone that was away for a day come in a few calls. */
const MOST_OFFERED = 256;
const MOST_EXPECTED = 64;
const MOST_LINES = 500;
const USUAL_LINES = 50;
const LONGEST_ROUND_TRIP_MS = 600_000;

export const NEW_BOOK: form.Forms<NewBook> = { name: form.text(120), zone: form.text(64), isDemonstration: form.yesOrNo };

export const CHANGES: form.Forms<{ readonly after: number }> = { after: form.wholeFrom(0) };

export const ENTRIES: form.Forms<EntriesAsked> = {
  before: form.orNull(form.wholeFrom(1)),
  limit: form.orElse(form.wholeFrom(1, MOST_LINES), USUAL_LINES),
  kind: form.orNull(form.code),
  subject: form.orNull(form.uuid),
  text: form.orNull(form.text(200)),
};

export const ENTRY: form.Forms<{ readonly number: number }> = { number: form.wholeFrom(1) };

export const CONSISTENCY: form.Forms<{ readonly earlier: number; readonly size: number | null }> = {
  earlier: form.wholeFrom(0),
  size: form.orNull(form.wholeFrom(0)),
};

export interface Offer {
  readonly offered: readonly { readonly submission: Uint8Array; readonly body: Uint8Array; readonly private: Uint8Array | null }[];
  /** Milliseconds since 1970 by the device's clock. */
  readonly sent: number;
  readonly roundTripMs: number | null;
  readonly expect: readonly { readonly subject: string; readonly newest: number }[];
}

export const OFFER: form.Forms<Offer> = {
  offered: form.listOf(
    form.recordOf<Offer["offered"][number]>({ submission: form.bytes, body: form.bytes, private: form.orNull(form.bytes) }),
    MOST_OFFERED,
  ),
  sent: form.instant,
  roundTripMs: form.orNull(form.wholeFrom(0, LONGEST_ROUND_TRIP_MS)),
  expect: form.listOf(form.recordOf<Offer["expect"][number]>({ subject: form.uuid, newest: form.wholeFrom(0) }), MOST_EXPECTED),
};
