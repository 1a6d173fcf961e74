/** Wall Chart: looked at, hidden, named, looked at again; in order; the hands said and played; told on the wall. */
import { expect, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { addStudent, beginWithGroup, rowsOf } from "./studioPages.ts";
import { noteTexts, shownOf } from "./textsShown.ts";
import { KIT, openConnected, plugIn, send, sendInTime, stroke } from "./virtualKit.ts";

/** A Monday. */
const MONDAY = "2026-03-02T15:10:00+01:00";
const SNARE = 38;
const FLOOR_TOM = 43;

/** Sixteen strokes from hand to hand. */
const SIXTEEN = Array.from({ length: 16 }, (_, at) => ({
  ms: at * 150,
  bytes: stroke(at % 2 === 0 ? FLOOR_TOM : SNARE),
}));

test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

/** What is drawn by lot is always the first. */
test.beforeEach(async ({ page }) => {
  await page.addInitScript(() => {
    Math.random = () => 0;
  });
});

async function name(page: Page, said: string): Promise<void> {
  const line = page.getByRole("textbox", { name: "A name" });
  await line.fill(said);
  await line.press("Enter");
}

async function choose(page: Page, label: string, option: string): Promise<void> {
  await page.getByRole("button", { name: label }).click();
  await page.getByRole("option", { name: option, exact: true }).click();
}

test("from the desk in one action: a look, names however they are spelt, a shorter look and its gain; the tally is kept", async ({
  page,
}) => {
  await page.clock.setFixedTime(MONDAY);
  await plugIn(page, KIT);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: /Begin with Ottilie/ }).click();
  await page.getByRole("main").getByRole("link", { name: "Wall Chart" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Wall Chart" })).toBeVisible();
  await expect(page.getByRole("heading", { name: "Rolls" })).toBeVisible();
  await expect(page.getByRole("img", { name: /^Five Stroke Roll: R R L L R \/ L L R R L/ })).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: "31 to 40" }).click();
  await expect(page.getByRole("img", { name: /^Triple Ratamacue/ })).toBeVisible();

  await page.keyboard.press("KeyN");
  await expect(page.getByRole("heading", { name: "Name as many as you can." })).toBeVisible();
  await expect(page.getByRole("img", { name: /Ratamacue/ })).toHaveCount(0);
  await name(page, "flam taps");
  await expect(page.getByRole("list").getByText("Flam Tap")).toBeVisible();
  // Letters are commands until the slash has led to the line: then they spell a name.
  await page.getByRole("main").focus();
  await page.keyboard.press("/");
  // Escape empties the line; the round goes on.
  await page.keyboard.type("flam tapp");
  await page.keyboard.press("Escape");
  await expect(page.getByRole("textbox")).toHaveValue("");
  await page.keyboard.type("paradiddle");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("list").getByText("Single Paradiddle")).toBeVisible();
  await page.getByRole("button", { name: "Take Single Paradiddle back" }).click();
  await name(page, "quadruple paradiddle");
  await expect(page.getByText("“quadruple paradiddle” is not one of them.")).toBeVisible();
  await name(page, "drag paradiddle");
  await expect(page.getByText("“drag paradiddle”: which of these?")).toBeVisible();
  await page.getByRole("button", { name: "Drag Paradiddle #2" }).click();
  await name(page, "flamtap");
  await expect(page.getByText("Flam Tap: named already.")).toBeVisible();
  await page.getByText("I tick them off while they are said").click();
  await page.getByRole("button", { name: "Pataflafla", exact: true }).click();
  await expect(page.getByText("3 so far:")).toBeVisible();
  await expectClean(page);

  await page.getByRole("button", { name: /That is all/ }).click();
  await expect(page.getByRole("heading", { name: "3 of 40 named." })).toBeVisible();
  await expectClean(page);
  await noteTexts(page, "[role=timer]");
  await page.getByRole("button", { name: /A short look/ }).click();
  // As the page showed it first, however late that is looked at.
  await expect.poll(() => shownOf(page, ["0:30", "0:29", "0:28"])).not.toEqual([]);
  await page.keyboard.press("KeyN");
  await name(page, "swiss triplet");
  await name(page, "flamtap");
  await page.getByRole("button", { name: /That is all/ }).click();
  await expect(page.getByText("1 more than before: Swiss Army Triplet.")).toBeVisible();
  await expect(page.getByText("Not named again: Drag Paradiddle #2, Pataflafla.")).toBeVisible();
  await expect(page.getByRole("row", { name: /^2 0:0\d 2 1 4 of 40/ })).toBeVisible();

  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Held" }).or(page.getByText("Held")).first()).toBeVisible();
  await expectClean(page);
  const isEnded = ({ event }: Record<string, unknown>): boolean =>
    JSON.stringify(event).includes('"rudiment:swiss-army-triplet"');
  await expect.poll(async () => (await rowsOf(page, "events")).filter(isEnded).length).toBeGreaterThan(0);
});

