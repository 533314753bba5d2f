/** What a person says of a recording: declarations, shifts, settings, answers; and that a reload loses none of it. */
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { accessFaults, openRoom, overhang, phone, type Room, seen, shots, until } from "./room.ts";

let room: Room;
const folder = mkdtempSync(join(tmpdir(), "lamproom-said-"));

const two = (value: number): string => String(value).padStart(2, "0");

interface Log {
  readonly name: string;
  readonly head?: string;
  readonly minutes: number;
  readonly level: (minute: number) => string;
  /** Minutes that have no row. */
  readonly without?: readonly [number, number];
  readonly day?: (minute: number) => string;
}

/** One-minute steps from 06:00 of 4 March 2026, UTC; invented. */
const file = ({ name, head = "Time,CO (ppm)", minutes, level, without = [0, 0], day }: Log): string => {
  const lines = [head];
  for (let minute = 0; minute < minutes; minute++) {
    if (minute >= without[0] && minute < without[1]) continue;
    const at = 360 + minute;
    const date = day === undefined ? `2026-03-${two(4 + Math.floor(at / 1440))}` : day(minute);
    const zone = day === undefined ? "Z" : "";
    lines.push(
      `${date}T${two(Math.floor(at / 60) % 24)}:${two(at % 60)}:00${zone},${level(minute)}`.replace("T", day === undefined ? "T" : " "),
    );
  }
  const path = join(folder, name);
  writeFileSync(path, `${lines.join("\n")}\n`);
  return path;
};

/** 391 rows of 40 ppm, 06:00 to 12:30. */
const flat = (): string => file({ name: "flat.csv", minutes: 391, level: () => "40" });

const take = async (...paths: readonly string[]): Promise<void> => {
  await room.page.goto(`${room.address}/recordings`);
  await room.page.locator("h1:not(:has-text('Looking'))").waitFor();
  await room.page.locator("input[type=file]").setInputFiles([...paths]);
};

const computed = async (): Promise<void> => {
  await room.page.locator(".find-t .o").first().waitFor();
  await until(room.page, `!document.querySelector(".undo").textContent.includes("Computing")`);
};

const declarations = (): Promise<string> => seen(room.page.locator(".declarations"));
const sheet = () => room.page.getByRole("complementary", { name: "Declare" });

/** The grounds of the gravest finding. */
const grounds = async (): Promise<string> => {
  const { page } = room;
  await page.locator(".find-t .g").first().click();
  const opened = page.getByRole("complementary");
  await opened.waitFor();
  const text = await seen(opened);
  await page.keyboard.press("Escape");
  await opened.waitFor({ state: "detached" });
  return text;
};

beforeAll(async () => {
  room = await openRoom();
  room.page.setDefaultTimeout(15_000);
});
afterAll(async () => room.close());

describe("all time without readings", () => {
  test("is taken another way only with a name and a reason", async () => {
    const { page } = room;
    await take(flat());
    await computed();
    const before = await page.locator(".find-t").allInnerTexts();
    await page.getByRole("radio", { name: "nobody was exposed" }).check();
    await page.getByRole("button", { name: "Declare it for all such time" }).click();
    expect(await page.locator(".signing [role=alert] p").allInnerTexts()).toEqual([
      "Enter the name of the person who says so",
      "Enter the reason, for example: in the cradle, log of the lamp room",
    ]);
    expect(await page.locator(".find-t").allInnerTexts()).toEqual(before);
    expect(await declarations()).toMatch(/Declarations\s+0/);
    await page.screenshot({ path: `${shots}/said-signing.png`, fullPage: true });
  });

  test("then stands among the declarations and in the grounds", async () => {
    const { page } = room;
    await page.locator(".signing").getByLabel("Who says so").fill("A. Hallam");
    await page.locator(".signing").getByLabel("Why").fill("went home at 12:30");
    await page.getByRole("button", { name: "Declare it for all such time" }).click();
    await page.locator(".declarations tbody tr").waitFor();
    await computed();
    const said = await declarations();
    expect(said).toMatch(/Declarations\s+1/);
    expect(said).toMatch(/Nobody was exposed/);
    expect(said).toMatch(/A\. Hallam: went home at 12:30/);
    expect(said).not.toMatch(/Nothing is declared/);
    const rests = await grounds();
    expect(rests).toMatch(/A\. Hallam: went home at 12:30/);
    expect(rests).not.toMatch(/Declared\s+Nothing\./);
    await page.screenshot({ path: `${shots}/said-unsampled.png`, fullPage: true });
  });

  test("is taken back in one press, and that is undone in one", async () => {
    const { page } = room;
    await page.getByRole("button", { name: /^Take back: Nobody was exposed/ }).click();
    await page.locator(".declarations tbody tr").waitFor({ state: "detached" });
    expect(await page.getByRole("radio", { name: /^nothing is declared/ }).isChecked()).toBe(true);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.locator(".declarations tbody tr").waitFor();
    expect(await declarations()).toMatch(/A\. Hallam/);
    await page.getByRole("button", { name: /^Take back: Nobody was exposed/ }).click();
    await page.locator(".declarations tbody tr").waitFor({ state: "detached" });
    await computed();
  });
});

