/** The Shelf: finding, opening, hearing, changing stroke by stroke and as text, names, and what is kept. */
import { expect, type Locator, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { putManyEntries } from "./manyEntries.ts";
import { test } from "./quietTest.ts";
import { turnTo } from "./turnTo.ts";

const list = (page: Page): Locator => page.getByRole("listbox", { name: "On the Shelf" });
const rows = (page: Page): Locator => list(page).getByRole("option");
const line = (page: Page): Locator => page.getByRole("searchbox", { name: "Find on the Shelf" });
const heading = (page: Page, name: string): Locator =>
  page.getByRole("heading", { level: 1, name, exact: true });
const button = (page: Page, name: string): Locator => page.getByRole("button", { name, exact: true });
const place = (page: Page, name: string): Locator =>
  page.getByRole("grid").getByRole("button", { name, exact: true });
const text = (page: Page): Locator => page.getByRole("textbox", { name: "As text" });

async function openFirst(page: Page, typed: string): Promise<void> {
  await line(page).fill(typed);
  await page.keyboard.press("Enter");
}

/** A copy of a style under a name, kept, and the list again. */
async function keepCopy(page: Page, style: string, name: string): Promise<void> {
  await openFirst(page, style);
  await button(page, "Copy to change").click();
  await page.getByRole("textbox", { name: "Name", exact: true }).fill(name);
  await button(page, "Keep").click();
  await expect(page.getByText(`"${name}" is kept.`)).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(heading(page, "Shelf")).toBeVisible();
}

test.use({ reducedMotion: "reduce" });

test.beforeEach(async ({ page }) => {
  await page.goto("./#/shelf");
  await expect(rows(page).first()).toBeVisible();
});

test("is found by slash, with a slip and without accents; Enter opens, Escape comes back to it", async ({
  page,
}) => {
  await page.keyboard.press("/");
  await expect(line(page)).toBeFocused();
  await page.keyboard.type("baiao");
  await expect(rows(page).first()).toHaveAccessibleName(/^Baião, groove, /);
  await line(page).fill("bosa nova");
  await expect(rows(page).first()).toHaveAccessibleName(/^Bossa nova, groove, 4\/4, 110 to 150 a minute/);
  await page.keyboard.press("ArrowDown");
  await expect(list(page)).toBeFocused();
  await page.keyboard.press("ArrowDown");
  await expect(rows(page).nth(1)).toHaveAttribute("aria-selected", "true");
  await page.keyboard.press("Enter");
  await expect(heading(page, "Bossa nova, way 2")).toBeVisible();
  await expect(
    page.getByRole("img", { name: /^Bossa nova, way 2 as written; the ring is two bars/ }),
  ).toBeVisible();
  await expect(page.getByRole("img", { name: /^Bossa nova, way 2 as written\. / })).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("Escape");
  await expect(line(page)).toHaveValue("bosa nova");
  await expect(rows(page).nth(1)).toHaveAttribute("aria-selected", "true");
});

test("is narrowed by kind, level, metre, style and tempo, and says when nothing is left", async ({
  page,
}) => {
  await page.getByRole("button", { name: /Kind$/ }).click();
  await page.getByRole("option", { name: "fills", exact: true }).click();
  await page.getByRole("button", { name: /Level$/ }).click();
  await page.getByRole("option", { name: "first year", exact: true }).click();
  await expect(page.getByText(/^\d+ of \d+ entries\.$/)).toBeVisible();
  await expect(async () => {
    const narrowed = await rows(page).all();
    expect(narrowed.length).toBeGreaterThan(0);
    for (const row of narrowed)
      await expect(row).toHaveAccessibleName(/, fill, .*first year/, { timeout: 1000 });
  }).toPass({ timeout: 10_000 });
  await page.getByRole("button", { name: /Metre$/ }).click();
  await page.getByRole("option", { name: "7/8", exact: true }).click();
  await expect(page.getByText(/Nothing on the Shelf is called that/)).toBeVisible();
  await expect(button(page, "Open")).toBeDisabled();
  await expectClean(page);
});

test("what is of the stock is copied to be changed: stroke by stroke, with undo, and it is kept", async ({
  page,
}) => {
  await openFirst(page, "rock eighths");
  await expect(button(page, "Keep")).toHaveCount(0);
  await button(page, "Copy to change").click();
  await expect(heading(page, "Rock eighths, copy")).toBeVisible();
  const snare = (what: string): Locator => place(page, `snare, beat 1 e, ${what}`);
  await snare("nothing").click();
  await snare("plain").click();
  await snare("accent").click();
  await expect(snare("ghost")).toBeFocused();
  await expect(text(page)).toHaveValue(/snare +\| \.g\.\. x\.\.\./);
  await page.keyboard.press("Control+z");
  await expect(snare("accent")).toBeVisible();
  await page.keyboard.press("Control+y");
  await expect(snare("ghost")).toBeVisible();
  await expectClean(page);

  await page.keyboard.press("Control+s");
  await expect(page.getByText('"Rock eighths, copy" is kept.')).toBeVisible();
  await page.reload();
  await line(page).fill("rock eighths copy");
  await expect(rows(page).first()).toHaveAccessibleName(/^Rock eighths, copy, /);
  await page.keyboard.press("Enter");
  await expect(heading(page, "Rock eighths, copy")).toBeVisible();
  await expect(snare("ghost")).toBeVisible();
});

test("the grid is walked by arrows and written by letters", async ({ page }) => {
  await button(page, "Write a groove").click();
  await place(page, "hi-hat, beat 1, plain").focus();
  await page.keyboard.press("ArrowRight");
  await expect(place(page, "hi-hat, beat 1 e, nothing")).toBeFocused();
  await page.keyboard.press("a");
  await expect(place(page, "hi-hat, beat 1 e, accent")).toBeFocused();
  await page.keyboard.press("f");
  await expect(place(page, "hi-hat, beat 1 e, accent with a flam")).toBeFocused();
  await page.keyboard.press("Delete");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("End");
  await expect(place(page, "snare, beat 4 a, nothing")).toBeFocused();
  await page.keyboard.press("g");
  await expect(text(page)).toHaveValue(/snare +\| \.\.\.\. x\.\.\. \.\.\.\. x\.\.g \|/);
  await page.keyboard.press("Tab");
  await expect(page.getByRole("button", { name: /One more voice/ })).toBeFocused();
  await button(page, "One more bar").click();
  await expect(page.getByText("bar 2 of 2")).toBeVisible();
  await expect(text(page)).toHaveValue(/x\.\.g \| \.\.\.\. x\.\.\. \.\.\.\. x\.\.g \|/);
});

test("the text says what is wrong while it is typed, in its line, and nothing is lost meanwhile", async ({
  page,
}) => {
  await button(page, "Write a groove").click();
  await text(page).fill("metre: 4/4\ntempo: 80-120\n\nsnare | x.?. |");
  await expect(
    page.getByText('Line 4, column 11: "?" is not a mark; use . x X g f F h d D e.'),
  ).toBeVisible();
  await expect(text(page)).toHaveAttribute("aria-invalid", "true");
  await expectClean(page);
  await page.getByRole("textbox", { name: "Name", exact: true }).fill("Mill wheel");
  await button(page, "Keep").click();
  await expect(page.getByRole("alert")).toContainText("It cannot be read as it stands. Line 4, column 11");
  await text(page).fill("metre: 4/4\ntempo: 80-120\n\nsnare | x.x. |");
  await expect(text(page)).toHaveAttribute("aria-invalid", "false");
  await expect(place(page, "snare, beat 3, plain")).toBeVisible();
  await button(page, "Keep").click();
  await expect(page.getByText('"Mill wheel" is kept.')).toBeVisible();
});

test("is known by what the studio calls it, and is put away and brought back", async ({ page }) => {
  await openFirst(page, "samba");
  await button(page, "Copy to change").click();
  await page.getByRole("textbox", { name: "Name", exact: true }).fill("Mill wheel");
  await page.getByRole("textbox", { name: /The studio also calls it/ }).fill("the one from lesson three");
  await button(page, "Keep").click();
  await expect(page.getByText('"Mill wheel" is kept.')).toBeVisible();
  await page.keyboard.press("Escape");
  await line(page).fill("lesson thre");
  await expect(rows(page)).toHaveCount(1);
  await page.keyboard.press("Enter");
  await expect(page.getByText("the one from lesson three").first()).toBeVisible();
  await button(page, "Put away").click();
  await expect(page.getByText('"Mill wheel" was put away.')).toBeVisible();
  await expect(page.getByText(/Nothing on the Shelf is called that/)).toBeVisible();
  await button(page, "Bring it back").click();
  await expect(rows(page)).toHaveCount(1);
  await page.reload();
  await line(page).fill("lesson three");
  await expect(rows(page)).toHaveCount(1);
});

test("two of one name, no name, and a name of 10,000 characters get a sentence, and nothing is lost", async ({
  page,
}) => {
  await keepCopy(page, "samba", "Mill wheel");
  await openFirst(page, "songo");
  await button(page, "Copy to change").click();
  const name = page.getByRole("textbox", { name: "Name", exact: true });
  const alert = page.getByRole("alert");
  await name.fill("mill WHEEL");
  await button(page, "Keep").click();
  await expect(alert).toContainText('The Shelf already has a groove called "Mill wheel".');
  await name.fill("");
  await button(page, "Keep").click();
  await expect(alert).toContainText("It has no name yet.");
  await name.fill("x".repeat(10_000));
  await button(page, "Keep").click();
  await expect(alert).toContainText("A name has at most 120 characters; this one has 10000.");
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
  await expect(button(page, "Keep")).toBeInViewport();
  await name.fill("Loft");
  await button(page, "Keep").click();
  await expect(page.getByText('"Loft" is kept.')).toBeVisible();
});

test("a drum part is written as text, drawn section by section, and kept", async ({ page }) => {
  await button(page, "a drum part").click();
  await expect(page.getByText(/^drum part · 4\/4 · 8 bars · 96 a minute/)).toBeVisible();
  await expect(page.getByRole("grid")).toHaveCount(0);
  await expect(page.getByRole("heading", { level: 2, name: "Verse" })).toBeVisible();
  await expect(
    page.getByRole("img", { name: /^A new drum part as written, Verse\. 8 bars of 4\/4\.$/ }),
  ).toBeVisible();
  const part = await text(page).inputValue();
  await text(page).fill(part.replace("play: eighths, 7 bars", "play: sixteenths, 7 bars"));
  await expect(
    page.getByText('Line 3, column 1: the groove "sixteenths" is not written below.'),
  ).toBeVisible();
  await text(page).fill(part.replace("7 bars", "3 bars"));
  await expect(page.getByText(/^drum part · 4\/4 · 4 bars · /)).toBeVisible();
  await page.getByRole("textbox", { name: "Name", exact: true }).fill("River road");
  await button(page, "Keep").click();
  await expect(page.getByText('"River road" is kept.')).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("Escape");
  await line(page).fill("river");
  await expect(rows(page).first()).toHaveAccessibleName(/^River road, drum part, 4\/4, 96 a minute/);
});

test("what is not kept yet is asked about before it is left, and waits while another screen is looked at", async ({
  page,
}) => {
  await button(page, "a fill").click();
  await page.getByRole("textbox", { name: "Name", exact: true }).fill("Stair");
  await page.getByRole("link", { name: "Kit" }).click();
  await expect(heading(page, "Kit")).toBeVisible();
  await page.getByRole("link", { name: "Shelf" }).click();
  await expect(heading(page, "Stair")).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("alert")).toHaveText("What was changed is not kept yet.");
  await button(page, "Keep it").click();
  await expect(heading(page, "Shelf")).toBeVisible();
  await line(page).fill("stair");
  await expect(rows(page).first()).toHaveAccessibleName(/^Stair, fill/);
});

