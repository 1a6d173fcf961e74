/** Trading without a number of bars: a turn lasts until it is passed on, beside a player who is not there and on two kits. */
import { expect, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { MEASURED, WAITING } from "./measured.ts";
import { test } from "./quietTest.ts";
import { choose } from "./studioPages.ts";
import { noteTexts, shownAtMs } from "./textsShown.ts";
import { turnTo } from "./turnTo.ts";
import { connectTwoKits, SECOND } from "./twoKits.ts";
import { KIT, openConnected, plugIn, sendInTime, stroke } from "./virtualKit.ts";

const SNARE = 38;
const HIGH_TOM = 50;
const FLOOR_TOM = 43;
const CRASH = 49;
const BEAT_MS = 500;
const BAR_MS = 4 * BEAT_MS;
const RHYTHM = [0, 1, 1.5, 2, 3];
const CALL = [SNARE, SNARE, HIGH_TOM, FLOOR_TOM, SNARE];
const ECHO = "Rhythm holds; sound holds.";

test.describe.configure(MEASURED);
test.use({ reducedMotion: "reduce" });

/** Chooses the free form and begins it; gives the moment its first line was shown. */
async function beginFree(page: Page, first: string): Promise<number> {
  await choose(page, "Form", "Free");
  const box = page.getByRole("textbox", { name: "Beats a minute" });
  await box.fill(String(60_000 / BEAT_MS));
  await box.press("Tab");
  await noteTexts(page, "h2");
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await expect(turnOf(page, first)).toBeVisible({ timeout: 15_000 });
  return shownAtMs(page, first);
}

function turnOf(page: Page, name: string) {
  return page.getByRole("heading", { level: 2, name, exact: true });
}

function phrase(voices: readonly number[]) {
  return RHYTHM.map((beat, at) => ({ ms: beat * BEAT_MS, bytes: stroke(voices[at] ?? SNARE) }));
}

test.describe("a free form", WAITING, () => {
  test("a player who is not there gives back all that was called, however late it is passed on", async ({
    page,
    context,
  }) => {
    test.slow();
    await openConnected(page);
    await turnTo(page, "#/trading");
    const [wall] = await Promise.all([
      context.waitForEvent("page"),
      page.getByRole("button", { name: "Wall view" }).click(),
    ]);
    await page.bringToFront();
    const line = await beginFree(page, "You");
    await expect(page.getByText("calls", { exact: true })).toBeVisible();
    await expectClean(page);
    // A bar, its landing on the next one, and the press only then.
    await sendInTime(page, [...phrase(CALL), { ms: BAR_MS, bytes: stroke(CRASH) }], { from: line });
    await page.keyboard.press("KeyN");
    await expect(page.getByText("the last bar", { exact: true })).toBeVisible();
    await expect(page.getByRole("button", { name: /^Pass on/ })).toBeDisabled();
    await expect(turnOf(page, "The sparse one")).toBeVisible();
    await expect(wall.getByRole("heading", { level: 1, name: "The sparse one" })).toBeVisible();
    await expect(wall.getByText(/bars left|the last bar/)).toBeVisible();
    await expect(page.getByText(ECHO)).toBeVisible();
    await expect(page.getByText("An echo.")).toBeVisible();
    await expect(turnOf(page, "You")).toBeVisible();
    await expectClean(page);
    await expectClean(wall);

    // Where nothing is called, nothing is given back.
    await page.getByRole("button", { name: /^Pass on/ }).click();
    await expect(turnOf(page, "The sparse one")).toBeVisible();
    await expect(turnOf(page, "You")).toBeVisible();
    await page.keyboard.press("KeyR");
    await expect(page.getByRole("heading", { name: "What was heard" })).toBeVisible();
    await expect(page.getByText(/^You: 6 strokes on /)).toBeVisible();
    await expect(page.getByText(/^The sparse one: 6 strokes on /)).toBeVisible();
    const rows = page.getByRole("table", { name: "Exchanges" }).getByRole("row");
    await expect(rows).toHaveCount(3);
    await expect(rows.nth(1)).toContainText("An echo.");
    await expect(rows.nth(2)).not.toContainText("An echo.");
    await expectClean(page);
  });

  test("on two kits whoever plays has the turn, and it can be passed on by hand", async ({ page }) => {
    test.slow();
    await plugIn(page, KIT, SECOND);
    await page.goto("./#/kit");
    await connectTwoKits(page);
    await turnTo(page, "#/trading");
    await choose(page, "Played on", "two kits");
    const line = await beginFree(page, "First kit");
    await sendInTime(page, phrase(CALL), { from: line });
    await expect(turnOf(page, "First kit")).toBeVisible();
    const answers = sendInTime(page, phrase(CALL), { name: SECOND, from: line + BAR_MS });
    await expect(turnOf(page, "Second kit")).toBeVisible();
    await expect(page.getByText("answers", { exact: true })).toBeVisible();
    await answers;
    // Passed on by hand, right after the last stroke.
    await page.keyboard.press("KeyN");
    await expect(turnOf(page, "First kit")).toBeVisible();
    await expect(page.getByText(ECHO)).toBeVisible();
    await expect(page.getByText("An echo.")).toBeVisible();
    await expectClean(page);
    const moved = [SNARE, HIGH_TOM, HIGH_TOM, FLOOR_TOM, SNARE];
    const next = line + 3 * BAR_MS;
    await sendInTime(page, phrase(CALL), { from: next });
    await sendInTime(page, phrase(moved), { name: SECOND, from: next + BAR_MS });
    // The form is ended by the press that follows the last stroke.
    await page.keyboard.press("KeyR");
    await expect(page.getByRole("heading", { name: "What was heard" })).toBeVisible();
    const rows = page.getByRole("table", { name: "Exchanges" }).getByRole("row");
    await expect(rows).toHaveCount(3);
    await expect(rows.nth(2)).toContainText("Rhythm holds; the second sound moved from snare to high tom.");
    await expect(page.getByText(/^First kit: 10 strokes on /)).toBeVisible();
    await expect(page.getByText(/^Second kit: 10 strokes on /)).toBeVisible();
    await expect(page.getByRole("img", { name: /^Timeline of the form: 4 turns, 20 strokes/ })).toBeVisible();
    await expectClean(page);
  });
});