test("ten in order, with the place of each slip", async ({ page }) => {
  await page.goto("/#/wall-chart");
  await choose(page, "What", "Name them in order");
  await choose(page, "How much of it", "1 to 10");
  await expectClean(page);
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByRole("timer")).toBeVisible();
  await page.keyboard.press("KeyN");
  for (const said of ["single stroke roll", "single stroke seven", "single stroke four"])
    await name(page, said);
  await name(page, "flam");
  await expect(page.getByText("Flam is a rudiment, and not of this part of the chart.")).toBeVisible();
  await page.getByRole("button", { name: /That is all/ }).click();
  await expect(
    page.getByText("Single Stroke Seven, named at place 2: it comes after Single Stroke Four."),
  ).toBeVisible();
});

test("a look is paused: no time passes in it", async ({ page }) => {
  await page.goto("/#/wall-chart");
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByRole("timer")).toHaveText(/1:5\d/);
  await page.keyboard.press("KeyP");
  await expect(page.getByText("Paused. Nothing is sounded, and nothing counts.")).toBeVisible();
  await page.keyboard.press("KeyP");
  await expect(page.getByRole("timer")).toHaveText(/1:5\d/);
});

test("the hands: chosen, then played on two pads that are set in Kit; one pad is refused", async ({
  page,
}) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await page.getByRole("button", { name: "Set the left hand" }).click();
  await send(page, [stroke(SNARE)]);
  await expect(page.getByText(`Left hand: snare, note ${SNARE}.`)).toBeVisible();
  await page.getByRole("button", { name: "Set the right hand" }).click();
  await send(page, [stroke(SNARE)]);
  await expect(page.getByText("That is the other hand’s pad already. Strike another one.")).toBeVisible();
  await page.getByRole("button", { name: "Set the right hand" }).click();
  await send(page, [stroke(FLOOR_TOM)]);
  await expect(page.getByText(`Right hand: floor tom, note ${FLOOR_TOM}.`)).toBeVisible();
  await expectClean(page);

  await page.getByRole("link", { name: "Wall Chart", exact: true }).click();
  await choose(page, "What", "The hands, said or chosen");
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByRole("heading", { name: "Single Stroke Roll" })).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: "R L R L R L R L", exact: true }).click();
  await expect(page.getByText("The hands held.")).toBeVisible();
  await expect(page.getByRole("img", { name: /^Single Stroke Roll/ })).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Set it differently" }).click();

  await choose(page, "What", "The hands, played on two pads");
  await expect(page.getByText(`Left hand on the pad of note ${SNARE}`)).toBeVisible();
  await page.getByRole("button", { name: "Begin" }).click();
  await page.keyboard.press("KeyN");
  await expect(page.getByText("There are 0 strikes, too few to tell a sticking")).toBeVisible();
  await sendInTime(page, SIXTEEN);
  await expect(page.getByText("16 strokes so far.")).toBeVisible();
  await page.keyboard.press("KeyN");
  await expect(page.getByText("All 16 strokes were by the hand written.")).toBeVisible();
  await expectClean(page);
});