test("it sounds, at its usual tempo and slowly, until it is stopped", async ({ page }) => {
  await openFirst(page, "samba");
  const stop = button(page, "Stop");
  await expect(stop).toBeDisabled();
  await page.getByRole("button", { name: /^Slowly, at \d+$/ }).click();
  await expect(stop).toBeEnabled();
  await stop.click();
  await expect(stop).toBeDisabled();
});

test("of 20,000 entries only those in sight are drawn; the last is a key away, and any is found", async ({
  page,
}) => {
  await putManyEntries(page, 20_000);
  await line(page).fill("stair");
  await expect(page.getByText(/^20000 of \d+ entries\.$/)).toBeVisible();
  await page.getByRole("button", { name: "Empty this line" }).click();
  await page.getByRole("button", { name: /Whose$/ }).click();
  await page.getByRole("option", { name: "our own" }).click();
  // The choice gives the focus back when it has closed.
  await expect(page.getByRole("button", { name: /Whose$/ })).toBeFocused();
  await list(page).focus();
  await page.keyboard.press("End");
  await expect(page.getByRole("option", { name: /^Stair 19999, / })).toHaveAttribute(
    "aria-posinset",
    "20000",
  );
  await expect(page.getByRole("option", { name: /^Stair 19999, / })).toBeInViewport({ ratio: 1 });
  expect(await rows(page).count()).toBeLessThan(60);
  await page.keyboard.press("PageUp");
  await page.keyboard.press("Home");
  await expect(page.getByRole("option", { name: /^Stair 00000, / })).toHaveAttribute("aria-selected", "true");
  await line(page).fill("stair 12345");
  await expect(rows(page).first()).toHaveAccessibleName(/^Stair 12345, /);
  await page.keyboard.press("Enter");
  await expect(heading(page, "Stair 12345")).toBeVisible();
});

