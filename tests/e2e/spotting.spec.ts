/** Spotting: the program plays, a kit plays, the roles turned round; told on the wall, found again, tallied. */
import { expect, type Page } from "@playwright/test";
import { bodyOf, demonstrate, type Written } from "../../engine/catalogue/index.ts";
import { parseFill, parsePart } from "../../engine/score/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { expectClean } from "./clean.ts";
import { playOnKit, playStrokesOnKit } from "./playedOnKit.ts";
import { test } from "./quietTest.ts";
import { addStudent, beginWithGroup, rowsOf } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";
import { openConnected } from "./virtualKit.ts";

/** A Monday. */
const MONDAY = "2026-03-02T15:10:00+01:00";

test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

/** What is drawn is the first of all: rock eighths, then what is new. */
test.beforeEach(async ({ page }) => {
  await page.addInitScript(() => {
    Math.random = () => 0;
  });
});

async function open(page: Page): Promise<void> {
  await page.goto("./#/spotting");
  await expect(page.getByRole("heading", { level: 1, name: "Spotting" })).toBeVisible();
}

const nameLine = (page: Page) => page.getByRole("textbox", { name: "Its name" });

test("the program plays: named however it is spelt, known from somewhere, never heard, and the tally", async ({
  page,
}) => {
  await open(page);
  await expectClean(page);
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByRole("heading", { name: "Which groove is it?" })).toBeVisible();
  await expect(page.getByText("Rock eighths")).toHaveCount(0);
  await expectClean(page);
  // A name of nothing is asked about before it counts.
  await nameLine(page).fill("wobble");
  await page.keyboard.press("Enter");
  await expect(page.getByText("I know nothing called “wobble”.")).toBeVisible();
  await nameLine(page).fill("rock");
  await expect(
    page.getByRole("list", { name: "Names that may be meant" }).getByRole("button"),
  ).not.toHaveCount(0);
  await expectClean(page);
  await nameLine(page).fill("rok eigths");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Rock eighths" })).toBeVisible();
  await expect(page.getByText("That is its name.")).toBeVisible();
  await expectClean(page);

  await page.keyboard.press("n");
  await expect(page.getByRole("heading", { name: "Which groove is it?" })).toBeVisible();
  await page.keyboard.press("v");
  await expect(page.getByText("It was the new one of this round.")).toBeVisible();
  await page.keyboard.press("n");
  await expect(page.getByRole("heading", { name: "Which groove is it?" })).toBeVisible();
  await page.keyboard.press("w");
  await expect(page.getByText("Known from somewhere: the name comes back next time.")).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByText("The round is over.")).toBeVisible();
  for (const heading of ["Held", "Known from somewhere", "New"])
    await expect(page.getByRole("term").filter({ hasText: heading })).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("r");
  await expect(page.getByRole("heading", { name: "Which groove is it?" })).toBeVisible();
});

test("once it is named, it is played in Call a Style or taught on the Shelf", async ({ page }) => {
  await open(page);
  await page.getByRole("button", { name: "Begin" }).click();
  await nameLine(page).fill("rock eighths");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Teach me" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Rock eighths" })).toBeVisible();
  await expect(page.getByRole("button", { name: /^Slowly/ })).toBeVisible();
  await turnTo(page, "#/spotting");
  await page.getByRole("button", { name: "Play it now" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Call a Style" })).toBeVisible();
  await expect(page.getByRole("option", { name: "Rock eighths", exact: true, selected: true })).toBeVisible();
});

test("the wall shows no answer before it is due", async ({ page, context }) => {
  await open(page);
  const [wall] = await Promise.all([
    context.waitForEvent("page"),
    page.getByRole("button", { name: "Wall view" }).click(),
  ]);
  await expect(wall.getByRole("heading", { level: 1, name: "Listen, and name it." })).toBeVisible();
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(wall.getByText("Which groove is it?")).toBeVisible();
  expect(await wall.evaluate(() => document.body.textContent)).not.toContain("Rock");
  await page.getByRole("button", { name: /^Never heard it/ }).click();
  await expect(wall.getByRole("heading", { level: 1, name: "Rock eighths" })).toBeVisible();
  await expect(wall.getByText("Never heard before: now it is.")).toBeVisible();
});

