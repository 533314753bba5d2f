/** Raw beside parsed: what each cell was understood as, and what is not known is not shown. */
import { expect, test } from "vitest";
import { LONDON, log } from "./mess.ts";
import { survey, utf8 } from "./reading.ts";

interface Shown {
  readonly what: string;
  readonly text: string;
  readonly given?: Readonly<Record<string, string>>;
  readonly first: readonly (readonly (string | null)[])[];
}

const SHOWN: readonly Shown[] = [
  {
    what: "a date and its clock: the instant once",
    text: log("Date,Time,CO (ppm)", "2026-03-04,07:30:00,1", ",07:31:00,2"),
    given: LONDON,
    first: [
      ["", "2026-03-04T07:30:00Z", "1"],
      ["", "2026-03-04T07:31:00Z", "2"],
    ],
  },
  {
    what: "a date that does not exist: neither of the two is understood",
    text: log("Date,Time,CO (ppm)", "2026-02-27,07:30:00,1", "2026-02-31,07:30:00,2"),
    given: LONDON,
    first: [
      ["", "2026-02-27T07:30:00Z", "1"],
      [null, null, "2"],
    ],
  },
  {
    what: "numbers and texts beside the readings stand as they are",
    text: log("Time (UTC),CO (ppm),Temp (C),Flow,Note", "2026-03-04 07:30,1,21.50,x,pause", "2026-03-04 07:31,>500,n/a,3,"),
    first: [
      ["2026-03-04T07:30:00Z", "1", "21.50", "x", "pause"],
      ["2026-03-04T07:31:00Z", ">500", "n/a", "3", ""],
    ],
  },
  {
    what: "a column left out shows nothing",
    text: log("Time (UTC),CO (ppm),", "2026-03-04 07:30,1,x", "2026-03-04 07:31,,y"),
    first: [
      ["2026-03-04T07:30:00Z", "1", ""],
      ["2026-03-04T07:31:00Z", "no reading", ""],
    ],
  },
  {
    what: "without a zone a time is no instant",
    text: log("Time,CO (ppm)", "2026-03-04 07:30,1"),
    first: [["2026-03-04T07:30:00", "1"]],
  },
  {
    what: "in the hour that happens twice, nobody knows which, a time is no instant",
    text: log("Time,CO (ppm)", "2025-10-26 00:30,1", "2025-10-26 01:30,2", "2025-10-26 02:30,3"),
    given: LONDON,
    first: [
      ["2025-10-25T23:30:00Z", "1"],
      ["2025-10-26T01:30:00", "2"],
      ["2025-10-26T02:30:00Z", "3"],
    ],
  },
  {
    what: "while day and month are open, a time has no day",
    text: log("time,CO (ppm)", "03/04/2026 07:30,1"),
    given: LONDON,
    first: [["07:30:00", "1"]],
  },
  {
    what: "with day and month answered, it has",
    text: log("time,CO (ppm)", "03/04/2026 07:30,1"),
    given: { ...LONDON, "day and month": "month-day-year" },
    first: [["2026-03-04T07:30:00Z", "1"]],
  },
  {
    what: "the other answer, the other day",
    text: log("time,CO (ppm)", "03/04/2026 07:30,1"),
    given: { ...LONDON, "day and month": "day-month-year" },
    first: [["2026-04-03T06:30:00Z", "1"]],
  },
  {
    what: "a date alone while day and month are open: nothing",
    text: log("Date,CO (ppm)", "03/04/2026,1"),
    given: LONDON,
    first: [["", "1"]],
  },
  {
    what: "the century of two digits open: no day",
    text: log("time,CO (ppm)", "4 Mar 26 07:30,1"),
    given: LONDON,
    first: [["07:30:00", "1"]],
  },
  {
    what: "a clock of twelve hours perhaps: no hour",
    text: log("time,CO (ppm)", "2026-03-04 12:30,1", "2026-03-04 02:30,2"),
    given: LONDON,
    first: [
      ["2026-03-04", "1"],
      ["2026-03-04", "2"],
    ],
  },
  {
    what: "a clock of twelve hours, answered",
    text: log("time,CO (ppm)", "2026-03-04 12:30,1", "2026-03-04 02:30,2"),
    given: { ...LONDON, "twelve-hour clock": "after noon" },
    first: [
      ["2026-03-04T12:30:00Z", "1"],
      ["2026-03-04T14:30:00Z", "2"],
    ],
  },
  {
    what: "marks open: a number that they change is not shown, a whole one and a text are",
    text: log("time\tCO (ppm)\tNote", "2026-03-04T07:30:00Z\t1,250\ta, b", "2026-03-04T07:31:00Z\t7\tc"),
    first: [
      ["2026-03-04T07:30:00Z", null, "a, b"],
      ["2026-03-04T07:31:00Z", "7", "c"],
    ],
  },
  {
    what: "marks answered",
    text: log("time\tCO (ppm)", "2026-03-04T07:30:00Z\t1,250"),
    given: { "decimal mark/*": "," },
    first: [["2026-03-04T07:30:00Z", "1.250"]],
  },
  {
    what: "seconds from the start",
    text: log("Time (s),CO (ppm)", "0,1", "0.5,abc"),
    first: [
      ["0", "1"],
      ["0.5", null],
    ],
  },
];

test.for(SHOWN.map((shown) => [shown.what, shown] as const))("%s", ([, { text, given = {}, first }]) => {
  const found = survey(utf8(text), given);
  expect(found.ok && found.value.preview.first.map(({ parsed }) => parsed)).toEqual(first);
});

test("a hard row far below shows no day that it does not carry itself", () => {
  const plain = Array.from({ length: 40 }, (_, minute) => `,00:${String(minute).padStart(2, "0")}:00,${minute}`);
  plain[0] = "2026-03-04,00:00:00,0";
  const found = survey(utf8(log("Date,Time,CO (ppm)", ...plain, ",00:45:00,what", "2026-03-05,00:00:00,whether")), LONDON);
  expect(found.ok && found.value.preview.worst.map(({ line, parsed }) => [line, ...parsed])).toEqual([
    [42, "", "00:45:00", null],
    [43, "", "2026-03-05T00:00:00Z", null],
  ]);
});
