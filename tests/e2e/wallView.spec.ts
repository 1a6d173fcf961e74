import { expect } from "@playwright/test";
import { MEASURED, WAITING } from "./measured.ts";
import { dropFile, grooveFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";
import { noteTexts, shownOf } from "./textsShown.ts";

test("the wall view follows the round, dark and large", async ({ page, context }) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("option", { name: "Samba", exact: true }).click();
  const [wall] = await Promise.all([
    context.waitForEvent("page"),
    page.getByRole("button", { name: "Wall view" }).click(),
  ]);
  await wall.setViewportSize({ width: 1280, height: 720 });
  await expect(wall.getByRole("heading", { level: 1, name: "Samba" })).toBeVisible();
  await expect(wall.getByRole("img", { name: "Samba as written" })).toBeVisible();

  await page.getByRole("button", { name: "Start listening" }).click();
  await expect(wall.getByText("Play when you are ready.")).toBeVisible();
  await dropFile(page, "samba.mid", grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(wall.getByText(/^Samba\. I am /)).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(wall.getByRole("heading", { level: 1, name: "Samba, as called" })).toBeVisible();

  const smallest = await wall.evaluate(() => {
    const sizes: number[] = [];
    const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = words.nextNode(); node; node = words.nextNode()) {
      const element = node.parentElement;
      if (!element || node.textContent?.trim() === "" || element.closest("noscript, script, style")) continue;
      const drawing = element.closest("svg");
      const scale = drawing ? drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width : 1;
      sizes.push(Number.parseFloat(getComputedStyle(element).fontSize) * scale);
    }
    return Math.min(...sizes);
  });
  expect(smallest).toBeGreaterThanOrEqual(28);
});

test.describe("in real time", WAITING, () => {
  test.describe.configure(MEASURED);
  test("the count-in is counted on the wall, in the place of the title", async ({ page, context }) => {
    await page.goto("./#/call-a-style");
    await page.getByRole("option", { name: "Swing in three", exact: true }).click();
    await page.getByText("Click", { exact: true }).click();
    await page.getByText("Count in, one bar").click();
    const [wall] = await Promise.all([
      context.waitForEvent("page"),
      page.getByRole("button", { name: "Wall view" }).click(),
    ]);
    await expect(wall.getByRole("heading", { level: 1, name: "Swing in three" })).toBeVisible();
    await noteTexts(wall, "h1");
    await page.getByRole("button", { name: "Start listening" }).click();
    const counts = ["one", "two", "three"];
    await expect.poll(() => shownOf(wall, counts)).toEqual(counts);
    await expect(wall.getByRole("heading", { level: 1, name: "Swing in three" })).toBeVisible();
  });
});

test("a wall view without a book says what it waits for", async ({ page }) => {
  await page.goto("./#/wall");
  await expect(page.getByText("Waiting for the book window.")).toBeVisible();
});

test("a wall view opened first shows the page of the book opened after it", async ({ page, context }) => {
  await page.goto("./#/wall");
  const book = await context.newPage();
  await book.goto("./#/kit");
  await book.keyboard.press("KeyJ");
  await expect(page.getByRole("heading", { level: 1, name: "kick" })).toBeVisible();
});

test("of two books the wall shows the one where something happened last, and stays there", async ({
  page,
  context,
}) => {
  await page.goto("./#/call-a-style");
  const [wall] = await Promise.all([
    context.waitForEvent("page"),
    page.getByRole("button", { name: "Wall view" }).click(),
  ]);
  await expect(wall.getByRole("heading", { level: 1, name: "Free choice" })).toBeVisible();
  await wall.evaluate(() => {
    const { dataset } = document.documentElement;
    new BroadcastChannel("throneside-wall").onmessage = ({ data }) => {
      if (data.kind !== "page") return;
      dataset.pages = String(Number(dataset.pages ?? 0) + 1);
      dataset.titles = `${dataset.titles ?? ""}${data.title}; `;
    };
  });
  const html = wall.locator("html");
  const other = await context.newPage();
  await other.goto("./#/kit");
  // The new book asks who is there, and both answer: from then on only what happens is told.
  for (const title of [/Free choice; /, /Kit; /]) await expect(html).toHaveAttribute("data-titles", title);
  await other.keyboard.press("KeyJ");
  await expect(wall.getByRole("heading", { level: 1, name: "kick" })).toBeVisible();
  const before = Number(await html.getAttribute("data-pages"));
  await page.bringToFront();
  await page.getByRole("option", { name: "Samba", exact: true }).click();
  await expect(wall.getByRole("heading", { level: 1, name: "Samba" })).toBeVisible();
  await page.getByRole("option", { name: "Merengue", exact: true }).click();
  await expect(wall.getByRole("heading", { level: 1, name: "Merengue" })).toBeVisible();
  expect(Number(await html.getAttribute("data-pages"))).toBe(before + 2);
});
