/** Back Turned: begun from the desk, answered by strike, by name and typed, told on the wall, found again, tallied. */
import { expect, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { addStudent, beginWithGroup, rowsOf } from "./studioPages.ts";
import { KIT, openConnected, plugIn, send, stroke } from "./virtualKit.ts";

/** A Monday. */
const MONDAY = "2026-03-02T15:10:00+01:00";
const KICK = 36;
const SNARE = 38;
/** A pad of its own: no drum of the kit. */
const BLOCK = 76;
const CLAVES = 75;

test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

/** What is drawn by lot is always the first: the kick. */
test.beforeEach(async ({ page }) => {
  await page.addInitScript(() => {
    Math.random = () => 0;
  });
});

function question(page: Page) {
  return page.getByRole("heading", { name: "What was it?" });
}

test("from the desk in one action; by strike, by name and typed; a reload goes on with it; its tally is kept", async ({
  page,
}) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await plugIn(page, KIT);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByText(`${KIT} is connected.`).waitFor();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: /Begin with Ottilie/ }).click();
  await page.getByRole("main").getByRole("link", { name: "Back Turned" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Back Turned" })).toBeVisible();
  await expect(page.getByRole("heading", { name: "First each once." })).toBeVisible();
  await expectClean(page);

  await page.keyboard.press("KeyN");
  await expect(question(page)).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: "snare", exact: true }).click();
  await expect(page.getByText("Taken for snare.")).toBeVisible();
  await expect(page.getByRole("button", { name: /Hear both/ })).toBeVisible();
  await expect(page.getByRole("complementary").getByRole("row", { name: "kick snare once" })).toBeVisible();
  await expectClean(page);

  await page.keyboard.press("KeyN");
  await expect(question(page)).toBeVisible();
  // What was asked is on the disk within a quarter of a second; a round that is broken off then goes on with it.
  const isAsked = ({ event }: Record<string, unknown>): boolean => JSON.stringify(event).includes('"asked"');
  await expect.poll(async () => (await rowsOf(page, "events")).filter(isAsked).length).toBe(2);
  await page.reload();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Go on with it" }).click();
  await page.getByRole("link", { name: "Back to Back Turned" }).click();
  await expect(question(page)).toBeVisible();
  const line = page.getByRole("textbox", { name: "Or type it" });
  await line.fill("anvil");
  await line.press("Enter");
  await expect(page.getByText("“anvil” is no surface I know. Nothing was answered.")).toBeVisible();
  await line.fill("Bass drum");
  await line.press("Enter");
  await expect(page.getByText("Heard.")).toBeVisible();

  await page.keyboard.press("KeyN");
  await expect(question(page)).toBeVisible();
  await page.getByRole("button", { name: /Simpler/ }).click();
  await expect(question(page)).toBeVisible();
  // The kit of the letters: J is the kick.
  await page.keyboard.press("KeyJ");
  await expect(page.getByRole("heading", { name: "Kick" })).toBeVisible();
  await expect(page.getByText("Heard.")).toBeVisible();

  await page.keyboard.press("KeyP");
  await expect(page.getByText("Paused. Nothing is sounded, and nothing counts.")).toBeVisible();
  await expectClean(page);
  await page.keyboard.press("KeyP");
  await page.keyboard.press("Escape");
  await expect(page.getByText("The round is over. This is what it showed.")).toBeVisible();
  await expect(page.getByRole("row", { name: "kick 2 of 3 snare once" })).toBeVisible();
  await expectClean(page);

  await page.getByRole("link", { name: "Back to Desk" }).click();
  await expect(page.getByRole("heading", { name: /^Back Turned, / })).toBeVisible();
  await page.getByRole("button", { name: "End the lesson" }).click();
  await expect
    .poll(async () => (await rowsOf(page, "results")).map(({ item, outcome }) => [item, outcome]))
    .toEqual([
      ["sound:kick", "new"],
      ["sound:kick", "known"],
      ["sound:kick", "known"],
    ]);

  // Over the lessons it stands on the student's page.
  await page.getByRole("link", { name: "Roster", exact: true }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Roster" })).toBeVisible();
  await page.getByRole("main").getByRole("link", { name: "Ottilie" }).first().click();
  await expect(page.getByRole("heading", { name: "By ear" })).toBeVisible();
  await expect(page.getByRole("row", { name: "kick 2 of 3 snare once" })).toBeVisible();
});

