/** Trading without a click: pulse, metre and upbeat are taken from the first player, in a metre other than four. */
import { expect } from "@playwright/test";
import { demonstrate, STYLES } from "../../engine/catalogue/index.ts";
import { beatsPerBar } from "../../engine/score/index.ts";
import { beatSeconds, seededChance } from "../../engine/units/index.ts";
import { expectClean } from "./clean.ts";
import { IN_REAL_TIME, MEASURED } from "./measured.ts";
import { timedStrokes } from "./playedOnKit.ts";
import { test } from "./quietTest.ts";
import { choose } from "./studioPages.ts";
import { noteTexts, shownAtMs } from "./textsShown.ts";
import { turnTo } from "./turnTo.ts";
import { connectTwoKits, SECOND } from "./twoKits.ts";
import { KIT, plugIn, sendInTime } from "./virtualKit.ts";

const BPM = 120;
/** So late a page that is busy may show a line; half a beat would be another line. */
const SHOWN_WITHIN_MS = 200;

test.use({ reducedMotion: "reduce" });
test.describe.configure(MEASURED);

test.describe("the first player's own pulse", IN_REAL_TIME, () => {
  test("twelve-eight with an upbeat: the turn goes on at the player's own line, and the echo is told", async ({
    page,
  }) => {
    test.slow();
    await plugIn(page, KIT, SECOND);
    await page.goto("./#/kit");
    await connectTwoKits(page);
    await turnTo(page, "#/trading");
    await choose(page, "Played on", "two kits");
    await choose(page, "Time is kept by", "the first player alone");
    await choose(page, "Metre", "as it is heard");
    const box = page.getByRole("textbox", { name: "Beats a minute" });
    await box.fill(String(BPM));
    await box.press("Tab");
    await expect(page.getByText(/^The first player begins, with an upbeat or on the one/)).toBeVisible();
    await expectClean(page);
    await page.getByRole("button", { name: "Begin", exact: true }).click();
    await expect(page.getByRole("heading", { level: 2, name: "First kit begins." })).toBeVisible();
    await expect(page.getByText("The pulse is the first player’s.")).toBeVisible();
    await noteTexts(page, "h2");

    const groove = STYLES.find(({ id }) => id === "bembe")?.variants[0];
    if (!groove) throw new Error("The catalogue has a bembe.");
    const beat = beatSeconds(BPM);
    const bar = beatsPerBar(groove.metre) * beat;
    expect(beatsPerBar(groove.metre)).toBe(4);
    // The last felt beat of a bar, and the two bars of the turn.
    const from = bar - 1.1 * beat;
    const played = demonstrate(groove, {
      bars: 3,
      tempoBpm: BPM,
      leanMs: 0,
      spreadMs: 4,
      leftOut: 0,
      added: 0,
      chance: seededChance(7),
    }).filter(({ time }) => time >= from);
    const strokes = timedStrokes(played);
    const now = await page.evaluate(() => performance.now());
    // Where the second bar of the demonstration begins: the one after the upbeat.
    const line = now + 500 + beat * 1000;
    await sendInTime(page, strokes, { from: line - bar * 1000 });
    await expect(page.getByRole("heading", { level: 2, name: "Second kit", exact: true })).toBeVisible();
    const passed = line + 2 * bar * 1000;
    await sendInTime(page, strokes, { name: SECOND, from: passed - bar * 1000 });
    // By a bar of three, or with the upbeat taken for the one, it would be another beat's.
    const shown = await shownAtMs(page, "Second kit");
    expect(shown).toBeGreaterThan(passed - 60);
    expect(shown).toBeLessThan(passed + SHOWN_WITHIN_MS);
    await expect(page.getByRole("alert")).toHaveCount(0);
    await expect(page.getByText("Rhythm holds; sound holds.")).toBeVisible();
    await expect(page.getByText("An echo.")).toBeVisible();
    await expectClean(page);
  });
});
