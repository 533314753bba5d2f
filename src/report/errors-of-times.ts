/** Refusals of a time, a date or a length of time. */
import type {
  ClockRefusal,
  DateRefusal,
  DurationRefusal,
  Rfc3339Refusal,
  Rfc9557Refusal,
  SpanRefusal,
  ZoneRefusal,
} from "../core/time/index.ts";
import { type Catalogue, unfit } from "./catalogue.ts";

/** A zone that does not exist stands among the refusals of files, where people meet it. */
export type RefusalOfTime = Exclude<
  Rfc3339Refusal | Rfc9557Refusal | DateRefusal | ClockRefusal | DurationRefusal | SpanRefusal,
  ZoneRefusal
>;

type Of<Type extends RefusalOfTime["type"]> = Extract<RefusalOfTime, { readonly type: Type }>;

const WRITE_INSTANT = "Write it as 2026-03-04T06:00:00Z or with an offset, such as 2026-03-04T07:00:00+01:00.";

export const REFUSALS_OF_TIMES: Catalogue<RefusalOfTime> = {
  "no-such-date": unfit<Of<"no-such-date">>(
    { type: "no-such-date", year: 2026, month: 2, day: 31, daysInMonth: 28 },
    ({ year, month, day, daysInMonth }) =>
      `The calendar has no day ${day} in month ${month} of ${year}${daysInMonth === null ? "" : `: that month has ${daysInMonth} days`}.`,
    () => "Check day and month.",
  ),
  "no-such-clock-time": unfit<Of<"no-such-clock-time">>(
    { type: "no-such-clock-time", hour: 25, minute: 0, second: 0, millisecond: 0 },
    ({ hour, minute, second }) => `No clock shows ${hour}:${minute}:${second}.`,
    () => "Check hour, minute and second.",
  ),
  "leap-second": unfit<Of<"leap-second">>(
    { type: "leap-second" },
    () => "Second 60 is not counted here.",
    () => "Write second 59, or the next full minute.",
  ),
  "not-a-timestamp": unfit<Of<"not-a-timestamp">>(
    { type: "not-a-timestamp", text: "2026-03-04 07:31", missing: "seconds" },
    ({ text, missing }) =>
      `"${text}" is not a complete time: ${missing === "end of text" ? "something follows it" : `its ${missing} ${missing === "seconds" || missing === "fraction digits" ? "are" : "is"} missing`}.`,
    () => WRITE_INSTANT,
  ),
  "no-such-offset": unfit<Of<"no-such-offset">>(
    { type: "no-such-offset", offset: "+25:00" },
    ({ offset }) => `No place has the offset ${offset}.`,
    () => "Offsets lie between -23:59 and +23:59.",
  ),
  "outside-written-years": unfit<Of<"outside-written-years">>(
    { type: "outside-written-years", text: "9999-12-31T23:59:59-01:00" },
    ({ text }) => `"${text}" lies outside the years 0 to 9999.`,
    () => "Check the year.",
  ),
  "bad-suffix": unfit<Of<"bad-suffix">>(
    { type: "bad-suffix", suffix: "[" },
    ({ suffix }) => `"${suffix}" is no zone in brackets.`,
    () => "Write the zone as [Europe/London].",
  ),
  "critical-suffix-not-understood": unfit<Of<"critical-suffix-not-understood">>(
    { type: "critical-suffix-not-understood", suffix: "[!u-ca=hebrew]" },
    ({ suffix }) => `"${suffix}" must be understood and is not.`,
    () => "Take the suffix away if the time means the same without it.",
  ),
  "offset-disagrees-with-zone": unfit<Of<"offset-disagrees-with-zone">>(
    { type: "offset-disagrees-with-zone", offset: "+02:00", zone: "Europe/London", zoneSays: ["+00:00"] },
    ({ offset, zone, zoneSays }) => `The offset ${offset} is not that of ${zone} at this time, which is ${zoneSays.join(" or ")}.`,
    () => "Say which of the two is right.",
  ),
  "not-a-date": unfit<Of<"not-a-date">>(
    { type: "not-a-date", text: "4 March" },
    ({ text }) => `"${text}" is no date.`,
    () => "Write it as 2026-03-04.",
  ),
  "no-such-day": unfit<Of<"no-such-day">>(
    { type: "no-such-day", text: "2026-02-31", daysInMonth: 28 },
    ({ text, daysInMonth }) => `The calendar has no ${text}${daysInMonth === null ? "" : `: that month has ${daysInMonth} days`}.`,
    () => "Check day and month.",
  ),
  "beyond-year-9999": unfit<Of<"beyond-year-9999">>(
    { type: "beyond-year-9999", text: "9990-01-01", years: 30 },
    ({ text, years }) => `${years} years after ${text} lie beyond the year 9999.`,
    () => "Check the year.",
  ),
  "not-a-clock-time": unfit<Of<"not-a-clock-time">>(
    { type: "not-a-clock-time", text: "noon" },
    ({ text }) => `"${text}" is no clock time.`,
    () => "Write it as 06:00, 18:30:15 or 06:30 PM.",
  ),
  "no-such-clock-text": unfit<Of<"no-such-clock-text">>(
    { type: "no-such-clock-text", text: "13:00 PM" },
    ({ text }) => `No clock shows "${text}".`,
    () => "Check hour, minute and half of the day.",
  ),
  "not-a-duration": unfit<Of<"not-a-duration">>(
    { type: "not-a-duration", text: "8h" },
    ({ text }) => `"${text}" is no length of time.`,
    () => "Write it as PT8H30M, or in seconds.",
  ),
  "duration-without-fixed-length": unfit<Of<"duration-without-fixed-length">>(
    { type: "duration-without-fixed-length", text: "P1M" },
    ({ text }) => `"${text}" has no fixed length: months and years differ.`,
    () => "Give days, hours, minutes or seconds.",
  ),
  "local-time-happens-twice": unfit<Of<"local-time-happens-twice">>(
    {
      type: "local-time-happens-twice",
      which: "start",
      earlier: 0 as Of<"local-time-happens-twice">["earlier"],
      later: 3_600_000 as Of<"local-time-happens-twice">["later"],
    },
    ({ which }) => `The ${which} lies in the hour that the clocks go through twice.`,
    () => "Give it with its offset.",
  ),
  "local-time-does-not-happen": unfit<Of<"local-time-does-not-happen">>(
    {
      type: "local-time-does-not-happen",
      which: "start",
      lastSecondBefore: -1000 as Of<"local-time-does-not-happen">["lastSecondBefore"],
      firstAfter: 0 as Of<"local-time-does-not-happen">["firstAfter"],
    },
    ({ which }) => `The ${which} lies in the hour that the clock change skips.`,
    () => "Give the time before or after the change.",
  ),
  "ends-before-start": unfit<Of<"ends-before-start">>(
    { type: "ends-before-start", start: 3_600_000 as Of<"ends-before-start">["start"], end: 0 as Of<"ends-before-start">["end"] },
    () => "It ends before it begins.",
    () => "Give the later time second, with the next day where it passes midnight.",
  ),
};