test("a group answers in turn, or all at once", async ({ page }) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await beginWithGroup(page, "Ottilie", "Bram");
  await page.getByRole("main").getByRole("link", { name: "Back Turned" }).click();
  const margin = page.getByRole("complementary");
  await expect(margin.getByRole("heading", { name: "Where Ottilie stands" })).toBeVisible();
  for (const next of ["Ottilie", "Bram", "Ottilie"]) {
    await page.keyboard.press("KeyN");
    await expect(question(page)).toBeVisible();
    await expect(margin.getByRole("heading", { name: `Where ${next} stands` })).toBeVisible();
    await page.getByRole("button", { name: "snare", exact: true }).click();
    await expect(page.getByText(/took it for snare/)).toBeVisible();
  }
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Taken for what, so far: Bram" })).toBeVisible();
  await page.getByRole("button", { name: "Set it differently" }).click();
  await page.getByText("Everybody answers each question").click();
  await page.getByRole("button", { name: "Begin" }).click();
  await page.keyboard.press("KeyN");
  await page.getByRole("button", { name: "Bram" }).click();
  await expectClean(page);
  await page.getByRole("button", { name: "snare", exact: true }).click();
  await expect(page.getByText("Ottilie answers.")).toBeVisible();
  await page.getByRole("button", { name: "kick", exact: true }).click();
  await expect(page.getByText("Bram took it for snare.")).toBeVisible();
});

test("next, again, turn round and stop by command strikes; turned round, what the student sounds is the key", async ({
  page,
}) => {
  await page.addInitScript(
    ([kit, next, turn]) => {
      const own = (pad: number) => ({ kind: "own-pad", pad });
      localStorage.setItem(
        `throneside.commands/${kit}`,
        JSON.stringify({ version: 1, strikes: { next: own(next), "turn-round": own(turn) } }),
      );
    },
    [KIT, BLOCK, CLAVES] as const,
  );
  await openConnected(page);
  await page.getByRole("link", { name: "Back Turned", exact: true }).click();
  await page.getByRole("button", { name: "Begin" }).click();
  await send(page, [stroke(BLOCK)]);
  await expect(question(page)).toBeVisible();
  await send(page, [stroke(CLAVES)]);
  await expect(page.getByRole("heading", { name: "The student sounds something on the kit." })).toBeVisible();
  await expectClean(page);
  await send(page, [stroke(KICK)]);
  await expect(page.getByText(/Heard so far: one stroke/)).toBeVisible();
  await expect(question(page)).toBeVisible();
  // The kit that has asked does not answer.
  await send(page, [stroke(KICK)]);
  await page.getByRole("button", { name: "floor tom" }).click();
  await expect(page.getByRole("heading", { name: "Kick" })).toBeVisible();
  await expect(page.getByText("Taken for floor tom.")).toBeVisible();
});

test("two toms of one pitch are told in Kit and before the round; a kit that asks has its own", async ({
  page,
}) => {
  await page.addInitScript(() => {
    const pitches = { "high-tom": 50, "mid-tom": 50, "floor-tom": 41 };
    localStorage.setItem("throneside.toms", JSON.stringify({ version: 1, pitches }));
  });
  const told = page.getByText(/^High tom and mid tom have one pitch, D3: nobody can tell them apart/);
  await page.goto("./#/kit");
  await expect(told).toBeVisible();
  await page.getByRole("link", { name: "Back Turned", exact: true }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Back Turned" })).toBeVisible();
  await expect(told).toBeVisible();
  await expectClean(page);
  await page.getByText("The questions come from a kit").click();
  await expect(told).toHaveCount(0);
});

test("a kit asks: what was heard there is the key", async ({ page }) => {
  await openConnected(page);
  await page.getByRole("link", { name: "Back Turned", exact: true }).click();
  await page.getByText("The questions come from a kit").click();
  await page.getByRole("button", { name: "Begin" }).click();
  await page.keyboard.press("KeyN");
  await expect(page.getByRole("heading", { name: "Sound something on the kit." })).toBeVisible();
  await send(page, [stroke(SNARE)]);
  await expect(question(page)).toBeVisible();
  await page.getByRole("button", { name: "snare", exact: true }).click();
  await expect(page.getByText("Heard.")).toBeVisible();
});

test("the wall shows no answer before it is due, in type of 28 px and more", async ({ page, context }) => {
  await page.goto("./#/back-turned");
  const [wall] = await Promise.all([
    context.waitForEvent("page"),
    page.getByRole("button", { name: "Wall view" }).click(),
  ]);
  await wall.setViewportSize({ width: 1280, height: 720 });
  await expect(wall.getByRole("heading", { level: 1, name: "Turn your back to the kit." })).toBeVisible();
  await page.getByRole("button", { name: "Begin" }).click();
  await page.keyboard.press("KeyN");
  await expect(wall.getByRole("heading", { level: 1, name: "What was it?" })).toBeVisible();
  await expect(wall.getByRole("listitem")).not.toHaveCount(0);
  // Nothing on it tells the kick from the others.
  await expect(wall.getByText("kick")).toHaveCount(1);
  const smallest = await wall.evaluate(() =>
    Math.min(
      ...[...document.querySelectorAll("h1, p, li")].map((each) =>
        Number.parseFloat(getComputedStyle(each).fontSize),
      ),
    ),
  );
  expect(smallest).toBeGreaterThanOrEqual(28);
  const isWhole = await wall.evaluate(() => document.documentElement.scrollHeight <= window.innerHeight);
  expect(isWhole).toBe(true);
  await expectClean(wall);
  await page.getByRole("button", { name: "kick", exact: true }).click();
  await expect(wall.getByRole("heading", { level: 1, name: "Kick" })).toBeVisible();
});