test("on the wall: the chart in type for two metres while it is looked at, and not while it is named", async ({
  page,
  context,
}) => {
  await page.goto("/#/wall-chart");
  const wall = await context.newPage();
  await wall.setViewportSize({ width: 1280, height: 720 });
  await wall.goto("/#/wall");
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(wall.getByRole("img", { name: /^Nine Stroke Roll/ })).toBeVisible();
  const small = await wall.evaluate(() =>
    [...document.querySelectorAll("main p, main li, main h1")]
      .filter((each) => each.textContent?.trim() !== "" && each.checkVisibility())
      .map((each) => Number.parseFloat(getComputedStyle(each).fontSize))
      .filter((size) => size < 28),
  );
  expect(small).toEqual([]);
  await expect(wall.getByRole("heading", { name: /^Look: 1:/ })).toBeVisible();
  await page.keyboard.press("KeyN");
  await expect(wall.getByText("Name as many as you can.")).toBeVisible();
  await expect(wall.getByRole("img")).toHaveCount(0);
  await name(page, "flam");
  await expect(wall.getByText("Flam", { exact: true })).toBeVisible();
});

test("a group looks at once; each list is taken in by itself, and is not read off the wall", async ({
  page,
  context,
}) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await beginWithGroup(page, "Ottilie", "Bram");
  await page.getByRole("link", { name: "Wall Chart", exact: true }).first().click();
  await page.getByText("Everybody looks at once").click();
  await expectClean(page);
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByText(/^Everybody looks\./)).toBeVisible();
  const wall = await context.newPage();
  await wall.goto("/#/wall");
  await expect(wall.getByRole("heading", { name: /^Look: / })).toBeVisible();
  await page.keyboard.press("KeyN");
  await name(page, "flam");
  await page.getByRole("button", { name: "Bram", exact: true }).click();
  await name(page, "flam");
  await name(page, "pataflafla");
  await expect(page.getByText("2 so far:")).toBeVisible();
  await expectClean(page);
  await expect(wall.getByText("Name as many as you can.")).toBeVisible();
  await expect(wall.getByText("Flam", { exact: true })).toHaveCount(0);
  await page.getByRole("button", { name: /That is all of these/ }).click();
  await expect(page.getByText("Ottilie answers.")).toBeVisible();
  await page.getByRole("button", { name: /That is all/ }).click();
  await expect(page.getByRole("heading", { level: 3, name: "Bram" })).toBeVisible();
  await expect(page.getByText("2 of 40 named.")).toBeVisible();
  await expect(page.getByText("1 of 40 named.")).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("Escape");
  await expect(page.getByRole("table", { name: "Bram: The whole chart" })).toBeVisible();
  await expectClean(page);
});

test("what was struck and not yet judged is found again by a program that is opened again", async ({
  page,
}) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await page.addInitScript(
    ([L, R]) => localStorage.setItem("throneside.hands", JSON.stringify({ version: 1, pads: { L, R } })),
    [SNARE, FLOOR_TOM] as const,
  );
  await plugIn(page, KIT);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByText(`${KIT} is connected.`).waitFor();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: /Begin with Ottilie/ }).click();
  await page.getByRole("link", { name: "Wall Chart", exact: true }).first().click();
  await choose(page, "What", "The hands, played on two pads");
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByRole("heading", { name: "Single Stroke Roll" })).toBeVisible();
  await sendInTime(page, SIXTEEN);
  await expect(page.getByText("16 strokes so far.")).toBeVisible();
  // Strikes are on the disk within a quarter of a second.
  const written = async (): Promise<number> =>
    (await rowsOf(page, "hits")).reduce(
      (sum, { fromSeq, toSeq }) => sum + Number(toSeq) - Number(fromSeq) + 1,
      0,
    );
  await expect.poll(written).toBe(16);
  await page.reload();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Go on with it" }).click();
  await page.getByRole("link", { name: "Back to Wall Chart" }).click();
  await expect(page.getByText("16 of them were struck before the program was opened again.")).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("KeyN");
  await expect(page.getByText("All 16 strokes were by the hand written.")).toBeVisible();
});
