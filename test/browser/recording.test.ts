import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openRoom, type Room, seen, shots, until } from "./room.ts";

let room: Room;
const folder = mkdtempSync(join(tmpdir(), "lamproom-files-"));

/** A shift at ten-second steps with a release, an overflow of the range, and a hole of 22 minutes; invented. */
const shiftFile = (name: string, zone: boolean): string => {
  const lines = ["Time,CO (ppm),H2S (ppm),O2 (vol%)"];
  for (let at = 0; at < 2880; at++) {
    if (at >= 1500 && at < 1632) continue;
    const minute = Math.floor(at / 6);
    const clock = `${String(6 + Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}:${String((at % 6) * 10).padStart(2, "0")}`;
    const release = at >= 900 && at < 990;
    lines.push(`2026-11-24${zone ? "T" : " "}${clock}${zone ? "Z" : ""},${release ? 60 : 8},${release ? 42.5 : 0.4},20.9`);
  }
  const path = join(folder, name);
  writeFileSync(path, `${lines.join("\n")}\n`);
  return path;
};

const drop = async (path: string, name: string): Promise<void> => {
  const text = readFileSync(path, "utf8");
  // A real drop event with a real file in it, as a person's hand makes it.
  await room.page.evaluate(
    `(() => { const data = new DataTransfer(); data.items.add(new File([${JSON.stringify(text)}], ${JSON.stringify(name)}, { type: "text/csv" }));
      document.querySelector("main").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true })); })()`,
  );
};

const answer = (): Promise<string> => seen(room.page.locator("h1"));
const outcomes = async (): Promise<readonly string[]> => (await room.page.locator(".find-t .o").allInnerTexts()).map((text) => text.trim());

/** The last choice has been computed. */
const settled = async (): Promise<void> => until(room.page, `!document.querySelector(".undo").textContent.includes("Computing")`);

beforeAll(async () => {
  room = await openRoom();
  room.page.setDefaultTimeout(15_000);
});
afterAll(async () => {
  await room.close();
});

describe("a dropped file", () => {
  test("asks for the zone before anything is computed", async () => {
    await room.page.goto(`${room.address}/recordings`);
    await drop(shiftFile("pit.csv", false), "pit.csv");
    await room.page.getByText(/needs an answer before/).waitFor();
    await room.page.getByRole("link", { name: "Answer" }).click();
    await room.page.getByText("In which time zone are the times?").waitFor();
    expect(await answer()).toMatch(/can be read in more than one way/);
    expect(await room.page.locator(".preview tbody tr").count()).toBeGreaterThanOrEqual(20);
    await room.page.screenshot({ path: `${shots}/flow-question.png`, fullPage: true });
  });

  test("names the missing answer in words and takes none by itself", async () => {
    await room.page.getByRole("button", { name: "Read with these answers" }).click();
    expect(await seen(room.page.locator("[role=alert] a").first())).toMatch(/^Answer this one: /);
  });

  test("refuses a zone that does not exist and says which exist", async () => {
    await room.page.locator(".question input:not([type=radio])").first().fill("Europe/Lundon");
    await room.page.getByRole("button", { name: "Read with these answers" }).click();
    await room.page
      .getByText(/Europe\/London/)
      .first()
      .waitFor();
  });

  test("is read once answered, and opens", async () => {
    const field = room.page.locator(".question input:not([type=radio])").first();
    await field.fill("Europe/London");
    await room.page.getByRole("button", { name: "Read with these answers" }).click();
    await room.page.getByRole("link", { name: "Open the recording" }).click();
    await room.page.locator(".find-t .o").first().waitFor();
    expect(await answer()).toMatch(/exceeds/);
    expect(await outcomes()).toContain("Exceeds");
    await room.page.screenshot({ path: `${shots}/flow-recording.png`, fullPage: true });
  });

  test("shows panels in the fixed order, each with its sentence", async () => {
    const plots = await room.page.locator(".panel .hold .plot").all();
    const labels = await Promise.all(plots.map((plot) => plot.getAttribute("aria-label")));
    expect(labels.map((label) => label?.split(",")[0])).toEqual(["H2S", "CO", "O2"]);
  });

  test("shows the gap as a gap, with its length", async () => {
    expect(await room.page.locator(".plot rect.gap").count()).toBeGreaterThanOrEqual(3);
    expect(await seen(room.page.locator(".plot .says").first())).toMatch(/not measured 2[12]/);
  });
});

