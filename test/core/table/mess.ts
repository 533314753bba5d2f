/** The mess of gas logs, one kind a row: a file, answers given beforehand, and what is stored, asked or rejected. */

export interface Mess {
  readonly what: string;
  readonly text: string | Uint8Array;
  readonly given?: Readonly<Record<string, string>>;
  /** "clock: values", instants of 2026-03-04 UTC shortened to the clock. */
  readonly rows?: readonly string[];
  /** Ids of blocking questions before the answers. */
  readonly asks?: readonly string[];
  readonly faults?: readonly string[];
  readonly skipped?: Readonly<Record<string, readonly number[]>>;
}

export const log = (...lines: readonly string[]): string => `${lines.join("\n")}\n`;
export const CO = "time,CO (ppm)";
export const Z = "2026-03-04T07:30:00Z,1";
export const LONDON = { zone: "Europe/London" };

export const MESSES: readonly Mess[] = [
  { what: "zone in the heading", text: log("Time (UTC),CO (ppm)", "2026-03-04 07:30:00,1"), asks: [], rows: ["07:30:00: 1"] },
  {
    what: "offset in the units row",
    text: log("Time,CO", "UTC+1,ppm", "2026-03-04 07:30:00,1"),
    asks: [],
    rows: ["06:30:00: 1"],
  },
  ...["Time [GMT]", "time_utc", "TimeUTC", "Time, Z", "Zeit (UTC+00:00)"].map((label) => ({
    what: `zone in the heading: ${label}`,
    text: log(`${label};CO (ppm)`, "2026-03-04 07:30:00;1"),
    asks: [],
    rows: ["07:30:00: 1"],
  })),
  {
    what: "zone name in the heading, before summer time and after",
    text: log("Time [Europe/London],CO (ppm)", "2026-03-04 07:30:00,1", "2026-04-04 07:30:00,2"),
    asks: [],
    rows: ["07:30:00: 1", "2026-04-04 06:30:00: 2"],
  },
  ...["UTC", "Z", "GMT", "+00:00", "+0000", "[UTC]"].map((cell) => ({
    what: `zone alone in the units row: ${cell}`,
    text: log("Time,CO (ppm),Note", `${cell},,`, "2026-03-04 07:30:00,1,"),
    asks: [],
    rows: ["07:30:00: 1"],
  })),
  {
    what: "zone letters in the heading settle nothing",
    text: log("Time (EST),CO (ppm)", "2026-03-04 07:30:00,1"),
    given: { zone: "-05:00" },
    asks: ["zone"],
    rows: ["12:30:00: 1"],
  },
  {
    what: "no seconds, space for the T, offset",
    text: log(CO, "2026-03-04 07:30+01:00,1", "2026-03-04 07:31 +0100,2"),
    rows: ["06:30:00: 1", "06:31:00: 2"],
  },
  {
    what: "an offset a row",
    text: log(CO, "2026-03-04T07:30:00+01:00,1", "2026-03-04T07:30:00-02,2"),
    rows: ["06:30:00: 1", "09:30:00: 2"],
  },
  { what: "RFC 9557 tag", text: log(CO, "2026-03-04T07:30:00+00:00[Europe/London],1"), rows: ["07:30:00: 1"] },
  {
    what: "fractions of a second",
    text: log(CO, "2026-03-04T07:30:00.250Z,1", "2026-03-04T07:30:00.500Z,2"),
    rows: ["07:30:00.25: 1", "07:30:00.5: 2"],
  },
  { what: "24:00 ends the day", text: log(CO, "2026-03-03 24:00Z,1"), rows: ["00:00:00: 1"] },
  {
    what: "12-hour clock with dots",
    text: log(CO, "03/04/2026 12:30 a.m.,1", "03/14/2026 1:00 p.m.,2"),
    given: { zone: "UTC" },
    rows: ["00:30:00: 1", "2026-03-14 13:00:00: 2"],
  },
  {
    what: "hour 13 with PM",
    text: log(CO, Z, "2026-03-04 13:30 PM,2"),
    given: { zone: "UTC" },
    rows: ["07:30:00: 1"],
    faults: ["3 impossible time"],
  },
  {
    what: "months by name, German",
    text: log("Zeit;CO (ppm)", "4. März 2026 07:30;1", "4. Mär 2026 07:31;2"),
    given: { zone: "UTC" },
    rows: ["07:30:00: 1", "07:31:00: 2"],
  },
  {
    what: "months by name, English, month first",
    text: log(CO, '"Mar 4, 2026 07:30:00",1'),
    given: { zone: "UTC" },
    rows: ["07:30:00: 1"],
  },
  {
    what: "dotted clock",
    text: log("Date;Time;CO (mg/m3)", "04/03/2026;07.30.00;1,5", "14/03/2026;07.30.00;2,5"),
    given: { zone: "UTC", "confirm/*": "yes" },
    rows: ["07:30:00: 1.5", "2026-03-14 07:30:00: 2.5"],
  },
  { what: "compact ISO", text: log(CO, "20260304T073000Z,1", "20260304T073100Z,2"), rows: ["07:30:00: 1", "07:31:00: 2"] },
  {
    what: "date on the first row only, over midnight",
    text: log("Date,Time,CO (ppm)", "2026-03-03,23:59:00,1", ",00:00:00,2", ",00:01:00,3"),
    given: { zone: "UTC" },
    rows: ["2026-03-03 23:59:00: 1", "00:00:00: 2", "00:01:00: 3"],
  },
  {
    what: "a row before the first date has no time",
    text: log("Date,Time,CO (ppm)", ",23:59:00,1", "2026-03-04,00:00:00,2", ",00:01:00,3"),
    given: { zone: "UTC" },
    rows: ["00:00:00: 2", "00:01:00: 3"],
    faults: ["2 not a time"],
  },
  {
    what: "clock without a date",
    text: log("Time,CO (ppm)", "07:30:00,1", "07:31:00,2"),
    given: { zone: "UTC", start: "2026-03-04" },
    asks: ["start", "zone"],
    rows: ["07:30:00: 1", "07:31:00: 2"],
  },
  {
    what: "31 February",
    text: log("Date,Time,CO (ppm)", "27/02/2026,07:30,1", "31/02/2026,07:30,2"),
    given: { zone: "UTC" },
    rows: ["2026-02-27 07:30:00: 1"],
    faults: ["3 impossible time"],
  },
  {
    what: "two-digit years",
    text: log(CO, "14/03/26 07:30,1", "31/03/26 07:30,2"),
    given: { zone: "UTC", "two-digit year": "1970", "day and month": "day first" },
    asks: ["day and month", "two-digit year", "zone"],
    rows: ["2026-03-14 07:30:00: 1", "2026-03-31 07:30:00: 2"],
  },
  { what: "Unix seconds", text: log("unix time,CO (ppm)", "1772609400,1", "1772609401,2"), rows: ["07:30:00: 1", "07:30:01: 2"] },
  {
    what: "Unix milliseconds, asked",
    text: log("time,CO (ppm)", "1772609400000,1", "1772609401000,2"),
    given: { "confirm/*": "yes" },
    asks: ["time form"],
    rows: ["07:30:00: 1", "07:30:01: 2"],
  },
  {
    what: "seconds from the start, anchored",
    text: log("Time (s),CO (ppm)", "0.,1", "0.5,2"),
    given: { start: "2026-03-04T07:30:00Z" },
    asks: [],
    rows: ["07:30:00: 1", "07:30:00.5: 2"],
  },
  {
    what: "minutes from the start",
    text: log("Elapsed (min),CO (ppm)", "0,1", "1.5,2"),
    given: { start: "2026-03-04T07:30:00Z" },
    asks: [],
    rows: ["07:30:00: 1", "07:31:30: 2"],
  },
  {
    what: "day numbers",
    text: log("Time,CO (ppm)", "46085.3125,1"),
    given: { zone: "UTC", "time form": "day-number-1900" },
    asks: ["time form", "zone"],
    rows: ["07:30:00: 1"],
  },
  {
    what: "two time columns",
    text: log("logged,sent,CO (ppm)", "2026-03-04T07:30:00Z,2026-03-04T08:30:00Z,1"),
    given: { "two time columns": "logged" },
    asks: ["two time columns"],
    rows: ["07:30:00: 1"],
  },
  {
    what: "zone letters",
    text: log(CO, "2026-03-04 07:30:00 CET,1"),
    given: { "zone letters/CET": "+01:00" },
    asks: ["zone letters/CET"],
    rows: ["06:30:00: 1"],
  },
  {
    what: "times running backwards",
    text: log(CO, "2026-03-04T07:31:00Z,1", "2026-03-04T07:30:00Z,2"),
    rows: ["07:31:00: 1", "07:30:00: 2"],
    faults: ["3 time runs backwards kept"],
  },
  { what: "group apostrophes", text: log(CO, "2026-03-04T07:30:00Z,1'234.5"), rows: ["07:30:00: 1234.5"] },
  {
    what: "no-break spaces in groups, decimal comma",
    text: log("time;CO (ppm)", "2026-03-04T07:30:00Z;1\u00a0234,5"),
    given: { "confirm/*": "yes" },
    asks: ["decimal mark/*"],
    rows: ["07:30:00: 1234.5"],
  },
  {
    what: "true minus, full-width digits, exponents, trailing point",
    text: log(
      CO,
      "2026-03-04T07:30:00Z,\u22121",
      "2026-03-04T07:31:00Z,\uff11\uff12",
      "2026-03-04T07:32:00Z,3.98E-06",
      "2026-03-04T07:33:00Z,1430.",
      "2026-03-04T07:34:00Z,+2e3",
    ),
    rows: ["07:30:00: -1", "07:31:00: 12", "07:32:00: 0.00000398", "07:33:00: 1430", "07:34:00: 2000"],
  },
  {
    what: "more digits than a double holds are cut",
    text: log(CO, "2026-03-04T07:30:00Z,20.899999618530273"),
    rows: ["07:30:00: 20.8999996185302"],
  },
  {
    what: "bounds",
    text: log(CO, "2026-03-04T07:30:00Z,>500", "2026-03-04T07:31:00Z,<0.5", "2026-03-04T07:32:00Z,≥ 500"),
    rows: ["07:30:00: >=500", "07:31:00: <=0.5", "07:32:00: >=500"],
  },
  {
    what: "over range with a range top told",
    text: log(CO, Z, "2026-03-04T07:31:00Z,OVER"),
    given: { "word/OVER": "over range", "range top/CO (ppm)": "500" },
    asks: ["word/OVER"],
    rows: ["07:30:00: 1", "07:31:00: >=500"],
  },
  { what: "a word nobody knows, once", text: log(CO, Z, "2026-03-04T07:31:00Z,blip"), rows: ["07:30:00: 1"], faults: ["3 not a number"] },
  {
    what: "a word nobody knows, often",
    text: log(
      CO,
      ...[1, 2, 3, 4].map((minute) => `2026-03-04T07:0${minute}:00Z,blip`),
      "2026-03-04T07:05:00Z,1",
      "2026-03-04T07:06:00Z,1",
      "2026-03-04T07:07:00Z,1",
      "2026-03-04T07:08:00Z,1",
      "2026-03-04T07:09:00Z,1",
    ),
    given: { "word/blip": "fault" },
    asks: ["word/blip"],
    rows: [...[1, 2, 3, 4].map((minute) => `07:0${minute}:00: fault`), ...[5, 6, 7, 8, 9].map((minute) => `07:0${minute}:00: 1`)],
  },
  { what: "NaN says what it means", text: log(CO, Z, "2026-03-04T07:31:00Z,NaN"), asks: [], rows: ["07:30:00: 1", "07:31:00: none"] },
  {
    what: "a status column",
    text: log("time,CO (ppm),status", `${Z},ok`, "2026-03-04T07:31:00Z,99,fault"),
    given: { "word/fault": "fault" },
    asks: ["word/fault"],
    rows: ["07:30:00: 1", "07:31:00: fault"],
  },
  {
    what: "oxygen of 209 %",
    text: log("time,O2 (%vol)", "2026-03-04T07:30:00Z,20.9", "2026-03-04T07:31:00Z,209"),
    rows: ["07:30:00: 20.9"],
    faults: ["3 impossible value"],
  },
  {
    what: "the unit changes in the cells",
    text: log("time,CO", "2026-03-04T07:30:00Z,1 ppm", "2026-03-04T07:31:00Z,2 mg/m3"),
    given: { "unit/CO": "ppm" },
    asks: ["unit/CO"],
    rows: ["07:30:00: 1"],
    faults: ["3 unit changed"],
  },
  {
    what: "the heading again with another unit",
    text: log(CO, Z, "time,CO (mg/m3)", "2026-03-04T07:31:00Z,2", CO, "2026-03-04T07:32:00Z,3"),
    rows: ["07:30:00: 1", "07:32:00: 3"],
    faults: ["3 unit changed", "4 unit changed"],
    skipped: { "header again": [5] },
  },
  { what: "a unit missing", text: log("time,CO", Z), given: { "unit/CO": "ppm" }, asks: ["unit/CO"], rows: ["07:30:00: 1"] },
  {
    what: "bare per cent of oxygen",
    text: log("time,O2 (%)", "2026-03-04T07:30:00Z,20.9"),
    asks: [],
    rows: ["07:30:00: 20.9"],
  },
  {
    what: "totals and an end line",
    text: log(CO, Z, "2026-03-04T07:31:00Z,2", "Total,3", "End of log"),
    rows: ["07:30:00: 1", "07:31:00: 2"],
    faults: ["4 footer kept", "5 footer kept"],
    skipped: { footer: [4, 5] },
  },
  {
    what: "prose between rows",
    text: log(CO, Z, "power lost", "2026-03-04T07:31:00Z,2"),
    rows: ["07:30:00: 1", "07:31:00: 2"],
    faults: ["3 neither comment nor table"],
  },
  {
    what: "rows of nothing but delimiters",
    text: log("time;CO (ppm);", "2026-03-04T07:30:00Z;1;", ";;", ";;"),
    rows: ["07:30:00: 1"],
    skipped: { blank: [3, 4] },
  },
  {
    what: "comments",
    text: log("# made by hand", CO, Z, "# pause", "2026-03-04T07:31:00Z,2"),
    rows: ["07:30:00: 1", "07:31:00: 2"],
    skipped: { comment: [1, 4] },
  },
  { what: "CR alone", text: log(CO, Z, "2026-03-04T07:31:00Z,2").replaceAll("\n", "\r"), rows: ["07:30:00: 1", "07:31:00: 2"] },
  { what: "CR CR LF", text: log(CO, Z, "2026-03-04T07:31:00Z,2").replaceAll("\n", "\r\r\n"), rows: ["07:30:00: 1", "07:31:00: 2"] },
  { what: "no newline at the end", text: `${CO}\n${Z}`, rows: ["07:30:00: 1"] },
  {
    what: "cut off in the time of the last row",
    text: `${CO}\n${Z}\n2026-03-04T07:31:00Z,2\n2026-03`,
    rows: ["07:30:00: 1", "07:31:00: 2"],
    faults: ["4 missing cell"],
  },
  { what: "Control-Z at the end", text: `${log(CO, Z)}\u001a`, rows: ["07:30:00: 1"], skipped: { "end mark": [3] } },
  { what: "comma and a space", text: log("time, CO (ppm)", "2026-03-04T07:30:00Z, 1"), rows: ["07:30:00: 1"] },
  { what: "pipes and quotes", text: log('"time"|"CO (ppm)"', '"2026-03-04T07:30:00Z"|"1"'), rows: ["07:30:00: 1"] },
  {
    what: "apostrophes as quotes",
    text: log("'time','CO (ppm)','note'", "'2026-03-04T07:30:00Z','1','a, b'", "'2026-03-04T07:31:00Z','2',''"),
    rows: ["07:30:00: 1", "07:31:00: 2"],
  },
  { what: "UTF-16 big-endian with mark", text: utf16(`\ufeff${log(CO, Z)}`, false), rows: ["07:30:00: 1"] },
  {
    what: "UTF-16 without a mark",
    text: utf16(log(CO, Z), true),
    given: { "confirm/*": "yes" },
    asks: ["encoding"],
    rows: ["07:30:00: 1"],
  },
  {
    what: "several series in one file",
    text: log("run,Time (s),CO (ppm)", ...[1, 2, 3].flatMap((run) => [0, 10, 20].map((second) => `${run},${second},${run}`))),
    given: { start: "2026-03-04T07:30:00Z" },
    asks: [],
    rows: [1, 2, 3].flatMap((run) => ["07:30:00", "07:30:10", "07:30:20"].map((time) => `${time}: ${run} of ${run}`)),
  },
  {
    what: "the hour that happens twice, in steady order",
    text: log(CO, "2025-10-26 00:30,1", "2025-10-26 01:30,2", "2025-10-26 01:00,3", "2025-10-26 02:00,4"),
    given: LONDON,
    rows: ["2025-10-25 23:30:00: 1", "2025-10-26 00:30:00: 2", "2025-10-26 01:00:00: 3", "2025-10-26 02:00:00: 4"],
  },
  {
    what: "a newline in a cell counts its lines",
    text: log("time,CO (ppm),note", `${Z},"a`, 'b"', "2026-03-04T07:31:00Z,2,"),
    rows: ["07:30:00: 1", "07:31:00: 2"],
  },
];

function utf16(text: string, lowFirst: boolean): Uint8Array {
  return Uint8Array.from(
    [...text].flatMap((letter) =>
      lowFirst ? [letter.charCodeAt(0) & 255, letter.charCodeAt(0) >> 8] : [letter.charCodeAt(0) >> 8, letter.charCodeAt(0) & 255],
    ),
  );
}
