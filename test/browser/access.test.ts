import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { accessFaults, desktop, openRoom, overhang, phone, type Room, shots } from "./room.ts";

let room: Room;

beforeAll(async () => {
  room = await openRoom();
});
afterAll(async () => {
  expect(room.strangers).toEqual([]);
  expect(room.faults).toEqual([]);
  await room.close();
});

const openExample = async (): Promise<void> => {
  const { page, address } = room;
  await page.goto(`${address}/recordings`);
  await page.getByRole("button", { name: "Open the example" }).click();
  await page.locator(".shelf tbody tr").first().waitFor();
  await page.locator(".shelf .standing").first().waitFor();
};

/** Follows the list to the first recording that was computed. */
const toRecording = async (): Promise<void> => {
  await room.page.locator(".shelf tr:has(.exceeds, .undetermined, .within) a").first().click();
  await room.page.locator(".find-t .o").first().waitFor();
};

const pages: readonly (readonly [string, () => Promise<void>])[] = [
  ["recordings-empty", async () => void (await room.page.goto(`${room.address}/recordings`))],
  ["recordings", openExample],
  [
    "recording",
    async () => {
      await openExample();
      await toRecording();
    },
  ],
  [
    "grounds",
    async () => {
      await openExample();
      await toRecording();
      await room.page.locator(".find-t .g").first().click();
      await room.page.getByRole("complementary").waitFor();
    },
  ],
  [
    "declare",
    async () => {
      await openExample();
      await toRecording();
      await room.page.getByRole("button", { name: "Declare something" }).click();
      await room.page.getByRole("button", { name: "Declare it", exact: true }).last().click();
    },
  ],
  [
    "reading",
    async () => {
      await openExample();
      await toRecording();
      await room.page.getByRole("link", { name: /rows read/ }).click();
      await room.page.locator(".preview").first().waitFor();
    },
  ],
  [
    "slate",
    async () => {
      await room.page.goto(`${room.address}/slate`);
      await room.page.locator(".slate-list a").first().waitFor();
    },
  ],
  [
    "calculator",
    async () => {
      await room.page.goto(`${room.address}/slate`);
      await room.page.locator(".slate-list a").first().click();
      await room.page.locator(".examples button").first().click();
      await room.page.locator(".result").waitFor();
    },
  ],
  [
    "help",
    async () => {
      await room.page.goto(`${room.address}/recordings`);
      await room.page.getByRole("button", { name: "Keys and words" }).click();
    },
  ],
];

const themes = ["light", "dark", "sunlight"] as const;
const sizes = [
  { name: "desktop", ...desktop },
  { name: "phone", ...phone },
];

describe.each(pages)("%s", (name, arrive) => {
  test.each(sizes.flatMap((size) => themes.map((theme) => ({ size, theme }))))(
    "axe finds nothing: $size.name, $theme (WCAG 2.2 AA)",
    async ({ size, theme }) => {
      const { page } = room;
      await page.setViewportSize(size);
      await arrive();
      await page
        .getByRole("combobox", { name: "Theme" })
        .selectOption(theme)
        .catch(() => page.evaluate(`document.documentElement.className = "${theme}"`));
      await page.screenshot({ path: `${shots}/${name}-${size.name}-${theme}.png`, fullPage: theme === "light" });
      expect(await accessFaults(page)).toEqual([]);
    },
  );

  test("nothing is cut off at 320 pixels (WCAG 1.4.10)", async () => {
    await room.page.setViewportSize({ width: 320, height: 640 });
    await arrive();
    await room.page.screenshot({ path: `${shots}/${name}-320.png`, fullPage: true });
    expect(await overhang(room.page)).toBeLessThanOrEqual(0);
  });
});