describe("a declaration of a stretch", () => {
  test("asks for the shift first where all readings are without a hole, and refuses what would settle nothing", async () => {
    const { page } = room;
    await page.getByRole("button", { name: "Declare something" }).click();
    await sheet().getByText("No time without readings lies within the recording").waitFor();
    await sheet()
      .getByRole("radio", { name: /^It was at most so much/ })
      .check();
    await sheet()
      .getByRole("radio", { name: /^The whole recording/ })
      .check();
    await sheet().locator("#declare-level").fill("13");
    await sheet().getByLabel("Who says so").fill("A. Hallam");
    await sheet().getByLabel("Why").fill("office work");
    await sheet().getByRole("button", { name: "Declare it" }).click();
    expect(await seen(sheet().getByRole("alert"))).toMatch(
      /^No time without readings lies in 06:00:00 to 12:30:00.*391 readings stand there/s,
    );
    expect(await declarations()).toMatch(/Declarations\s+0/);
    await page.screenshot({ path: `${shots}/said-settles-nothing.png` });
  });

  test("has the unsampled stretch once the shift is set, and decides", async () => {
    const { page } = room;
    await sheet().getByLabel("Shift from").fill("06:00");
    await sheet().getByLabel("to", { exact: true }).fill("14:00");
    await sheet().getByRole("button", { name: "Add the shift" }).click();
    await sheet().getByRole("radio", { name: "12:30:00 to 14:00:00, 1 h 30 min: after the last reading" }).waitFor();
    await sheet()
      .getByRole("radio", { name: /^12:30:00 to 14:00:00/ })
      .check();
    expect(await seen(sheet().getByText("The whole shift, "))).toBe("The whole shift, 06:00:00 to 14:00:00");
    await until(page, `document.querySelector(".sheet .met").textContent.startsWith("Settles")`);
    await sheet().getByRole("button", { name: "Declare it" }).click();
    await page.locator(".declarations tbody tr").waitFor();
    await computed();
    expect(await declarations()).toMatch(/12:30:00 to 14:00:00/);
    expect(await grounds()).toMatch(/A\. Hallam/);
    expect((await page.locator(".find-t .o").allInnerTexts()).some((word) => word.includes("Within"))).toBe(true);
  });

  test("that nobody was exposed is contradicted in words by readings above nought", async () => {
    const { page } = room;
    await page.getByRole("button", { name: "Declare something" }).click();
    await sheet().getByRole("radio", { name: "Nobody was exposed" }).check();
    await sheet()
      .getByRole("radio", { name: /^The whole shift/ })
      .check();
    await sheet()
      .getByText(/Contradicted: 391 readings above nought stand in this time, up to 40.ppm/)
      .waitFor();
    await sheet().getByLabel("Why").fill("does not fit");
    await sheet().getByRole("button", { name: "Declare it" }).click();
    await page.locator(".declarations tbody tr").nth(1).waitFor();
    await page
      .locator(".declarations")
      .getByText(/Contradicted/)
      .waitFor();
    await page.getByRole("button", { name: "Undo" }).click();
    await page.locator(".declarations tbody tr").nth(1).waitFor({ state: "detached" });
  });
});

describe("settings for a recording", () => {
  test("are chosen by a named person, who stands beside them and in the grounds", async () => {
    const { page } = room;
    await page.getByText(/^Settings for this recording: none chosen/).click();
    await page.getByLabel("Measurable from, carbon monoxide, ppm").fill("-1");
    const form = page.locator(".site-choices");
    await form.getByLabel("Who says so").fill("");
    await form.getByRole("button", { name: "Set these" }).click();
    expect(await form.locator("[role=alert] p").count()).toBe(3);
    await page.getByLabel("Measurable from, carbon monoxide, ppm").fill("1");
    await page.getByLabel("Shown as 0 up to, carbon monoxide, ppm").fill("2");
    await form.getByLabel("Who says so").fill("M. Thorne");
    await form.getByLabel("Why").fill("site instruction 4");
    await form.getByRole("button", { name: "Set these" }).click();
    await page.getByText("Settings for this recording: chosen by M. Thorne: site instruction 4").waitFor();
    await computed();
    expect(await grounds()).toMatch(/M\. Thorne/);
    await page.screenshot({ path: `${shots}/said-settings.png`, fullPage: true });
    expect(await accessFaults(page)).toEqual([]);
  });
});

