/** A groove is put on the Shelf by playing it on a kit that is not there, and is then called and heard. */
import { expect, type Locator, type Page } from "@playwright/test";
import { noteFor, parseKitMap } from "../../engine/kit/index.ts";
import { type Groove, parseGrid, performed } from "../../engine/score/index.ts";
import generalMidi1 from "../../kit-maps/general-midi-1.json" with { type: "json" };
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { choose } from "./studioPages.ts";
import { noteTexts, shownOf } from "./textsShown.ts";
import { KIT, openConnected, plugIn, sendInTime } from "./virtualKit.ts";

const button = (page: Page, name: string): Locator => page.getByRole("button", { name, exact: true });
const map = parseKitMap(generalMidi1, "general-midi-1.json");

/** Made up, and like no style: the floor tom leads, the kick answers. */
const MILL = parseGrid(`groove: mill
name: Mill wheel
metre: 4/4
tempo: 100-140

floor-tom | x.x. x.x. x.x. xxxx |
snare     | .... X... .... X... |
kick      | x... ..x. x... ..x. |`);

/** Made up: nothing on hi-hat or cymbals, and more between the beats than on them. */
const BETWEEN = parseGrid(`groove: between
name: Between the beats
metre: 4/4
tempo: 100-140

floor-tom | .x .x .x xx |
snare     | .. .x .. .x |
kick      | .x .. .x .. |`);

/**
 * Plays a groove in time, each strike stamped with its own moment; settles when the last was struck.
 *
 * @param from when its first beat is, by the page's clock, in milliseconds; a moment from now when not said.
 */
async function play(
  page: Page,
  groove: Groove,
  how: { readonly bars: number; readonly tempoBpm: number; readonly from?: number; readonly on?: string },
): Promise<void> {
  const strikes = performed(groove, how).map(({ time, note }) => ({
    ms: time * 1000,
    bytes: [0x99, noteFor(map, note.voice) ?? 0, note.dynamic === "accent" ? 115 : 80],
  }));
  await sendInTime(page, strikes, {
    ...(how.on === undefined ? {} : { name: how.on }),
    ...(how.from === undefined ? {} : { from: how.from }),
  });
}

test.use({ reducedMotion: "reduce" });

test("played freely, it is understood, named, kept, and from then on called and heard", async ({ page }) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Shelf" }).click();
  await button(page, "Record by playing").click();
  await expectClean(page);
  await page.locator("main").focus();
  await page.keyboard.press("Space");
  await expect(page.getByRole("heading", { level: 1, name: "I am listening" })).toBeVisible();
  await expectClean(page);
  await play(page, MILL, { bars: 4, tempoBpm: 170 });
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "What I understood" })).toBeVisible();
  await expect(page.getByText(/1 bar came round: \d of 4 bars play it\./)).toBeVisible();
  await expect(page.getByText(/^4\/4 · (169|170|171) a minute · 4 bars played$/)).toBeVisible();
  await expectClean(page);
  await button(page, "Name it and keep it").click();
  const text = page.getByRole("textbox", { name: "As text" });
  await expect(text).toHaveValue(/floor-tom +\| x\.x\. x\.x\. x\.x\. xxxx \|/);
  await expect(text).toHaveValue(/kick +\| x\. \.x x\. \.x \|/);
  await page.getByRole("textbox", { name: "Name", exact: true }).fill("Mill wheel");
  await button(page, "Keep").click();
  await expect(page.getByText('"Mill wheel" is kept.')).toBeVisible();

  await page.getByRole("link", { name: "Call a Style" }).click();
  await page.getByRole("option", { name: "Free choice" }).click();
  await button(page, "Start listening").click();
  await play(page, MILL, { bars: 4, tempoBpm: 160 });
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "Mill wheel" })).toBeVisible();
  await expect(page.getByRole("heading", { name: "Voices" })).toBeVisible();

  await page.keyboard.press("KeyN");
  await page.getByRole("searchbox", { name: "Find a style" }).fill("mill");
  await page.getByRole("option", { name: "Mill wheel" }).click();
  await expect(page.getByRole("img", { name: /^Mill wheel as written; the ring is one bar/ })).toBeVisible();
  await expectClean(page);
  await button(page, "Start listening").click();
  await play(page, MILL, { bars: 3, tempoBpm: 160 });
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "Mill wheel, as called" })).toBeVisible();
});

