/** Desk: the day, a lesson begun with one action, recorded, ended; broken off and gone on with; two kits; two windows. */
import { expect, type Page } from "@playwright/test";
import { hitChunkSchema, unpackHits } from "../../engine/records/index.ts";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { addStudent, choose, playBossa, rowsOf, waitForStoredStrikes } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";
import { connectTwoKits, SECOND } from "./twoKits.ts";
import { KIT, plugIn, send, stroke } from "./virtualKit.ts";

/** A Monday. */
const MONDAY = "2026-03-02T15:10:00+01:00";
test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce", serviceWorkers: "allow" });

async function mondayWithTwo(page: Page): Promise<void> {
  await page.clock.setFixedTime(MONDAY);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await addStudent(page, "Bram", { weekday: "Monday", from: "15:45", level: "working player" });
  await turnTo(page, "#/desk");
  await expect(page.getByRole("heading", { level: 1, name: "Ottilie, at 15:15" })).toBeVisible();
}

test("the first page of an empty studio says what to do, and forces nothing", async ({ page }) => {
  await page.goto("./");
  await expect(page.getByRole("heading", { level: 1, name: "Desk" })).toBeVisible();
  await expect(page.getByRole("link", { name: "Add the first student" })).toBeVisible();
  await expect(page.getByRole("link", { name: "Look at an invented studio" })).toBeVisible();
  await expectClean(page);
  expect(await rowsOf(page, "students")).toEqual([]);
});

test("the first page of an emptied studio says that students were here, and where a backup is put back", async ({
  page,
}) => {
  await addStudent(page, "Bram");
  await page.getByRole("button", { name: "Erase Bram" }).click();
  await page.getByRole("textbox", { name: /To be sure/ }).fill("Bram");
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText("The student is erased.")).toBeVisible();
  await turnTo(page, "#/desk");
  await expect(page.getByText("Nobody is on the Roster any more.")).toBeVisible();
  await page.reload();
  await expect(page.getByText(/^Students were here before\./)).toBeVisible();
  await expect(page.getByRole("link", { name: "Add a student" })).toBeVisible();
  await expectClean(page);
  await page.getByRole("main").getByRole("link", { name: "Studio", exact: true }).click();
  await expect(page.getByRole("heading", { name: "Put back" })).toBeVisible();
  // Erased altogether, it is as new: not even that is kept.
  await page.getByRole("button", { name: "Erase everything" }).click();
  await page.getByRole("textbox", { name: /To be sure/ }).fill("erase");
  // With its only student erased the page counts nobody already: that it was opened again is seen by the opening itself.
  const openedAgain = page.waitForEvent("load");
  await page.getByRole("button", { name: "Erase for good" }).click();
  await openedAgain;
  await expect(page.getByText(/0 students, 0 lessons/)).toBeVisible();
  await turnTo(page, "#/desk");
  await expect(page.getByText("Nobody is on the Roster yet.")).toBeVisible();
});

test("a lesson by keyboard alone: begun with one action, played, flagged, remarked, ended", async ({
  page,
}) => {
  await mondayWithTwo(page);
  await expect(page.getByText("30 minutes, until 15:45.")).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: "Begin with Ottilie" }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Ottilie, until 15:45" })).toBeVisible();
  await expect(page.getByText(/First lesson running, under a minute/)).toBeVisible();
  await page.keyboard.press("KeyF");
  await page.keyboard.press("KeyF");
  await expect(page.getByText("0 takes, 2 strikes, 0 remarks so far.")).toBeVisible();
  // The lesson is told, and a moment flagged, on every page.
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await expect(page.getByRole("link", { name: "Ottilie, under a minute" })).toBeVisible();
  await page.keyboard.press("F2");
  await page.getByRole("link", { name: "Ottilie, under a minute" }).click();
  await expect(page.getByText("0 takes, 2 strikes, 1 remark so far.")).toBeVisible();
  await expect(page.getByRole("link", { name: /^at 0:\d\d$/ })).toHaveAttribute(
    "href",
    /#\/replay\/.+\/[\d.]+$/,
  );
  await page.getByRole("textbox", { name: "A remark about now" }).fill("Sing the short note.");
  await page.keyboard.press("Enter");
  await expect(page.getByText("“Sing the short note.”")).toBeVisible();
  await page.getByRole("button", { name: "Pause" }).press("Enter");
  await expect(page.getByText(/First lesson paused/)).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: "Go on" }).press("Enter");
  await page.getByRole("button", { name: "End the lesson" }).press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Bram, at 15:45" })).toBeVisible();
  await expect(page.getByText("held, under a minute")).toBeVisible();
  const kinds = async () =>
    (await rowsOf(page, "events")).map(({ event }) => (event as { kind: string }).kind);
  await expect
    .poll(kinds)
    .toEqual(["lesson-began", "command", "remark", "remark", "paused", "resumed", "lesson-ended"]);
});

