/** Replay: found, opened, played, looked at strike by strike, remarked on, compared, printed, taken along; by keys alone. */
import { expect, type Locator, type Page } from "@playwright/test";
import { lessonState } from "../../engine/session/index.ts";
import { LEAD_IN, takesOf } from "../../renderer/screens/replay/takesOfLesson.ts";
import { LESSON, playedLesson } from "../renderer/screens/replay/playedLesson.ts";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { keepLessons, linkTo } from "./replayed.ts";
import { turnTo } from "./turnTo.ts";

const TITLE = "Bram, 2 March 2026, 16:30";
const heading = (page: Page, name: string | RegExp): Locator => page.getByRole("heading", { name });
const button = (page: Page, name: string): Locator => page.getByRole("button", { name, exact: true });
const slider = (page: Page): Locator => page.getByRole("slider", { name: "Moment of the lesson" });
const remarks = (page: Page): Locator => page.locator("section", { has: heading(page, "Remarks") });

const [FIRST, SECOND] = takesOf(lessonState(LESSON));
if (!FIRST || !SECOND) throw new Error("The lesson has too few takes.");

/** Opens the lesson, at a moment or at its beginning, and waits until the take there has been judged again. */
async function open(page: Page, seconds?: number): Promise<void> {
  await turnTo(page, linkTo(LESSON, seconds));
  await expect(heading(page, TITLE)).toBeVisible();
}

async function momentNow(page: Page): Promise<number> {
  const told = (await slider(page).getAttribute("aria-valuetext")) ?? "";
  const [, minutes = "0", seconds = ""] = /^(?:(\d+) minutes? )?([\d.]+) seconds$/.exec(told) ?? [];
  return 60 * Number(minutes) + Number(seconds);
}

test.describe("where there is little", () => {
  test("no lesson, no such lesson, and the way on from there", async ({ page }) => {
    await page.goto("./#/replay");
    await expect(page.getByText(/^No lesson is kept here yet\./)).toBeVisible();
    await expectClean(page);
    await turnTo(page, "#/replay/nowhere/12");
    await expect(heading(page, "No such lesson")).toBeVisible();
    await expectClean(page);
    await page.getByRole("link", { name: "All lessons" }).click();
    await expect(heading(page, "Replay")).toBeVisible();
  });

  test("a lesson that cannot be read says why, and is tried again", async ({ page }) => {
    await keepLessons(page, [LESSON]);
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const opening = indexedDB.open("throneside");
          opening.onsuccess = () => {
            const writing = opening.result.transaction("events", "readwrite");
            const cursors = writing.objectStore("events").openCursor();
            cursors.onsuccess = () => {
              const cursor = cursors.result;
              if (!cursor) return;
              cursor.update({ ...cursor.value, version: 99 });
              cursor.continue();
            };
            writing.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        }),
    );
    await turnTo(page, linkTo(LESSON));
    await expect(page.getByRole("alert")).toContainText("newer version of the program");
    await expectClean(page);
    await button(page, "Try again").click();
    await expect(page.getByRole("alert")).toContainText("newer version of the program");
  });

  test("a lesson without a strike is shown all the same", async ({ page }) => {
    const empty = playedLesson({ at: "2026-03-09T15:30:00.000Z", takes: [] });
    await keepLessons(page, [empty]);
    await turnTo(page, linkTo(empty));
    await expect(page.getByText("No strike was written down in this lesson.")).toBeVisible();
    await expectClean(page);
  });
});