test("the second kit is recorded where that is the one that is played", async ({ page }) => {
  const SECOND = "Second module";
  await plugIn(page, KIT, SECOND);
  await page.goto("./#/kit");
  await button(page, "Connect the kit").click();
  await choose(page, /Kit on input/, KIT);
  await choose(page, /Second kit on input/, SECOND);
  await expect(page.getByText(`${KIT} and ${SECOND} are connected.`)).toBeVisible();
  await page.getByRole("link", { name: "Shelf" }).click();
  await button(page, "Record by playing").click();
  await button(page, "Start listening").click();
  await play(page, MILL, { bars: 4, tempoBpm: 170, on: SECOND });
  await expect(page.getByText(/^\d+ strikes\.$/)).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "What I understood" })).toBeVisible();
  await expect(page.getByText(/1 bar came round: \d of 4 bars play it\./)).toBeVisible();
});

test("counted in; that nothing was played is told, and the way back is there", async ({ page }) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Shelf" }).click();
  await button(page, "Record by playing").click();
  await page.getByText("Count in, with a click").click();
  await expect(page.getByText("One bar is counted in")).toBeVisible();
  await noteTexts(page, "main *");
  await button(page, "Start listening").click();
  await expect.poll(() => shownOf(page, ["four"])).not.toEqual([]);
  await button(page, "Stop").click();
  await expect(page.getByRole("alert")).toContainText("Nothing was played.");
  await expectClean(page);
  await button(page, "Back to the Shelf").click();
  await expect(page.getByRole("heading", { level: 1, name: "Shelf" })).toBeVisible();
});

test("heard half a beat off, it is asked about, and moved by a key or a button in ring, staff and text", async ({
  page,
}) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Shelf" }).click();
  await button(page, "Record by playing").click();
  await button(page, "Start listening").click();
  await play(page, BETWEEN, { bars: 3, tempoBpm: 140 });
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: "What I understood" })).toBeVisible();
  const pictures = page.getByRole("img", { name: /^What was played, written down/ });
  await expect(pictures).toHaveCount(2);
  const drawn = () => pictures.evaluateAll((all) => all.map(({ innerHTML }) => innerHTML));
  const first = await drawn();
  const beat = page.getByRole("group", { name: "The beat lies" });
  await beat.getByRole("button", { name: "half a beat later" }).click();
  await expect.poll(async () => (await drawn()).filter((one, at) => one === first[at])).toEqual([]);
  const later = await drawn();
  await page.keyboard.press("ArrowLeft");
  await expect.poll(drawn).toEqual(first);
  await page.keyboard.press("ArrowLeft");
  await expect
    .poll(async () => (await drawn()).filter((one, at) => one === first[at] || one === later[at]))
    .toEqual([]);
  await expectClean(page);
  await button(page, "Name it and keep it").click();
  const text = page.getByRole("textbox", { name: "As text" });
  await expect(text).toHaveValue(/floor-tom +\| \.x \.x \.x xx \|/);
  await expect(text).toHaveValue(/kick +\| \.x \.\. \.x \.\. \|/);
});

test("played to the click, its beat is the click's, and is not asked about", async ({ page }) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Shelf" }).click();
  await button(page, "Record by playing").click();
  await page.getByText("Count in, with a click").click();
  const start = button(page, "Start listening");
  await expect(start).toBeVisible();
  // 100 a minute: a breath, four beats, and then the one.
  const from = await start.evaluate((element) => {
    // Before the page has drawn what comes of it: that takes its time.
    const asked = performance.now();
    if (element instanceof HTMLElement) element.click();
    return asked + 800 + 4 * 600;
  });
  await play(page, BETWEEN, { bars: 3, tempoBpm: 100, from });
  await button(page, "Stop").click();
  await expect(page.getByRole("heading", { level: 1, name: "What I understood" })).toBeVisible();
  await expect(page.getByText(/^4\/4 · 100 a minute · 3 bars played$/)).toBeVisible();
  await expect(page.getByRole("group", { name: "The beat lies" })).toHaveCount(0);
  await button(page, "Name it and keep it").click();
  await expect(page.getByRole("textbox", { name: "As text" })).toHaveValue(/floor-tom +\| \.x \.x \.x xx \|/);
});
