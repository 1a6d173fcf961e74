/** Replay of rounds that are kept step by step: each step in a sentence, with its moment; live, nothing before it is due. */
import { expect, type Locator, type Page } from "@playwright/test";
import { tallyOfRound } from "../../engine/records/index.ts";
import type { RoundStep, SteppedKind } from "../../engine/rounds/index.ts";
import { lessonState, type SessionEvent } from "../../engine/session/index.ts";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { keepLessons, linkTo } from "./replayed.ts";
import { addStudent, rowsOf } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";

const AT = "2026-03-02T15:30:00.000Z";

/** A lesson of these rounds, a step every five seconds, from five seconds on; each ended with its tally. */
function steppedLesson(
  rounds: Readonly<Partial<Record<SteppedKind, readonly object[]>>>,
): readonly SessionEvent[] {
  const events: SessionEvent[] = [];
  let time = 0;
  const add = (event: object): void => {
    events.push({ seq: events.length + 1, time, lane: 0, ...event } as SessionEvent);
  };
  add({
    kind: "lesson-began",
    lessonId: `${AT}~steps`,
    at: AT,
    zone: "Europe/Vienna",
    studentIds: ["bram"],
    lanes: [{ studentId: "bram", source: "kit" }],
  });
  for (const [round, own] of Object.entries(rounds)) {
    const roundId = `round-${round}`;
    add({ kind: "round-began", roundId, round, studentIds: ["bram"] });
    const began = { kind: "began", players: ["bram"], answering: "in-turn" };
    for (const event of [began, ...own, { kind: "stopped" }]) {
      time += 5;
      add({ kind: "round-step", roundId, step: { round, event } as RoundStep });
    }
    const state = lessonState(events).rounds.at(-1);
    if (state) add({ kind: "round-ended", roundId, tally: tallyOfRound(state, () => true, AT) });
  }
  time += 5;
  add({ kind: "lesson-ended", at: "2026-03-02T16:00:00.000Z" });
  return events;
}

const SNARE = [[{ surface: "snare" }]];
const KICK = [[{ surface: "kick" }]];
const LESSON = steppedLesson({
  "back-turned": [
    { kind: "asked", moments: SNARE, rung: 1, of: ["bram"] },
    { kind: "answered", by: "bram", moments: KICK, way: "named" },
    { kind: "contrasted" },
    { kind: "asked", moments: KICK, rung: 1, of: ["bram"] },
    { kind: "answered", by: "bram", moments: KICK, way: "struck" },
  ],
  "wall-chart": [
    {
      kind: "set",
      settings: { task: "names", from: 1, to: 10, longSeconds: 30, shortSeconds: 10 },
    },
    { kind: "look-began", of: ["bram"] },
    { kind: "hidden" },
    { kind: "named", entry: "single-stroke-roll", way: "ticked" },
    { kind: "named-all" },
  ],
});

const steps = (page: Page, round: string): Locator =>
  page
    .locator("section", { has: page.getByRole("heading", { name: `${round}, step by step` }) })
    .getByRole("listitem");

test("each step is told with its moment, and leads there; what is still to come is soft", async ({
  page,
}) => {
  await keepLessons(page, [LESSON]);
  await turnTo(page, linkTo(LESSON));
  await expect(page.getByText(/2 rounds/)).toBeVisible();
  const told = steps(page, "Back Turned");
  await expect(told).toHaveText([
    "0:05.0 The round begins.",
    "0:10.0 Sounded: snare.",
    "0:15.0 Answered: kick, which was something else.",
    "0:20.0 Both were sounded one after the other.",
    "0:25.0 Sounded: kick.",
    "0:30.0 Answered: kick.",
    "0:35.0 The round is over.",
  ]);
  await expect(steps(page, "Wall Chart")).toHaveText([
    /The round begins\.$/,
    /A look at the chart\.$/,
    /The chart was hidden\.$/,
    /Named: single stroke roll\.$/i,
    /1 of 10 named\.$/,
    /The round is over\.$/,
  ]);
  await expect(told.locator("xpath=self::*[@data-to-come]")).toHaveCount(7);
  await expectClean(page);
  // By keys: the moment is a button.
  await page.getByRole("button", { name: "20.0 seconds", exact: true }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("slider", { name: "Moment of the lesson" })).toHaveAttribute(
    "aria-valuetext",
    "20.0 seconds",
  );
  await expect(told.locator("xpath=self::*[@data-to-come]")).toHaveCount(3);
  await expectClean(page);
});

test("of a round that goes on nothing is told before it is over, here and in another window", async ({
  page,
  context,
}) => {
  await page.clock.setFixedTime("2026-03-02T15:20:00+01:00");
  await addStudent(page, "Bram", { weekday: "Monday", from: "15:15" });
  await turnTo(page, "#/desk");
  await page.getByRole("button", { name: "Begin with Bram" }).click();
  await page.getByRole("main").getByRole("link", { name: "Back Turned" }).click();
  await expect(page.getByRole("heading", { name: "First each once." })).toBeVisible();
  await page.keyboard.press("n");
  await expect.poll(async () => JSON.stringify(await rowsOf(page, "events"))).toContain('"kind":"asked"');
  await page.getByRole("link", { name: "Replay", exact: true }).click();
  await page
    .getByRole("row", { name: /not ended/ })
    .getByRole("link")
    .click();
  const goesOn = "It goes on. Its steps are told when it is over.";
  await expect(page.getByText(goesOn)).toBeVisible();
  const other = await context.newPage();
  await other.goto(page.url());
  await expect(other.getByRole("heading", { name: "Back Turned, step by step" })).toBeVisible();
  await expect(other.getByText(goesOn)).toBeVisible();
  for (const each of [page, other]) await expect(each.getByText(/^Sounded:/)).toHaveCount(0);
  await page.getByRole("button", { name: "End the round" }).click();
  await expect(steps(other, "Back Turned").filter({ hasText: "Sounded:" })).toHaveCount(1);
  await page.goto(other.url());
  await expect(steps(page, "Back Turned").first()).toContainText("The round begins.");
  await expectClean(page);
});