describe("grounds", () => {
  test("open from the figure, stand in the address, and close with Esc, giving the focus back", async () => {
    await room.page.locator(".find-t .g").first().focus();
    await room.page.keyboard.press("g");
    const sheet = room.page.getByRole("complementary");
    await sheet.waitFor();
    expect(room.page.url()).toContain("#grounds/");
    expect(await seen(sheet)).toMatch(/SHA-256/);
    await room.page.keyboard.press("Escape");
    await sheet.waitFor({ state: "detached" });
    expect(await room.page.evaluate("document.activeElement.className")).toBe("g");
  });
});

describe("a declaration", () => {
  test("needs who and why", async () => {
    await room.page.getByRole("button", { name: "Declare something" }).click();
    const sheet = room.page.getByRole("complementary", { name: "Declare" });
    await sheet.getByRole("button", { name: "Declare it" }).click();
    expect(await sheet.locator("[role=alert] p").allInnerTexts()).toEqual([
      "Say which of the four it is",
      "Enter the name of the person who says so",
      "Enter the reason, for example: in the cradle, log of the lamp room",
    ]);
    expect(await sheet.locator("input[name=kind]:checked").count()).toBe(0);
  });

  test("recomputes at once and is undone in one press", async () => {
    const { page } = room;
    const sheet = page.getByRole("complementary", { name: "Declare" });
    // Without shift times what lies before and after the recording is open too, and a hole inside it decides little.
    await sheet.getByLabel("Shift from").fill("06:00");
    await sheet.getByLabel("to", { exact: true }).fill("14:00");
    await sheet.getByRole("button", { name: "Add the shift" }).click();
    await sheet.getByText("The whole shift, 06:00:00 to 14:00:00").waitFor();
    await settled();
    const before = await page.locator(".find-t").allInnerTexts();
    await sheet.getByRole("radio", { name: "Nobody was exposed" }).check();
    // The hole is the one stretch without readings, and the form has it already.
    expect(await seen(sheet.locator("label:has(input[name=when]:checked)"))).toMatch(/^10:10:0\d to 10:32:00, 21.min .*no readings$/);
    await sheet.getByLabel("Who says so").fill("L. Garrick");
    await sheet.getByLabel("Why").fill("in the cradle");
    await sheet.getByRole("button", { name: "Declare it" }).click();
    await page.getByText("Declared by L. Garrick").first().waitFor();
    await page.locator(".declarations tbody tr").waitFor();
    await page.getByText("declared unexposed by L. Garrick").first().waitFor();
    await settled();
    const declared = await page.locator(".find-t").allInnerTexts();
    await page.screenshot({ path: `${shots}/flow-declared.png`, fullPage: true });
    await page.getByRole("button", { name: "Undo" }).click();
    await page.locator(".declarations tbody tr").waitFor({ state: "detached" });
    await settled();
    expect(await page.locator(".find-t").allInnerTexts()).toEqual(before);
    expect(declared).not.toEqual(before);
    await page.getByRole("button", { name: "Take away the shift from 06:00" }).click();
    await settled();
  });
});

