/** What is struck beside a click: the tempo is taken from it, and it is heard while the page is hidden and stalled. */
import { expect, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { hearClick } from "./clickEar.ts";
import { test } from "./quietTest.ts";
import { connectTwoKits, SECOND } from "./twoKits.ts";
import { KIT, openConnected, plugIn, sendInTime, stroke } from "./virtualKit.ts";

/** Strikes eight times; each is where its time stamp says, however late the page gets round to it. */
async function strikeEvery(page: Page, ms: number, name = KIT): Promise<void> {
  await sendInTime(
    page,
    Array.from({ length: 8 }, (_, at) => ({ ms: at * ms, bytes: stroke(38) })),
    { name },
  );
}

test("strikes are heard while the page is hidden and stalled", async ({ page }) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Call a Style" }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  await page.evaluate((name) => {
    Object.defineProperty(document, "visibilityState", { get: () => "hidden" });
    document.dispatchEvent(new Event("visibilitychange"));
    for (let at = 0; at < 40; at += 1) {
      window.virtualInputs[name]?.emit([0x99, 38, 90]);
      const until = performance.now() + 20;
      while (performance.now() < until);
    }
  }, KIT);
  await page.keyboard.press("Escape");
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  const rows = page.locator('table[aria-label="Latest strikes, newest first"] tbody tr');
  await expect(rows.first()).toContainText("snare");
  expect(await rows.count()).toBeGreaterThan(5);
});

test("the tempo is set by striking, on the kit and on the letters", async ({ page }) => {
  await hearClick(page);
  await plugIn(page, KIT);
  await page.goto("./#/kit");
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByRole("link", { name: "Call a Style" }).click();
  await page.getByText("Click", { exact: true }).click();
  await page.getByText("Set by striking").click();
  await expect(page.getByText("Strike the beat, three times or more.")).toBeVisible();
  await strikeEvery(page, 400);
  const tempo = page.getByRole("textbox", { name: "Click, beats" });
  await expect(page.getByText(/Struck: 1(49|50|51) a minute/)).toBeVisible();
  expect(Math.abs(Number(await tempo.inputValue()) - 150)).toBeLessThanOrEqual(1);
  await expectClean(page);
  await page.evaluate(async () => {
    await new Promise((done) => setTimeout(done, 2300));
    const begun = performance.now();
    for (let at = 0; at < 6; at += 1) {
      await new Promise((done) => setTimeout(done, begun + at * 600 - performance.now()));
      const key = new KeyboardEvent("keydown", { code: "KeyJ", bubbles: true });
      Object.defineProperty(key, "timeStamp", { value: begun + at * 600 });
      window.dispatchEvent(key);
    }
  });
  await expect(page.getByText(/Struck: (99|100|101) a minute/)).toBeVisible();
  await page.getByText("Set by striking").click();
  await page.keyboard.press("KeyJ");
  expect(Math.abs(Number(await tempo.inputValue()) - 100)).toBeLessThanOrEqual(1);
});

test("the tempo is struck on the second kit as well", async ({ page }) => {
  await hearClick(page);
  await plugIn(page, KIT, SECOND);
  await page.goto("./#/kit");
  await connectTwoKits(page);
  await page.getByRole("link", { name: "Call a Style" }).click();
  await page.getByText("Click", { exact: true }).click();
  await page.getByText("Set by striking").click();
  await expect(page.getByText("Strike the beat, three times or more.")).toBeVisible();
  await strikeEvery(page, 500, SECOND);
  await expect(page.getByText(/Struck: (119|120|121) a minute/)).toBeVisible();
});