describe("a reload", () => {
  test("brings file, declarations, shift and settings back", async () => {
    const { page } = room;
    const findings = await page.locator(".find-t").allInnerTexts();
    const said = await declarations();
    await page.reload();
    await computed();
    expect(await declarations()).toBe(said);
    expect(await page.locator(".find-t").allInnerTexts()).toEqual(findings);
    await page.getByText("Settings for this recording: chosen by M. Thorne: site instruction 4").waitFor();
    await page.getByText("06:00 to 14:00").first().waitFor();
  });

  test("and the list shows it without being asked, says where it is kept, and forgets it on a press", async () => {
    const { page } = room;
    await page.goto(`${room.address}/recordings`);
    await page.locator(".shelf tr:has-text('flat.csv') .standing").waitFor();
    await page.getByText(/are kept in this browser, on this machine, until they are put away/).waitFor();
    await page.getByRole("button", { name: "Put away flat.csv" }).click();
    await page.getByText(/flat\.csv put away, and what was said of it forgotten/).waitFor();
    await page.getByRole("button", { name: "Bring it back" }).click();
    await page.locator(".shelf tr:has-text('flat.csv') .standing").waitFor();
    await page.locator(".shelf a").first().click();
    await computed();
    expect(await declarations()).toMatch(/A\. Hallam/);
    await page.goto(`${room.address}/recordings`);
    await page.locator(".shelf tr:has-text('flat.csv') .standing").waitFor();
    await page.getByRole("button", { name: "Put away flat.csv" }).click();
    await page.getByText(/forgotten/).waitFor();
    await page.reload();
    await page.getByText("No recordings yet.").waitFor();
  });

  test("of a file too large to be kept: it is named, and dropped again it has all that was said", async () => {
    const { page } = room;
    await take(flat());
    await computed();
    await page.getByRole("radio", { name: "nobody was exposed" }).check();
    await page.locator(".signing").getByLabel("Why").fill("at home");
    await page.getByRole("button", { name: "Declare it for all such time" }).click();
    await page.locator(".declarations tbody tr").waitFor();
    await computed();
    // As the browser keeps a file over the line: everything but its bytes.
    await page.evaluate(`new Promise((done) => { const open = indexedDB.open("lamproom", 1); open.onsuccess = () => {
      const cleared = open.result.transaction("files", "readwrite").objectStore("files").clear();
      cleared.onsuccess = () => { open.result.close(); done(null); }; }; })`);
    await page.reload();
    await page.getByText(/^Not loaded: flat\.csv, .* was too large to be kept in this browser\. Drop it again/).waitFor();
    await page.goto(`${room.address}/recordings`);
    await page.getByText("Drop it again.").waitFor();
    await page.screenshot({ path: `${shots}/said-missing.png` });
    // Its name does not matter, its bytes do.
    const copy = join(folder, "copy of it.csv");
    writeFileSync(copy, readFileSync(join(folder, "flat.csv")));
    await page.locator("input[type=file]").setInputFiles([copy]);
    await computed();
    expect(await declarations()).toMatch(/at home/);
    // It is back at its own address, where a reload finds it.
    await expect.poll(() => page.url()).toMatch(/\/recordings\/flat-csv$/);
    await page.reload();
    await computed();
    expect(await declarations()).toMatch(/at home/);
  });
});

