/** Card Table: a card named, chosen, struck, judged aloud; told on the wall; found again after a reload; tallied. */
import { expect, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { addStudent, rowsOf } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";
import { KIT, plugIn, sendInTime, stroke } from "./virtualKit.ts";

/** A Monday. */
const MONDAY = "2026-03-02T15:10:00+01:00";
const SNARE = 38;
const TOM = 43;

test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

/** The teacher slips a card in, and turns it up. */
async function turnUp(page: Page, name: string): Promise<void> {
  await page.getByRole("button", { name: /It comes next/ }).click();
  await page.getByRole("option", { name, exact: true }).click();
  await page.getByRole("button", { name: /^(Next card|To the tally)/ }).click();
}

function asked(page: Page) {
  return page.locator("#card-asks");
}

test("from the desk in one action; typed, chosen, said and struck; a reload goes on with it; its tally is kept", async ({
  page,
}) => {
  await page.clock.setFixedTime(MONDAY);
  await plugIn(page, KIT);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByText(`${KIT} is connected.`).waitFor();
  await page.getByRole("link", { name: "Studio", exact: true }).click();
  await page.getByRole("button", { name: /Names as in the/ }).click();
  await page.getByRole("option", { name: /United Kingdom/ }).click();
  await expectClean(page);
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: /Begin with Ottilie/ }).click();
  await page.getByRole("main").getByRole("link", { name: "Card Table" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Card Table" })).toBeVisible();
  await expect(asked(page)).toBeVisible();
  await expectClean(page);

  // Typed, in the other usage and nearly right.
  await turnUp(page, "Crotchet");
  await expect(asked(page)).toHaveText("What is it?");
  const line = page.getByRole("textbox", { name: "Or type its name" });
  await line.fill("bagpipe");
  await line.press("Enter");
  await expect(page.getByText("“bagpipe” is no name I know. Nothing was answered.")).toBeVisible();
  await line.fill("quater note");
  await line.press("Enter");
  await expect(asked(page)).toHaveText("Crotchet");
  await expect(page.getByText("It is.")).toBeVisible();
  await expectClean(page);

  // Chosen among four, by its key; the wrong one.
  await turnUp(page, "Coda");
  await expect(asked(page)).toHaveText("What is it?");
  const four = page.getByRole("button", { name: /^[1-4] / });
  await expect(four).toHaveCount(4);
  const names = await four.allTextContents();
  const wrong = names.findIndex((name) => !name.includes("Coda"));
  await page.locator("body").click({ position: { x: 2, y: 2 } });
  await page.keyboard.press(`Digit${wrong + 1}`);
  await expect(asked(page)).toHaveText("Coda");
  await expect(page.getByRole("button", { name: /^Never met/ })).toHaveAttribute("aria-pressed", "true");

  // What was turned up is on the disk within a quarter of a second; a round that is broken off goes on with it.
  await turnUp(page, "Segno");
  const isTurned = ({ event }: Record<string, unknown>): boolean =>
    JSON.stringify(event).includes('"turned-up"');
  await expect.poll(async () => (await rowsOf(page, "events")).filter(isTurned).length).toBe(4);
  await page.reload();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Go on with it" }).click();
  await page.getByRole("link", { name: "Back to Card Table" }).click();
  await expect(asked(page)).toHaveText("What is it?");
  await page.keyboard.press("KeyI");
  await expect(asked(page)).toHaveText("Segno");

  await page.keyboard.press("Escape");
  await expect(page.getByText("The round is over. This is what it showed.")).toBeVisible();
  await expect(page.getByText("Named").or(page.getByText("Taken for"))).toBeVisible();
  await expectClean(page);
  await expect
    .poll(async () => (await rowsOf(page, "results")).map(({ item, outcome }) => `${item} ${outcome}`).sort())
    .toEqual(["symbol:coda new", "symbol:quarter-note known", "symbol:segno known"]);
});

test("a bar is struck on any surface at the player's own tempo", async ({ page }) => {
  await plugIn(page, KIT);
  await page.goto("./#/kit");
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByText(`${KIT} is connected.`).waitFor();
  await page.getByRole("link", { name: "Card Table", exact: true }).click();
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await expect(asked(page)).toBeVisible();
  const strikeBar = (places: readonly number[], beatMs: number): Promise<void> =>
    sendInTime(
      page,
      places.map((place, at) => ({ ms: place * beatMs, bytes: stroke(at % 2 === 0 ? SNARE : TOM) })),
    );
  await turnUp(page, "Eighths on three");
  await expect(asked(page)).toHaveText("Strike this bar.");
  await expectClean(page);
  await strikeBar([0, 1, 2, 2.5, 3, 4], 500);
  await expect(page.getByText("As written.")).toBeVisible();
  await expect(asked(page)).toHaveText("Eighths on three");
});

test("the wall shows the card large and in big type, and not what it is before it is answered", async ({
  page,
  context,
}) => {
  await page.goto("./#/card-table");
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await expect(asked(page)).toBeVisible();
  await turnUp(page, "Dotted half note");
  const wall = await context.newPage();
  await wall.goto("./#/wall");
  await expect(wall.getByRole("heading", { name: "What is it?" })).toBeVisible();
  const picture = wall.getByRole("img", { name: /^On the card: open head, stem, a dot beside the head/ });
  await expect(picture).toBeVisible();
  expect((await picture.boundingBox())?.height).toBeGreaterThan(150);
  await expect(wall.getByRole("listitem")).toHaveCount(4);
  const sizes = await wall
    .locator("main :is(h1, p, li)")
    .evaluateAll((nodes) => nodes.map((node) => Number.parseFloat(getComputedStyle(node).fontSize)));
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual(28);
  await expectClean(wall);
  await page.locator("body").click({ position: { x: 2, y: 2 } });
  await page.keyboard.press("KeyI");
  await expect(wall.getByRole("heading", { name: "Dotted half note" })).toBeVisible();
  await expect(wall.getByRole("listitem")).toHaveCount(0);
});

test("a bar to a click: set before it begins, counted in, and told on the page", async ({ page }) => {
  await page.goto("./#/card-table");
  await page.getByText("To a click, counted in by a bar").click();
  await expect(page.getByRole("textbox", { name: "Beats a minute" })).toHaveValue("72");
  await expectClean(page);
  await page.getByRole("button", { name: "Begin" }).click();
  await turnUp(page, "Eighths on three");
  await expect(page.getByText("One bar is counted in, 72 beats a minute.")).toBeVisible();
  await expectClean(page);
});

test("names as in the United Kingdom, set in Studio: in the list of cards and on Next Time", async ({
  page,
}) => {
  await page.addInitScript(() => {
    localStorage.setItem(
      "throneside.cards",
      JSON.stringify({ version: 1, naming: "uk", cards: 12, jokersInTen: 0, rhythms: true, fourNames: true }),
    );
  });
  await page.goto("./#/card-table");
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("button", { name: /It comes next/ }).click();
  await expect(page.getByRole("option", { name: "Quavers on three", exact: true })).toBeVisible();
  await page.keyboard.press("Escape");
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await turnTo(page, "#/next-time");
  const add = page.getByRole("textbox", { name: /^Add a groove/ });
  await add.fill("crotchet");
  await expect(
    page.getByText("Dotted crotchet, read").or(page.getByText("Crotchet, read")).first(),
  ).toBeVisible();
});