test("the teacher plays: the key is what was heard, and the teacher knows better", async ({ page }) => {
  await openConnected(page);
  await turnTo(page, "#/spotting");
  await page.getByText("The teacher plays: what I hear there is the key").click();
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByText("Play it on the kit. A silence ends it.")).toBeVisible();
  await playOnKit(page, "samba", { bars: 6, tempoBpm: 110 });
  await expect(page.getByRole("button", { name: "Hear it played back" })).toBeVisible();
  await expect(page.getByText(/^Samba\./)).toHaveCount(0);
  await page.getByRole("button", { name: /^Show it to whoever plays/ }).click();
  await expect(page.getByText(/^Samba\. I am /)).toBeVisible();
  await expectClean(page);
  await nameLine(page).fill("bosa nova");
  await page.keyboard.press("Enter");
  await expect(page.getByText("Taken for Bossa nova.")).toBeVisible();
  await page.getByRole("textbox", { name: "It was something else" }).fill("bossa");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Bossa nova" })).toBeVisible();
  await expect(page.getByText("Bossa nova, as you say.")).toBeVisible();
  await expect(page.getByText("Said: BOSS-ah NOH-vah")).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: /^End/ }).click();
  await expect(page.getByRole("term").filter({ hasText: "Held" })).toBeVisible();
  await expect(page.getByText("Bossa nova")).toBeVisible();
});

/** Writes it on the Shelf, as its text. */
async function writeOnShelf(page: Page, kind: "a drum part" | "a fill", written: Written): Promise<void> {
  await page.goto("./#/shelf");
  await page.getByRole("button", { name: kind, exact: true }).click();
  await page.getByRole("textbox", { name: "As text" }).fill(bodyOf(written));
  await page.getByRole("textbox", { name: "Name", exact: true }).fill(written.music.name);
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await expect(page.getByText(`"${written.music.name}" is kept.`)).toBeVisible();
}

const HAND = { leanMs: 4, spreadMs: 9, leftOut: 0, added: 0, tempoBpm: 110 };
const LOFT = parseFill(`fill: loft-stairs
name: Loft stairs
level: steady
metre: 4/4
tempo: 80-120

snare     | .... .... x.x. .... |
high-tom  | .... .... .x.x .x.. |
floor-tom | .... .... .... x.xx |`);

test("the studio's own fill is known when the teacher plays it", async ({ page }) => {
  await openConnected(page);
  await writeOnShelf(page, "a fill", { kind: "fill", music: LOFT });
  await page.goto("./#/spotting");
  await page.getByText("The teacher plays: what I hear there is the key").click();
  await page.getByText("Fills", { exact: true }).click();
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByText("Play it on the kit. A silence ends it.")).toBeVisible();
  await playOnKit(page, "rock-eighths", {
    bars: 5,
    tempoBpm: HAND.tempoBpm,
    fills: [{ fill: LOFT, bar: 4, thenCrash: true }],
  });
  await page.getByRole("button", { name: /^Show it to whoever plays/ }).click();
  await expect(page.getByText(/^Loft stairs\. I am /)).toBeVisible({ timeout: 15_000 });
});

const RIVER_ROAD = parsePart(`part: river-road
name: River road

section: Verse
tempo: 110
play: eighths, 3 bars
play: eighths, 1 bar, ending steps

section: Chorus
tempo: 110
play: four-four, 4 bars

groove: eighths
name: Eighths
metre: 4/4
tempo: 80-130
hi-hat-closed | x.x.x.x.x.x.x.x. |
snare         | ....x.......x... |
kick          | x.......x.x..... |

groove: four-four
name: Four on the ride
metre: 4/4
tempo: 80-130
ride          | x...x.x.x...x.x. |
snare         | ....x..x....x... |
kick          | x..x....x..x..x. |

fill: steps
name: Steps
level: first-year
metre: 4/4
tempo: 80-130
snare     | ........x.x..... |
floor-tom | ............x.x. |`);