describe("choices", () => {
  test("regimes are chosen and stand side by side", async () => {
    const { page } = room;
    const heads = page.locator(".sides thead th");
    expect((await heads.allInnerTexts()).slice(1)).toContain("GB-WEL");
    await page.getByRole("checkbox", { name: "US-OSHA" }).uncheck();
    await until(page, `![...document.querySelectorAll(".sides thead th")].some((head) => head.textContent === "US-OSHA")`);
    await page.getByRole("checkbox", { name: "US-OSHA" }).check();
  });

  test("a shift is set by its times", async () => {
    const { page } = room;
    await page.locator(".settings").getByLabel("Shift from").fill("06:00");
    await page.locator(".settings").getByLabel("to", { exact: true }).fill("14:00");
    await page.locator(".settings").getByRole("button", { name: "Add the shift" }).click();
    await page.getByText("06:00 to 14:00").first().waitFor();
    await page.getByRole("button", { name: "Undo" }).click();
  });
});

describe("a correction of a guess", () => {
  test("reads the file again and shows what changed", async () => {
    const { page } = room;
    await page.getByRole("link", { name: /rows read/ }).click();
    await page.getByRole("button", { name: /^Change unit of O2/ }).click();
    await page.locator("form.inline select").selectOption("ppm");
    await page.getByRole("button", { name: "Read again" }).click();
    // The file itself says vol %: it is asked which of the two counts, and nothing is taken silently.
    await page.getByRole("radio", { name: /^ppm/ }).check();
    await page.getByRole("button", { name: "Read with these answers" }).click();
    await page.getByText("What your answer changed").waitFor();
    await expect.poll(() => seen(page.locator("section:has-text('What your answer changed')").first())).toMatch(/ppm/);
    await page.screenshot({ path: `${shots}/flow-changed.png`, fullPage: true });
  });

  test("a mapping is saved as JSON", async () => {
    const [saved] = await Promise.all([
      room.page.waitForEvent("download"),
      room.page.getByRole("button", { name: "Save the mapping" }).click(),
    ]);
    expect(JSON.parse(readFileSync(await saved.path(), "utf8"))).toMatchObject({ form: "lamproom-mapping/1" });
  });
});

describe("taken along", () => {
  test("the answer is saved as JSON and CSV, and prints on A4", async () => {
    const { page } = room;
    await page.getByRole("link", { name: "Open the recording" }).click();
    await page.locator(".find-t .o").first().waitFor();
    const [json] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save as JSON" }).click()]);
    expect(JSON.parse(readFileSync(await json.path(), "utf8"))).toMatchObject({
      form: "lamproom-exposure/1",
      files: [{ file: "pit.csv" }],
    });
    const [csv] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the findings as CSV" }).click(),
    ]);
    expect(readFileSync(await csv.path(), "utf8").split("\r\n")[0]).toContain("outcome,low,best,high");
    const pdf = await page.pdf({ format: "A4", path: `${shots}/flow-print.pdf` });
    expect(pdf.length).toBeGreaterThan(10_000);
  });
});

describe("files that are none", () => {
  test("are each refused on their own; others are still answered", async () => {
    const { page } = room;
    await page.goto(`${room.address}/recordings`);
    const pdf = join(folder, "report.csv");
    writeFileSync(pdf, "%PDF-1.7\n1 0 obj\n<<>>\nendobj\n");
    const empty = join(folder, "empty.csv");
    writeFileSync(empty, "");
    await page.locator("input[type=file]").setInputFiles([pdf, empty, shiftFile("good.csv", true)]);
    await page.locator(".shelf tr:has-text('good.csv') .exceeds").waitFor();
    const rows = await page.locator(".shelf tbody tr").allInnerTexts();
    expect(rows.find((row) => row.includes("report.csv"))).toMatch(/PDF/);
    expect(rows.find((row) => row.includes("empty.csv"))).toMatch(/Not read/);
    await page.screenshot({ path: `${shots}/flow-several.png` });
  });
});

test("nothing left this machine, and no page met a fault", () => {
  expect(room.strangers).toEqual([]);
  expect(room.faults).toEqual([]);
});
