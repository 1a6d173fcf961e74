/** Choosing one of many styles: what is in sight, by key, by its name, and in the drop-down of the demonstration. */
import { expect, type Locator, type Page } from "@playwright/test";
import { FAMILIES, STYLES } from "../../engine/catalogue/index.ts";
import { test } from "./quietTest.ts";

const list = (page: Page): Locator => page.getByRole("listbox", { name: "What is called" });
const option = (page: Page, name: string): Locator => list(page).getByRole("option", { name, exact: true });
const line = (page: Page): Locator => page.getByRole("searchbox", { name: "Find a style" });
const begun = (page: Page, name: string): Promise<void> =>
  expect(page.getByRole("heading", { level: 1, name, exact: true })).toBeVisible();

/** Whether the whole of an entry is seen in its list. */
async function isWithin(entry: Locator, frame: Locator): Promise<boolean> {
  const [inner, outer] = [await entry.boundingBox(), await frame.boundingBox()];
  if (!inner || !outer) return false;
  return inner.y >= outer.y && inner.y + inner.height <= outer.y + outer.height;
}

const longest = STYLES.reduce((a, b) => (b.itself.length > a.itself.length ? b : a));

test.beforeEach(async ({ page }) => {
  await page.goto("./#/call-a-style");
  await expect(list(page)).toBeVisible();
});

test("free choice first, then the styles by family", async ({ page }) => {
  await expect(list(page).getByRole("option")).toHaveText(["Free choice", ...STYLES.map(({ name }) => name)]);
  for (const family of FAMILIES) await expect(list(page).getByRole("group", { name: family })).toHaveCount(1);
  await expect(list(page).getByRole("group", { name: "Jamaica" }).getByRole("option")).toHaveText([
    "Ska",
    "Rockers",
    "One drop",
    "Steppers",
  ]);
});

test("the ring and the start are in sight without scrolling, with the longest words and the click on", async ({
  page,
}) => {
  await option(page, longest.name).click();
  await page.getByText("Click", { exact: true }).click();
  await page.getByText("Count in, one bar").click();
  await expect(page.getByRole("textbox", { name: "Click" })).toBeVisible();
  const ring = page.getByRole("img", { name: `${longest.name} as written` });
  const start = page.getByRole("button", { name: "Start listening" });
  await expect(ring).toBeInViewport({ ratio: 1 });
  await expect(start).toBeInViewport({ ratio: 1 });
  const [above, below] = [await ring.boundingBox(), await start.boundingBox()];
  expect((above?.y ?? Number.NaN) + (above?.height ?? Number.NaN)).toBeLessThan(below?.y ?? Number.NaN);
  expect(await page.evaluate(() => document.querySelector("main")?.scrollTop)).toBe(0);
});

test("the slash leads to the line, a part of the name finds it without accents, and Enter begins", async ({
  page,
}) => {
  await page.keyboard.press("/");
  await expect(line(page)).toBeFocused();
  await page.keyboard.type("baiao");
  await expect(list(page).getByRole("option")).toHaveText(["Baião"]);
  await page.keyboard.press("Enter");
  await begun(page, "Baião");
});

test("the arrow goes from the line into what was found; emptied, the list shows what is called in its place", async ({
  page,
}) => {
  await line(page).fill("shuffle");
  await expect(option(page, "Samba")).toHaveCount(0);
  await page.keyboard.press("ArrowDown");
  await expect(option(page, "Shuffle")).toBeFocused();
  await page.keyboard.press("ArrowDown");
  await expect(page.getByRole("heading", { level: 2, name: "Blues shuffle" })).toBeVisible();
  await page.keyboard.press("/");
  await expect(line(page)).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(list(page).getByRole("option")).toHaveCount(STYLES.length + 1);
  await expect(option(page, "Blues shuffle")).toHaveAttribute("aria-selected", "true");
  await expect.poll(() => isWithin(option(page, "Blues shuffle"), list(page))).toBe(true);
});

test("what is not found begins nothing", async ({ page }) => {
  await line(page).fill("nothing of the kind");
  await expect(page.getByText("No style is called that.")).toBeVisible();
  await page.keyboard.press("Enter");
  await begun(page, "Call a Style");
});

test.describe("in the list", () => {
  test.beforeEach(async ({ page }) => {
    await option(page, "Free choice").click();
  });

  test("the first letters call a style, and bring it into sight", async ({ page }) => {
    await page.keyboard.type("samba r");
    await expect(option(page, "Samba reggae")).toBeFocused();
    await expect(page.getByRole("heading", { level: 2, name: "Samba reggae" })).toBeVisible();
    await expect.poll(() => isWithin(option(page, "Samba reggae"), list(page))).toBe(true);
    await page.keyboard.press("Enter");
    await begun(page, "Samba reggae");
  });

  test("the space begins what is in focus", async ({ page }) => {
    await page.keyboard.press("End");
    await expect(option(page, "Steppers")).toBeFocused();
    await page.keyboard.press("Space");
    await begun(page, "Steppers");
  });

  test("what was called is in sight again after the take", async ({ page }) => {
    await page.keyboard.press("End");
    await expect(option(page, "Steppers")).toBeFocused();
    await page.keyboard.press("Enter");
    await begun(page, "Steppers");
    await page.keyboard.press("Enter");
    await begun(page, "Nothing was played");
    await page.keyboard.press("KeyN");
    await expect(option(page, "Steppers")).toHaveAttribute("aria-selected", "true");
    await expect.poll(() => isWithin(option(page, "Steppers"), list(page))).toBe(true);
  });

  test("a click calls, a double click begins", async ({ page }) => {
    await option(page, "Samba").click();
    await expect(page.getByRole("heading", { level: 2, name: "Samba" })).toBeVisible();
    await begun(page, "Call a Style");
    await option(page, "Maracatu").dblclick();
    await begun(page, "Maracatu");
  });
});

test("the drop-down of the demonstration scrolls, turns pages, and finds by first letters", async ({
  page,
}) => {
  const button = page.getByRole("button", { name: /Style to play/ });
  await button.focus();
  await page.keyboard.press("Enter");
  const opened = page.getByRole("listbox", { name: /Style to play/ });
  await expect(opened.getByRole("option")).toHaveCount(STYLES.length);
  expect((await opened.boundingBox())?.height ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(336);
  const focused = opened.locator("[role=option]:focus");
  await expect(focused).toHaveCount(1);
  await page.keyboard.press("PageDown");
  await expect(focused).toHaveText("Blast beat");
  await page.keyboard.type("baiao");
  await expect(focused).toHaveText("Baião");
  await expect.poll(() => isWithin(focused, opened)).toBe(true);
  await page.keyboard.press("Enter");
  await expect(button).toContainText("Baião");
  await button.click();
  await expect.poll(() => isWithin(opened.getByRole("option", { name: "Baião" }), opened)).toBe(true);
});