test("the studio's own drum part is known when the student plays it, turned round", async ({ page }) => {
  await openConnected(page);
  await writeOnShelf(page, "a drum part", { kind: "part", music: RIVER_ROAD });
  await page.goto("./#/spotting");
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("button", { name: /^Turn round/ }).click();
  await expect(page.getByText("The student plays it on the kit. A silence ends it.")).toBeVisible();
  const chance = seededChance(11);
  let after = 0;
  const strokes = RIVER_ROAD.sections.flatMap(({ passages }) =>
    passages.flatMap(({ groove, bars, fill }) => {
      const fills = fill ? [{ fill, bar: bars }] : [];
      const here = demonstrate(groove, { ...HAND, bars, fills, chance });
      const from = after;
      after += (bars * 4 * 60) / HAND.tempoBpm;
      return here.map((stroke) => ({ ...stroke, time: stroke.time + from }));
    }),
  );
  await playStrokesOnKit(
    page,
    [...strokes].sort((a, b) => a.time - b.time),
  );
  await nameLine(page).fill("river road");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "River road" })).toBeVisible({ timeout: 15_000 });
});

test("what is played back answers", async ({ page }) => {
  await openConnected(page);
  await turnTo(page, "#/spotting");
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByText("Say it, type it, or play it back.")).toBeVisible({ timeout: 30_000 });
  await playOnKit(page, "rock-eighths", { bars: 4, tempoBpm: 120 });
  await expect(page.getByRole("heading", { name: "Rock eighths" })).toBeVisible({ timeout: 15_000 });
  await expect(page.getByText("Played back.")).toBeVisible();
});

test("turned round: the student plays, the teacher names, and it shows nothing of a student", async ({
  page,
}) => {
  await openConnected(page);
  await turnTo(page, "#/spotting");
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("button", { name: /^Turn round/ }).click();
  await expect(page.getByText("The student plays it on the kit. A silence ends it.")).toBeVisible();
  await playOnKit(page, "samba", { bars: 6, tempoBpm: 110 });
  await nameLine(page).fill("samba");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Samba" })).toBeVisible({ timeout: 15_000 });
  await page.getByRole("button", { name: /^End/ }).click();
  await expect(page.getByText("Nothing was asked that could hold or slip.")).toBeVisible();
});

test("from the desk in one action, of a student; a reload goes on with it; its tally is kept", async ({
  page,
}) => {
  await page.clock.setFixedTime(MONDAY);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: /Begin with Ottilie/ }).click();
  await page.getByRole("main").getByRole("link", { name: "Spotting" }).click();
  await expect(page.getByRole("heading", { name: "Which groove is it?" })).toBeVisible();
  // What was asked is on the disk within a quarter of a second; a round that is broken off then goes on with it.
  const isAsked = ({ event }: Record<string, unknown>): boolean => JSON.stringify(event).includes('"asked"');
  await expect.poll(async () => (await rowsOf(page, "events")).filter(isAsked).length).toBe(1);
  await page.reload();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Go on with it" }).click();
  await page.getByRole("link", { name: "Back to Spotting" }).click();
  await nameLine(page).fill("rock eighths");
  await page.keyboard.press("Enter");
  await expect(page.getByText("It was the new one of this round.")).toBeVisible();
  await page.getByRole("button", { name: "End Esc" }).click();
  await expect(page.getByRole("heading", { name: "Ottilie" })).toBeVisible();
  await expect
    .poll(async () => (await rowsOf(page, "results")).map(({ item, outcome }) => [item, outcome]))
    .toEqual([["style-name:rock-eighths", "known"]]);
});

test("a group: everybody names what was heard, each for themselves; then in turn", async ({ page }) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await beginWithGroup(page, "Ottilie", "Bram");
  await page.getByRole("main").getByRole("link", { name: "Spotting" }).click();
  // In turn, as it begins from the desk.
  await expect(page.getByText("Ottilie answers.")).toBeVisible();
  await page.getByRole("button", { name: /^Never heard it/ }).click();
  await page.getByRole("button", { name: /^Next N/ }).click();
  await expect(page.getByText("Bram answers.")).toBeVisible();
  await page.getByRole("button", { name: "End Esc" }).click();
  await page.getByRole("button", { name: "Set it differently" }).click();

  await page.getByText("Everybody answers each question").click();
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("button", { name: "Bram" }).click();
  await expectClean(page);
  await nameLine(page).fill("samba");
  await page.keyboard.press("Enter");
  // Ottilie still has to name it: nothing is told yet.
  await expect(page.getByText("Ottilie answers.")).toBeVisible();
  await expect(page.getByRole("heading", { name: "Rock eighths" })).toHaveCount(0);
  await nameLine(page).fill("rock eighths");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Rock eighths" })).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: "End Esc" }).click();
  for (const name of ["Ottilie", "Bram"])
    await expect(page.getByRole("heading", { level: 2, name })).toBeVisible();
});