test.describe("a lesson", () => {
  test.beforeEach(async ({ page }) => {
    await keepLessons(page, [LESSON]);
  });

  test("is found under its student, opened, and left for the others", async ({ page }) => {
    await page.reload();
    await expect(page.getByRole("row", { name: /2 March 2026 16:30 Bram/ })).toContainText(
      "1 round, 3 takes, 1 flag",
    );
    await expectClean(page);
    await page.getByRole("button", { name: /Lessons of$/ }).click();
    await page.getByRole("option", { name: "Bram", exact: true }).click();
    await expect(page).toHaveURL(/#\/replay\/student\/bram$/);
    await page.getByRole("link", { name: "2 March 2026" }).click();
    await expect(heading(page, TITLE)).toBeVisible();
    await expect(page.getByText(/1 round, 3 takes, \d+ strikes/)).toBeVisible();
    await page.getByRole("link", { name: "Other lessons" }).click();
    await expect(page).toHaveURL(/#\/replay\/student\/bram$/);
  });

  test("is gone through by keys: seconds, strikes, takes, ends, near and far, loops, speeds", async ({
    page,
  }) => {
    await open(page);
    const moment = expect.poll(() => momentNow(page));
    await moment.toBe(0);
    await page.keyboard.press("End");
    await moment.toBeGreaterThan(60);
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowLeft");
    await moment.toBe(1);
    await expect(page).toHaveURL(/\/1$/);
    await page.keyboard.press("PageDown");
    // The address is read late: it still says where the cursor stood, and must not put it back.
    await page.evaluate(() => window.dispatchEvent(new HashChangeEvent("hashchange")));
    // A breath before the take, so that nothing of it is cut off.
    await moment.toBe(Math.floor((FIRST.from - LEAD_IN) * 10) / 10);
    await page.keyboard.press("PageDown");
    await moment.toBe(Math.floor((SECOND.from - LEAD_IN) * 10 + 1e-6) / 10);
    await page.keyboard.press("PageUp");
    await page.keyboard.press("Shift+ArrowRight");
    const strike = page.getByRole("status").filter({ hasText: /^(Kick|Hi-hat|Snare|kick|hi-hat|snare)/ });
    await expect(strike).toContainText(/strength \d+ of 127: as written, /);
    const first = await strike.textContent();
    await page.keyboard.press("Shift+ArrowRight");
    await expect(strike).not.toHaveText(first ?? "");
    await page.keyboard.press("Shift+ArrowLeft");
    await expect(strike).toHaveText(first ?? "");
    await page.keyboard.press("[");
    for (let second = 0; second < 3; second += 1) await page.keyboard.press("ArrowRight");
    await page.keyboard.press("]");
    await expect(page.getByText(/^Looped: 0:0\d\.\d to 0:0\d\.\d\.$/)).toBeVisible();
    await page.keyboard.press("\\");
    await expect(page.getByText(/^Looped/)).toHaveCount(0);
    await page.keyboard.press("\\");
    await expect(page.getByText(/^Looped: 0:04\.0 to /)).toBeVisible();
    await page.keyboard.press(",");
    await expect(page.getByRole("button", { name: /Speed$/ })).toContainText("× 0.75");
    await page.keyboard.press(".");
    await expect(page.getByRole("button", { name: /Speed$/ })).toContainText("as played");
    for (const key of ["Space", "Home", "Shift", "PgUp"])
      await expect(page.getByLabel("Margin").getByText(key, { exact: true }).first()).toBeVisible();
  });

  test("sounds again at any speed with its pitch kept, and the cursor goes along", async ({ page }) => {
    await page.addInitScript(() => {
      const started: number[] = [];
      const { start } = AudioBufferSourceNode.prototype;
      AudioBufferSourceNode.prototype.start = function (...how: Parameters<typeof start>): void {
        started.push(this.playbackRate.value);
        start.apply(this, how);
      };
      Object.defineProperty(window, "startedRates", { value: started });
    });
    await turnTo(page, "#/replay");
    await page.reload();
    await open(page, FIRST.from);
    const rates = (): Promise<readonly number[]> =>
      page.evaluate(() => (window as unknown as { startedRates: number[] }).startedRates);
    const heardAt = async (speed: string): Promise<readonly number[]> => {
      await page.getByRole("button", { name: /Speed$/ }).click();
      await page.getByRole("option", { name: speed, exact: true }).click();
      const before = (await rates()).length;
      const from = await momentNow(page);
      await button(page, "Play").click();
      await expect.poll(async () => (await rates()).length, { timeout: 20_000 }).toBeGreaterThan(before + 8);
      // Strikes are handed over well before they are heard.
      await expect.poll(() => momentNow(page)).toBeGreaterThan(from + 1);
      await button(page, "Stop").click();
      await expect(button(page, "Play")).toBeVisible();
      return (await rates()).slice(before);
    };
    const slow = await heardAt("× 0.25");
    const at = await momentNow(page);
    expect(at).toBeGreaterThan(FIRST.from);
    const fast = await heardAt("× 2");
    expect(await momentNow(page)).toBeGreaterThan(at);
    // Each stroke varies by up to 15 cents; a speed of a quarter in the pitch would be two octaves.
    for (const rate of [...slow, ...fast]) expect(rate).toBeGreaterThan(0.7);
    for (const rate of [...slow, ...fast]) expect(rate).toBeLessThan(1.4);
  });

  test("Space plays and stops, from wherever the cursor is", async ({ page }) => {
    await open(page, FIRST.from);
    await page.keyboard.press("Space");
    await expect(button(page, "Stop")).toBeVisible();
    await expect.poll(() => momentNow(page)).toBeGreaterThan(FIRST.from + 1);
    await page.keyboard.press("Space");
    await expect(button(page, "Play")).toBeVisible();
    const stopped = await momentNow(page);
    // The address of the moment one began from looks the same: this one comes a little later.
    const kept = (): number => Number(/\/(\d+\.\d+)$/.exec(page.url())?.[1]);
    await expect.poll(() => Math.abs(kept() - stopped)).toBeLessThan(0.11);
    await page.reload();
    await expect(heading(page, TITLE)).toBeVisible();
    await expect.poll(() => momentNow(page)).toBeCloseTo(stopped, 0);
  });

  test("ring, staff, charts and tables come along with the cursor", async ({ page }) => {
    await open(page, FIRST.from + 1);
    await expect(heading(page, "Take 1: Rock eighths, as called")).toBeVisible();
    await expect(page.getByText("Up to bar 1 of 8, where the cursor is.")).toBeVisible();
    await expect(heading(page, "Written over heard, bar 1")).toBeVisible();
    await expect(page.getByRole("img", { name: /^Bar ring of Rock eighths/ })).toBeVisible();
    await expect(page.getByRole("img", { name: /^Bar 1, written over heard/ })).toBeVisible();
    for (let second = 0; second < 6; second += 1) await page.keyboard.press("ArrowRight");
    await expect(page.getByText("Up to bar 3 of 8, where the cursor is.")).toBeVisible();
    await expect(page.getByRole("img", { name: /^Bar 3, written over heard/ })).toBeVisible();
    await page.keyboard.press("PageDown");
    await page.keyboard.press("PageDown");
    await expect(heading(page, /^Take 3: Shuffle/)).toBeVisible();
    await page.keyboard.press("End");
    await expect(page.getByText(/^All \d+ bars\.$/)).toBeVisible();
    await expectClean(page);
  });

  test("takes remarks: written, worded anew, flagged, taken back, undone, and kept", async ({ page }) => {
    await open(page, 20);
    await expect(remarks(page)).toContainText("0:09.5 Flag. Shoulders up.");
    await page.keyboard.press("m");
    const line = page.getByRole("textbox", { name: "At 0:20.0" });
    await expect(line).toBeFocused();
    await page.keyboard.type("Kick again, softer");
    await page.keyboard.press("Enter");
    await expect(remarks(page)).toContainText("Kick again, softer");
    await page.keyboard.press("Escape");
    await button(page, "Change the remark at 0:20.0").click();
    await line.fill("Kick again");
    await button(page, "Keep").click();
    await expect(remarks(page)).not.toContainText("softer");
    await expectClean(page);
    await slider(page).focus();
    await page.keyboard.press("x");
    await expect(page.getByText("Flagged at 0:20.0.")).toBeVisible();
    await expect(remarks(page).getByText("Flag.")).toHaveCount(2);
    await page.keyboard.press("z");
    await expect(remarks(page).getByText("Flag.")).toHaveCount(1);
    await button(page, "Take back the remark at 0:09.5").click();
    await expect(remarks(page)).not.toContainText("Shoulders up.");
    await page.reload();
    await expect(remarks(page)).toContainText("Kick again");
    await expect(remarks(page)).not.toContainText("Shoulders up.");
    await remarks(page).getByRole("button", { name: "0:20.0", exact: true }).click();
    await expect.poll(() => momentNow(page)).toBe(20);
  });

  test("a take lies beside another of the same groove", async ({ page }) => {
    await open(page, SECOND.from + 2);
    await expect(heading(page, /^Take 2/)).toBeVisible();
    await expect(heading(page, "Beside another take")).toBeVisible();
    await page.keyboard.press("b");
    await expect(heading(page, "Beside take 1")).toBeVisible();
    await expect(page.getByRole("list", { name: "What changed" })).toContainText("Spread");
    await expect(page.getByRole("table", { name: "Voices of both takes" })).toBeVisible();
    await expectClean(page);
  });

  test("goes onto one page of either paper, with the remarks where they are wanted", async ({ page }) => {
    await open(page);
    await page.keyboard.press("w");
    const dialog = page.getByRole("dialog", { name: "Lesson report: Bram, 2 March 2026" });
    await expect(dialog).toContainText("Rock eighths, 2 takes, 100 a minute, with the click");
    await expect(dialog).not.toContainText("Shoulders up.");
    for (const format of ["A4", "Letter"] as const) {
      const pdf = (await page.pdf({ format })).toString("latin1");
      expect(pdf.match(/\/Type\s*\/Page(?![a-zA-Z])/g)).toHaveLength(1);
    }
    await page.keyboard.press("Escape");
    await button(page, "With the remarks").click();
    await expect(dialog).toContainText("0:09: Shoulders up.");
  });

  test("its take is taken along as a file", async ({ page }) => {
    await page.addInitScript(() => {
      Reflect.deleteProperty(window, "showSaveFilePicker");
    });
    await page.reload();
    await open(page, FIRST.from + 1);
    await button(page, "Take it along").click();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page
        .getByRole("menuitem", { name: /^MIDI file/ })
        .first()
        .click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/\.mid$/);
  });
});

test("the same groove over the months: one scale, figures in a table, sounds side by side", async ({
  page,
}) => {
  const months = ["2025-11-03", "2025-12-01", "2026-01-12", "2026-02-02"].map((day, index) =>
    playedLesson({
      at: `${day}T15:30:00.000Z`,
      takes: [
        { styleId: "rock-eighths", seed: 10 + index, spreadMs: 30 - 5 * index, leanMs: -12 + 4 * index },
      ],
    }),
  );
  await keepLessons(page, [...months, LESSON]);
  await open(page, FIRST.from + 1);
  await expect(heading(page, "Rock eighths over the months")).toBeVisible();
  const figures = page.getByRole("table", { name: "Over the months, in figures" });
  await expect(figures.getByRole("row")).toHaveCount(6);
  await expect(figures.getByRole("row", { name: /^3 November 2025/ })).toContainText("100 a minute");
  await expect(page.getByRole("table", { name: "Sounds over the months" })).toContainText("3 November 2025");
  await expectClean(page);

  // From the small charts: the take of another lesson is laid beside this one, and one is led there.
  await button(page, "Lay the take of 3 November 2025 beside this one").click();
  const beside = heading(page, "Beside the take of 3 November 2025");
  await expect(beside).toBeFocused();
  await expect(page.getByRole("list", { name: "What changed" })).toContainText(
    /Spread went from (2|3)\d ms to 1\d ms\./,
  );
  const voices = page.getByRole("table", { name: "Voices of both takes" });
  await expect(voices.getByRole("columnheader")).toHaveText([
    "voice",
    "the take of 3 November 2025",
    "this take",
  ]);
  await expectClean(page);
  // From the take: by the list, and by its key.
  await page.getByRole("button", { name: /Laid beside this take/ }).click();
  await expect(page.getByRole("option")).toHaveText([
    /^take 2: 100 a minute, with the click$/,
    /^2 February 2026: /,
    /^12 January 2026: /,
    /^1 December 2025: /,
    /^3 November 2025: /,
    "no other take",
  ]);
  await page.getByRole("option", { name: /^take 2: / }).click();
  await expect(heading(page, "Beside take 2")).toBeVisible();
  // Take 2 came after this one: it stands after it.
  await expect(voices.getByRole("columnheader")).toHaveText(["voice", "this take", "take 2"]);
  await slider(page).focus();
  await page.keyboard.press("b");
  await expect(heading(page, "Beside the take of 2 February 2026")).toBeVisible();

  await page.getByRole("link", { name: "1 December 2025" }).click();
  await expect(heading(page, "Bram, 1 December 2025, 16:30")).toBeVisible();
});

test("a full lesson still goes onto one page, and says what is left out of it", async ({ page }) => {
  const styles = ["rock-eighths", "shuffle", "bossa-nova", "samba", "disco", "polka", "march"];
  const full = playedLesson({
    at: "2026-03-16T15:30:00.000Z",
    takes: styles.map((styleId, seed) => ({ styleId, seed, bars: 4, leftOut: 0.1 })),
    remarks: Array.from({ length: 6 }, (_, index) => ({
      about: 5 + index,
      text: "Wrist, not the arm. ".repeat(12),
    })),
  });
  await keepLessons(page, [full]);
  await turnTo(page, linkTo(full));
  await button(page, "With the remarks").click();
  const dialog = page.getByRole("dialog", { name: /^Lesson report: Bram/ });
  // Three of seven grooves, three of six remarks.
  await expect(dialog.getByText("And 3 more.")).toHaveCount(2);
  for (const format of ["A4", "Letter"] as const) {
    const pdf = (await page.pdf({ format })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page(?![a-zA-Z])/g)).toHaveLength(1);
  }
});