describe("the list", () => {
  test("names both days of a span that crosses midnight, and so does the page", async () => {
    const { page } = room;
    await take(file({ name: "night.csv", minutes: 1200, level: () => "1" }));
    await computed();
    expect(await seen(page.locator("p.lines"))).toMatch(/Wed 4 Mar 2026, 06:00 to Thu 5 Mar 2026, 01:59/);
    await page.goto(`${room.address}/recordings`);
    await page.getByText("Wed 4 Mar 2026, 06:00 to Thu 5 Mar 2026, 01:59").waitFor();
  });

  test("tells two files of one name apart, and takes one file once", async () => {
    const { page } = room;
    const one = file({ name: "x.csv", minutes: 60, level: () => "3" });
    await take(one);
    await computed();
    writeFileSync(one, readFileSync(one, "utf8").replaceAll(",3", ",4"));
    await take(one);
    await computed();
    await page.goto(`${room.address}/recordings`);
    const rows = page.locator(".shelf tr:has-text('x.csv')");
    await rows.nth(1).locator(".apart", { hasText: "SHA-256" }).waitFor();
    await rows.nth(0).locator(".apart", { hasText: "SHA-256" }).waitFor();
    const texts = await rows.locator(".apart").allInnerTexts();
    expect(new Set(texts).size).toBe(2);
    expect(texts.every((text) => /^taken in \d\d:\d\d, [\d\u202f]+ bytes, SHA-256 [0-9a-f]{8}…$/.test(text))).toBe(true);
    await page.locator("input[type=file]").setInputFiles([one]);
    await computed();
    await page.getByRole("navigation").getByRole("link", { name: "Recordings" }).click();
    await page.getByText("x.csv is here already").waitFor();
    expect(await rows.count()).toBe(2);
    await page.screenshot({ path: `${shots}/said-list.png` });
  });
});

describe("a table taken along", () => {
  test("holds no cell that a spreadsheet would run", async () => {
    const { page } = room;
    await take(
      file({ name: "=1+1.csv", head: 'Time,"=HYPERLINK(0) CO (ppm)"', minutes: 500, level: (minute) => (minute === 7 ? "=2+2" : "60") }),
    );
    await computed();
    const [findings] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the findings as CSV" }).click(),
    ]);
    const rows = readFileSync(await findings.path(), "utf8")
      .trim()
      .split("\r\n")
      .slice(1);
    expect(rows.length).toBeGreaterThan(2);
    for (const row of rows) expect(row).toMatch(/^'=1\+1\.csv,[0-9a-f]{64},,'=HYPERLINK/);
    await page.getByRole("link", { name: /rows read/ }).click();
    const [faults] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Download the lines left out" }).click(),
    ]);
    const lines = readFileSync(await faults.path(), "utf8")
      .trim()
      .split("\r\n")
      .slice(1);
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines) expect(line).not.toMatch(/(^|,)"?[=+@\t-]/);
  });
});

describe("an answer", () => {
  test("shows in the rows before it is sent, and an open date shows none", async () => {
    const { page } = room;
    await take(file({ name: "dates.csv", minutes: 30, level: () => "2", day: () => "03/04/2026" }));
    await page.getByRole("link", { name: "Answer" }).click();
    await page.locator(".preview").first().waitFor();
    const rows = page.locator(".preview").last();
    expect(await seen(rows)).toMatch(/as you answer/);
    expect(await seen(rows)).not.toMatch(/2026-0[34]/);
    await page.screenshot({ path: `${shots}/said-date-open.png`, fullPage: true });
    await page
      .getByRole("radio", { name: /month.*day.*year/i })
      .first()
      .check();
    await expect.poll(() => seen(rows)).toMatch(/2026-03-04/);
    await page
      .getByRole("radio", { name: /day.*month.*year/i })
      .first()
      .check();
    await expect.poll(() => seen(rows)).toMatch(/2026-04-03/);
    await page.getByText(/of the cells shown below read differently/).waitFor();
    await page.screenshot({ path: `${shots}/said-date-chosen.png`, fullPage: true });
    await page.setViewportSize(phone);
    await page.screenshot({ path: `${shots}/said-date-phone.png`, fullPage: true });
    expect(await overhang(page)).toBeLessThanOrEqual(0);
  });
});

describe("one level for all time without readings", () => {
  test("is not taken for gases with units of their own, in the words of the command line", async () => {
    const { page } = room;
    await take(file({ name: "units.csv", head: "Time,CO (ppm),CO2 (vol%)", minutes: 300, level: () => "12,0.1" }));
    await computed();
    await page.getByRole("radio", { name: "at most this, at any moment" }).check();
    const signing = page.locator(".signing");
    await signing.getByLabel("At most, in the unit of each channel").fill("2");
    await signing.getByLabel("Who says so").fill("A. Hallam");
    await signing.getByLabel("Why").fill("known source");
    await page.getByRole("button", { name: "Declare it for all such time" }).click();
    const said = await seen(signing.getByRole("alert"));
    expect(said).toContain("The level 2 for time without readings would be taken in the unit of each channel alike");
    expect(said).toContain("State it for each channel by itself, in the unit of that channel.");
    expect(await declarations()).toMatch(/Declarations\s+0/);
  });
});

test("nothing left this machine, and no page met a fault", () => {
  expect(room.strangers).toEqual([]);
  expect(room.faults).toEqual([]);
});