test("where nothing can be kept, that is said, and the stock is there all the same", async ({ page }) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException("Storage is refused.", "SecurityError");
    };
  });
  await page.reload();
  await expect(page.getByRole("alert")).toContainText("The storage of this computer cannot be used");
  await expectClean(page);
  await expect(rows(page).first()).toBeVisible();
  await openFirst(page, "samba");
  await button(page, "Copy to change").click();
  await button(page, "Keep").click();
  await expect(page.getByRole("alert").first()).toContainText("The storage of this computer cannot be used");
});

test("at 200 % zoom nothing is cut off at the side; every control is at least 44 pixels high", async ({
  page,
}) => {
  const views: readonly (readonly [string, () => Promise<void>])[] = [
    ["list", async () => {}],
    ["import", () => button(page, "Import MIDI files").click()],
    ["record", () => button(page, "Record by playing").click()],
    ["open", () => button(page, "Write a groove").click()],
  ];
  for (const [name, go] of views) {
    await page.setViewportSize({ width: 1280, height: 720 });
    await turnTo(page, "#/shelf");
    await page.reload();
    await expect(rows(page).first()).toBeVisible();
    await go();
    await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
    const low = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          "main button, main input:not([role=switch]), main textarea, main [role=option]",
        ),
      ]
        .filter((control) => control.closest("[aria-hidden=true], [hidden]") === null)
        .map((control) => ({ name: control.textContent, box: control.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 1 && box.height < 43.9)
        .map(({ name, box }) => `${name} ${box.width} × ${box.height}`),
    );
    expect(low, name).toEqual([]);
    // Zoom halves the width in CSS pixels.
    await page.setViewportSize({ width: 640, height: 360 });
    await expect
      .poll(
        () =>
          page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
        name,
      )
      .toBe(0);
    await expectClean(page);
  }
});