test("what is played in Call a Style is written down, judged by the student's own level, and due is told", async ({
  page,
}) => {
  await mondayWithTwo(page);
  await page.getByRole("button", { name: "Begin with Bram" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Bram, until 16:15" })).toBeVisible();
  await playBossa(page);
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Bossa nova, as called" })).toBeVisible();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await expect(page.getByRole("rowheader", { name: "Bossa nova" }).first()).toBeVisible();
  // The round ends with its tally, and so does the lesson.
  await page.getByRole("link", { name: "Call a Style" }).first().click();
  await page.getByRole("button", { name: "End the round" }).click();
  await expect(
    page.getByRole("heading", { level: 3, name: "Call a Style, under a minute, 1 take" }),
  ).toBeVisible();
  await expect(page.getByText("Held", { exact: true })).toBeVisible();
  await expect(page.getByRole("definition").filter({ hasText: "Bossa nova" })).toContainText(
    "Bossa nova: at 130 a minute",
  );
  await expect(page.getByText("Slipped", { exact: true })).toHaveCount(0);
  await expectClean(page);
  await page.getByRole("button", { name: "End the lesson" }).click();
  const over = page.getByRole("region", { name: "The lesson that has just ended" });
  await expect(over.getByRole("heading", { name: "Bram: the lesson is over, under a minute" })).toBeVisible();
  await expect(over.getByRole("definition")).toContainText("Bossa nova");
  await expectClean(page);
  await expect(page.getByRole("heading", { level: 1, name: "Ottilie, at 15:15" })).toBeVisible();
  await expect.poll(async () => (await rowsOf(page, "takes")).length).toBe(1);
  const [take] = await rowsOf(page, "takes");
  const [bram] = (await rowsOf(page, "students")).filter(({ nickname }) => nickname === "Bram");
  expect(take).toMatchObject({ studentId: bram?.id, heard: { id: "bossa-nova" }, day: "2026-03-02" });
  await expect.poll(async () => (await rowsOf(page, "results")).length).toBe(1);
  await turnTo(page, `#/roster/${String(bram?.id)}`);
  await expect(page.getByRole("rowheader", { name: "Bossa nova, played" })).toBeVisible();
});

for (const isStopped of [false, true])
  test(`a take that is still being ${isStopped ? "thought over" : "played"} when the lesson ends is judged`, async ({
    page,
  }) => {
    await mondayWithTwo(page);
    await page.getByRole("button", { name: "Begin with Bram" }).click();
    await playBossa(page);
    // At once: the judge is still at it.
    if (isStopped) await page.getByRole("button", { name: /^Stop/ }).dispatchEvent("click");
    await page.evaluate(() => {
      window.location.hash = "#/desk";
    });
    await page.getByRole("button", { name: "End the lesson" }).click();
    const over = page.getByRole("region", { name: "The lesson that has just ended" });
    await expect(over.getByRole("definition")).toContainText("Bossa nova: at 130 a minute");
    await expect
      .poll(async () => (await rowsOf(page, "takes")).map(({ heard, level }) => [heard, level]))
      .toEqual([[expect.objectContaining({ id: "bossa-nova" }), "working"]]);
    await expect.poll(async () => (await rowsOf(page, "results")).length).toBe(1);
    const kinds = async () =>
      (await rowsOf(page, "events")).map(({ event }) => (event as { kind: string }).kind);
    await expect
      .poll(async () => (await kinds()).slice(-3))
      .toEqual(["judgement", "round-ended", "lesson-ended"]);
    expect((await kinds()).includes("take-ended")).toBe(isStopped);
  });

test("a lesson past midnight, on a clock that jumps, is one lesson of the day it began", async ({ page }) => {
  await page.clock.setFixedTime("2026-03-02T23:50:00+01:00");
  await addStudent(page, "Casimir", { weekday: "Monday", from: "23:45" });
  await turnTo(page, "#/desk");
  await page.getByRole("button", { name: "Begin with Casimir" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Casimir, until 00:15" })).toBeVisible();
  await page.keyboard.press("KeyF");
  // Midnight passes; then somebody sets the clock back by a day, and forward by a year.
  for (const at of ["2026-03-03T00:12:00+01:00", "2026-03-01T12:00:00+01:00", "2027-03-03T12:00:00+01:00"]) {
    await page.clock.setFixedTime(at);
    await page.keyboard.press("KeyF");
  }
  await expect(page.getByText(/running, under a minute\. 0 takes, 4 strikes/)).toBeVisible();
  await page.clock.setFixedTime("2026-03-03T00:14:00+01:00");
  await page.getByRole("button", { name: "End the lesson" }).click();
  await expect
    .poll(async () => (await rowsOf(page, "lessons")).map(({ endedAt }) => endedAt))
    .toEqual(["2026-03-02T23:14:00.000Z"]);
  const [lesson] = await rowsOf(page, "lessons");
  expect(lesson).toMatchObject({ day: "2026-03-02", hits: 4 });
  expect(Number(lesson?.seconds)).toBeGreaterThanOrEqual(0);
  expect(Number(lesson?.seconds)).toBeLessThan(60);
});

test("a lesson that was broken off is gone on with, every strike still there", async ({ page }) => {
  await mondayWithTwo(page);
  await page.getByRole("button", { name: "Begin with Ottilie" }).click();
  await expect(page.getByText("0 takes, 0 strikes, 0 remarks so far.")).toBeVisible();
  await page.keyboard.press("KeyF");
  await page.keyboard.press("KeyF");
  await waitForStoredStrikes(page, 2);
  await expect.poll(async () => (await rowsOf(page, "lessons")).length).toBe(1);
  await page.reload();
  await expect(page.getByText(/The lesson of 2 March 2026, begun at 15:10, was broken off/)).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: "Go on with it" }).click();
  await expect(page.getByText("0 takes, 2 strikes, 0 remarks so far.")).toBeVisible();
  await page.keyboard.press("KeyF");
  await expect(page.getByText("0 takes, 3 strikes, 0 remarks so far.")).toBeVisible();
});

test("two students on two kits: each kit is learnt, recorded on its own lane, and listened to in turn", async ({
  page,
}) => {
  await plugIn(page, KIT, SECOND);
  await mondayWithTwo(page);
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await connectTwoKits(page);
  await expect(page.getByText(`${KIT} and ${SECOND} are connected.`)).toBeVisible();
  // Each kit is heard, shown and learnt on its own.
  const strikes = page.getByRole("table", { name: "Latest strikes, newest first" });
  await send(page, [stroke(100)], SECOND);
  await expect(strikes.getByText("Nothing yet")).toBeVisible();
  await page.getByRole("radio", { name: new RegExp(SECOND) }).check();
  await expect(strikes.getByRole("cell", { name: "unknown pad, key 100" })).toBeVisible();
  await page.getByRole("button", { name: "Learn this kit" }).click();
  await send(page, [stroke(100)], SECOND);
  await expect(page.getByText("Key 100 is the snare.")).toBeVisible();
  await page.getByRole("button", { name: "Keep what is learnt" }).click();
  await send(page, [stroke(100)], SECOND);
  await expect(strikes.getByRole("cell", { name: "snare" })).toBeVisible();
  await expect(page.getByRole("radio", { name: new RegExp(`${SECOND}.*This kit, as learnt`) })).toBeChecked();
  await expect(page.getByRole("radio", { name: new RegExp(`${KIT}.*General MIDI 1`) })).toBeVisible();
  await expectClean(page);

  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Two students on two kits" }).click();
  await choose(page, `At ${KIT}`, "Ottilie");
  await choose(page, `At ${SECOND}`, "Ottilie");
  await expect(page.getByText("One student cannot sit at both kits.")).toBeVisible();
  await choose(page, `At ${SECOND}`, "Bram");
  await expectClean(page);
  await page.getByRole("button", { name: "Begin with both" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Ottilie and Bram" })).toBeVisible();
  await expect(page.getByText("Both kits are recorded.")).toBeVisible();
  await send(page, [stroke(38), stroke(36)]);
  await send(page, [stroke(100), stroke(36), stroke(42)], SECOND);
  await expect(page.getByText("0 takes, 5 strikes, 0 remarks so far.")).toBeVisible();
  await page.getByRole("radio", { name: /Second module.*Bram/ }).check();
  await expectClean(page);
  await page.getByRole("main").getByRole("link", { name: "Call a Style" }).click();
  await expect(page.getByRole("radio", { name: /Second module.*Bram/ })).toBeChecked();
  await page.getByRole("button", { name: "Start listening" }).click();
  await send(page, [stroke(36)]);
  await send(page, [stroke(100)], SECOND);
  await expect(
    page.getByRole("complementary", { name: "Margin" }).getByText("snare", { exact: true }),
  ).toBeVisible();
  await page.keyboard.press("Escape");
  await page.getByRole("link", { name: /^Ottilie and Bram/ }).click();
  await expect(page.getByText("1 take, 7 strikes, 0 remarks so far.")).toBeVisible();
  await expect(page.getByRole("cell", { name: "Bram" })).toBeVisible();

  // Broken off and gone on with: both kits are there again, and it is still Bram's turn.
  await expect.poll(async () => (await rowsOf(page, "takes")).length).toBe(1);
  await waitForStoredStrikes(page, 7);
  await page.reload();
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await expect(page.getByText(`${KIT} and ${SECOND} are connected.`)).toBeVisible();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Go on with it" }).click();
  await expect(page.getByRole("radio", { name: /Second module.*Bram/ })).toBeChecked();
  await send(page, [stroke(100)], SECOND);
  await expect(page.getByText("1 take, 8 strikes, 0 remarks so far.")).toBeVisible();
  await page.getByRole("button", { name: "End the lesson" }).click();
  await expect.poll(async () => (await rowsOf(page, "lessons")).map(({ hits }) => hits)).toEqual([8]);

  // Every strike is with the student who sat at its kit.
  const students = await rowsOf(page, "students");
  const idOf = (nickname: string) => students.find((student) => student.nickname === nickname)?.id;
  const events = (await rowsOf(page, "events")).map(({ event }) => event as Record<string, unknown>);
  expect(events.find(({ kind }) => kind === "lesson-began")?.lanes).toEqual([
    { studentId: idOf("Ottilie"), source: "kit", kit: KIT },
    { studentId: idOf("Bram"), source: "kit", kit: SECOND },
  ]);
  expect(events.find(({ kind }) => kind === "take-began")).toMatchObject({
    lane: 1,
    studentId: idOf("Bram"),
  });
  expect(await rowsOf(page, "takes")).toMatchObject([{ studentId: idOf("Bram") }]);
  const struck = (await rowsOf(page, "hits")).flatMap((row) => unpackHits(hitChunkSchema.parse(row)));
  expect(struck.map(({ lane, hit }) => [lane, hit.voice])).toEqual([
    [0, "snare"],
    [0, "kick"],
    [1, "snare"],
    [1, "kick"],
    [1, "hi-hat-closed"],
    [0, "kick"],
    [1, "snare"],
    [1, "snare"],
  ]);
});

test("a command learnt on the kit ends the take, is no strike of it, and begins another", async ({
  page,
}) => {
  await plugIn(page, KIT);
  await page.goto("./#/kit");
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await choose(page, /Kit map/, "Wide nine-piece kit");
  await page.getByRole("button", { name: "Commands" }).click();
  const commands = page.getByRole("region", { name: "Commands with the sticks" });
  await expect(commands.getByRole("row", { name: /Flag this/ })).toContainText(
    "the rims of high tom and floor tom together",
  );
  await commands.getByRole("button", { name: "Learn Stop" }).click();
  await send(page, [stroke(38)]);
  await expect(commands.getByText("That pad is played in music.")).toBeVisible();
  await send(page, [stroke(47), stroke(58)]);
  await expect(commands.getByRole("row", { name: /Stop/ })).toContainText(
    "the rims of mid tom and floor tom together",
  );
  await commands.getByRole("button", { name: "Learn Again" }).click();
  await send(page, [stroke(100)]);
  await expect(commands.getByRole("row", { name: /Again/ })).toContainText("pad with key 100");
  await expectClean(page);
  await page.getByRole("link", { name: "Call a Style" }).click();
  await expect(page.getByRole("button", { name: "Start listening" })).toBeVisible();
  await send(page, [stroke(100)]);
  await expect(page.getByRole("button", { name: "Stop" })).toBeVisible();
  await send(page, [stroke(38)]);
  await expect(
    page.getByRole("complementary", { name: "Margin" }).getByText("snare", { exact: true }),
  ).toBeVisible();
  // Silence around it makes it a command: struck again until it was heard.
  await expect
    .poll(
      async () => {
        await send(page, [stroke(47), stroke(58)]);
        return page.getByRole("button", { name: "Stop" }).isHidden();
      },
      { intervals: [1000] },
    )
    .toBe(true);
  // While the take is thought over nothing can be begun.
  await expect(page.getByRole("button", { name: "Again" })).toBeVisible();
  await send(page, [stroke(100)]);
  await expect(page.getByRole("button", { name: "Stop" })).toBeVisible();
});

test("of two windows one writes; the other says so, and takes over when that one is closed", async ({
  page,
  context,
}) => {
  await mondayWithTwo(page);
  const second = await context.newPage();
  await second.clock.setFixedTime(MONDAY);
  await second.goto("./#/desk");
  await expect(second.getByText("Another window of the program writes the lesson.")).toBeVisible();
  await expect(second.getByRole("button", { name: "Begin with Ottilie" })).toBeDisabled();
  await expectClean(second);
  await page.close();
  await expect(second.getByRole("button", { name: "Begin with Ottilie" })).toBeEnabled();
});
