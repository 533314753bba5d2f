// IANA time zone database, rules for 2025 and 2026, as ICU and tzdata hold them.
import { describe, expect, test } from "vitest";
import {
  dayOf,
  type Instant,
  instantsOf,
  type LocalTime,
  localAt,
  localText,
  readDate,
  readRfc3339,
  rfc3339FromInstant,
  spanOf,
  steadySeriesInstants,
  textFromOffset,
  type ZoneClock,
  zoneClock,
} from "../../../src/core/time/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

const clockOf = (zone: string): ZoneClock => answerOf(zoneClock(zone));
const localOf = (text: string): LocalTime =>
  answerOf(readRfc3339(`${text.length === 16 ? `${text}:00` : text}Z`)).instant as unknown as LocalTime; // read on UTC, a text's instant counts its wall clock
const offsetText = (milliseconds: number): string => textFromOffset(milliseconds / 60_000);

describe("a local time is one instant, two, or none", () => {
  test.each(["formats-g-time-zone-01", "formats-g-time-zone-03"])("%s", (id) => {
    const { inputs, expected } = goldenRow(id);
    const found = instantsOf(localOf(inputs.local), clockOf(inputs.zone));
    expect(found.kind, nameOf(id)).toBe("two");
    if (found.kind !== "two") return;
    expect([found.earlier, found.later].map((instant) => rfc3339FromInstant(instant))).toEqual(expected.instants_utc);
    expect([found.earlierOffset, found.laterOffset].map(offsetText)).toEqual(expected.offsets);
  });

  test(nameOf("formats-g-time-zone-02"), () => {
    const { inputs, expected } = goldenRow("formats-g-time-zone-02");
    const clock = clockOf(inputs.zone);
    const found = instantsOf(localOf(inputs.local), clock);
    expect(found.kind).toBe("none");
    if (found.kind !== "none") return;
    const shown = [found.lastSecondBefore, found.firstAfter].map((instant) => ({
      utc: rfc3339FromInstant(instant),
      local: localText(localAt(instant, clock)),
    }));
    expect(shown).toEqual([expected.last_before, expected.first_after]);
  });

  test(nameOf("formats-g-time-zone-04"), () => {
    const { inputs, expected } = goldenRow("formats-g-time-zone-04");
    const clock = clockOf(inputs.zone);
    const { instant } = answerOf(readRfc3339(inputs.utc));
    expect(localText(localAt(instant, clock))).toBe(expected.local);
    expect(offsetText(clock.offsetAt(instant))).toBe(expected.offset);
  });
});

test(nameOf("formats-g-time-zone-05"), () => {
  const { inputs, expected } = goldenRow("formats-g-time-zone-05");
  const locals = Float64Array.from(inputs.local_times, (clock: string) => localOf(`${inputs.date}T${clock}`));
  const read = steadySeriesInstants(locals, clockOf(inputs.zone), null);
  expect([...read.instants].map((instant) => rfc3339FromInstant(instant as Instant))).toEqual(expected.utc); // a column holds instants without their brand
  expect(read.notes).toEqual([{ type: "repeated-hour-resolved-by-order", fromRow: 2, toRow: 10, laterFromRow: 6 }]);
});

test(nameOf("formats-g-time-zone-06"), () => {
  const { inputs, expected } = goldenRow("formats-g-time-zone-06");
  const days = inputs.dates.map((date: string) => dayOf(answerOf(readDate(date)), clockOf(inputs.zone)));
  expect(days.map(({ from, to }: { from: number; to: number }) => (to - from) / 3_600_000)).toEqual(expected.hours);
});

describe("a shift has the hours that passed", () => {
  const shifts = [
    "formats-g-shift-length-01",
    "formats-g-shift-length-02",
    "formats-g-shift-length-03",
    "formats-g-shift-length-04",
    "exposure-twa-09",
  ];
  test.each(shifts)("%s", (id) => {
    const { inputs, expected } = goldenRow(id);
    const span = answerOf(spanOf({ from: localOf(inputs.start_local), to: localOf(inputs.end_local) }, clockOf(inputs.zone)));
    expect((span.to - span.from) / 3_600_000, nameOf(id)).toBe(expected.elapsed_h);
  });
});
