/** Five Left from the Desk: one press, the rounds that are dealt, and the end on time. */
import { expect, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { addStudent, rowsOf } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";
import { KIT, plugIn, send, stroke } from "./virtualKit.ts";

/** A wood block of General MIDI 1, which no drum set has. */
const BLOCK = 76;

test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

/** What an earlier lesson showed of these. */
async function hadALesson(
  page: Page,
  items: readonly string[],
  outcome: "slipped" | "known" = "slipped",
): Promise<void> {
  const [bram] = await rowsOf(page, "students");
  const rows = items.map((item, place) => ({
    version: 1,
    lessonId: "2026-02-23T15:00:00.000Z~a1",
    seq: outcome === "known" ? 8 : 9,
    place,
    day: "2026-02-23",
    item,
    outcome,
    studentId: bram?.id,
    at: `2026-02-23T15:0${place}:00.000Z`,
    evidence: { words: "It went otherwise.", roundId: "round-1" },
  }));
  await page.evaluate(async (all) => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open("throneside");
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(opening.error);
    });
    const writing = database.transaction("results", "readwrite");
    for (const row of all) writing.objectStore("results").put(row);
    await new Promise<void>((resolve, reject) => {
      writing.oncomplete = () => resolve();
      writing.onerror = () => reject(writing.error);
    });
    database.close();
  }, rows);
}

test("one press deals what is due into rounds there are, goes from one to the next, and ends on time", async ({
  page,
}) => {
  await page.clock.install({ time: new Date("2026-03-02T15:39:30+01:00") });
  await addStudent(page, "Bram", { weekday: "Monday", from: "15:15" });
  await hadALesson(page, ["style:samba", "sound:floor-tom"]);
  await turnTo(page, "#/desk");
  await page.getByRole("button", { name: "Begin with Bram" }).click();
  const press = page.getByRole("button", { name: "Five Left", exact: true });
  await expect(press).toBeEnabled();
  await press.click();
  const foot = page.getByRole("region", { name: "Five Left" });
  // Which of the two comes first is drawn by lot.
  await page.waitForURL(/#\/(call-a-style|back-turned)/);
  const first = page.url().split("#/")[1] ?? "";
  const name = (round: string): string => (round.startsWith("call") ? "Call a Style" : "Back Turned");
  const other = first.startsWith("call") ? "back-turned" : "call-a-style";
  await expect(foot).toContainText(`${name(first)}, 4 minutes left`);
  await expectClean(page);
  await page.clock.fastForward("02:00");
  await expect(page).toHaveURL(new RegExp(`#/${other}`));
  await expect(foot).toContainText(`${name(other)}, 2 minutes left`);
  await page.clock.fastForward("02:00");
  await expect(page.getByRole("heading", { level: 1, name: "Bram, until 15:45" })).toBeVisible();
  await expect(page.getByText(/^Five Left is over\. It was: .*2 minutes; .*2 minutes\.$/)).toBeVisible();
  await expect(foot).toHaveCount(0);
  // The round that was running by itself was ended too, within the lesson's time.
  await expect
    .poll(async () =>
      (await rowsOf(page, "events"))
        .map(({ event }) => event as { kind: string })
        .filter(({ kind }) => kind === "round-began" || kind === "round-ended")
        .map(({ kind }) => kind),
    )
    .toEqual(["round-began", "round-ended"]);
});

/** Begins a lesson with Bram and presses. */
async function press(page: Page, name: string): Promise<void> {
  await turnTo(page, "#/desk");
  await page.getByRole("button", { name: "Begin with Bram" }).click();
  await page.getByRole("button", { name, exact: true }).click();
}

interface Step {
  readonly kind: string;
  readonly dealt?: { readonly items: readonly string[]; readonly nothingElse: boolean };
  readonly [more: string]: unknown;
}

/** The steps of the rounds of the lesson, as they were written. */
async function stepsOf(page: Page): Promise<readonly Step[]> {
  const rows = await rowsOf(page, "events");
  return rows
    .map(({ event }) => event as { readonly kind: string; readonly step?: { readonly event: Step } })
    .flatMap(({ step }) => (step ? [step.event] : []));
}

test.describe("each round begins with the set that was dealt, in the one press", () => {
  test.beforeEach(async ({ page }) => {
    await page.clock.setFixedTime("2026-03-02T15:20:00+01:00");
    await addStudent(page, "Bram", { weekday: "Monday", from: "15:15" });
  });

  test("Back Turned: the sounds are sounded first, then asked", async ({ page }) => {
    await hadALesson(page, ["sound:hi-hat-pedal"]);
    await press(page, "Five Left");
    await expect(page.getByRole("heading", { level: 1, name: "Back Turned" })).toBeVisible();
    await expect(page.getByRole("heading", { name: "First each once." })).toBeVisible();
    await page.keyboard.press("n");
    await expect
      .poll(async () => (await stepsOf(page)).find(({ kind }) => kind === "asked")?.moments)
      .toEqual([[{ surface: "hi-hat-pedal" }]]);
    expect((await stepsOf(page)).find(({ kind }) => kind === "began")?.dealt).toEqual({
      items: ["sound:hi-hat-pedal"],
      nothingElse: false,
    });
  });

  test("Call a Style: the dealt styles one after another, by key and by a struck command", async ({
    page,
  }) => {
    await hadALesson(page, ["style:samba", "style:waltz"]);
    await page.evaluate(
      ([kit, pad]) => {
        const strikes = { next: { kind: "own-pad", pad } };
        localStorage.setItem(`throneside.commands/${kit}`, JSON.stringify({ version: 1, strikes }));
      },
      [KIT, BLOCK] as const,
    );
    // The kit is there from the next loading on.
    await plugIn(page, KIT);
    await page.goto("./#/kit");
    await page.reload();
    await page.getByRole("button", { name: "Connect the kit" }).click();
    await page.getByText(`${KIT} is connected.`).waitFor();
    await page.getByRole("link", { name: "Desk", exact: true }).click();
    await page.getByRole("button", { name: "Begin with Bram" }).click();
    await page.getByRole("button", { name: "Five Left", exact: true }).click();
    const dealt = page.getByRole("region", { name: "Five Left" }).getByRole("listitem");
    await expect(dealt).toHaveCount(2);
    const [first = "", second = ""] = (await dealt.allTextContents()).map((words) =>
      words.replace(", played", ""),
    );
    const called = (name: string) => page.getByRole("heading", { level: 2, name, exact: true });
    await expect(called(first)).toBeVisible();
    await page.getByRole("button", { name: `Next: ${second}` }).waitFor();
    await page.getByRole("heading", { level: 1, name: "Call a Style" }).click();
    await page.keyboard.press("n");
    await expect(called(second)).toBeVisible();
    await expect(page.getByRole("button", { name: "Next round" })).not.toHaveCount(0);
    await page
      .getByRole("region", { name: "Five Left" })
      .getByRole("button", { name: `${first}, played` })
      .click();
    await expect(called(first)).toBeVisible();
    await send(page, [stroke(BLOCK)]);
    await expect(called(second)).toBeVisible();
  });

  test("Card Table: its cards lie first", async ({ page }) => {
    await hadALesson(page, ["symbol:fermata"]);
    await press(page, "Five Left");
    await expect(page.getByRole("heading", { name: "What is it?" })).toBeVisible();
    await expect(page.getByRole("button", { name: /Fermata/ })).toBeVisible();
    // What is dealt is the answer: it stands nowhere but among the names to choose from.
    const foot = page.getByRole("region", { name: "Five Left" });
    await expect(foot).toContainText("One thing is dealt.");
    await expect(foot).not.toContainText("Fermata");
    await expect
      .poll(async () => (await stepsOf(page)).find(({ kind }) => kind === "deck-laid")?.cards as Step[])
      .toHaveProperty("0", { card: "symbol:fermata", reason: "due" });
  });

  test("Spotting: what is fading is played first", async ({ page }) => {
    await hadALesson(page, ["style-name:samba"]);
    await press(page, "Five Left");
    await expect
      .poll(async () => (await stepsOf(page)).find(({ kind }) => kind === "asked")?.thing)
      .toMatchObject({ kind: "groove", id: "samba" });
    await expect(page).toHaveURL(/#\/spotting/);
  });

  test("Wall Chart: a look at these alone, then their hands", async ({ page }) => {
    await hadALesson(page, ["rudiment:flam", "sticking:flam-tap"]);
    await press(page, "Five Left");
    await expect(page).toHaveURL(/#\/wall-chart/);
    const chart = page.getByRole("main");
    await expect(chart).toContainText("Flam");
    await expect(chart).not.toContainText("Single Stroke Roll");
    await page.keyboard.press("n");
    await page.keyboard.press("n");
    await page.keyboard.press("n");
    await expect
      .poll(async () => (await stepsOf(page)).find(({ kind }) => kind === "asked")?.entry)
      .toBe("flam-tap");
    await expectClean(page);
  });

  test("on a bad day only what held is asked, and when it is through, one press goes on", async ({
    page,
  }) => {
    await hadALesson(page, ["style:samba", "sound:floor-tom", "style-name:polka"], "slipped");
    await hadALesson(page, ["symbol:fermata"], "known");
    await press(page, "Five Left on a bad day");
    await expect(page.getByRole("heading", { name: "What is it?" })).toBeVisible();
    await expect
      .poll(async () => (await stepsOf(page)).find(({ kind }) => kind === "deck-laid")?.cards as Step[])
      .toContainEqual({ card: "symbol:fermata", reason: "due" });
    const laid = (await stepsOf(page)).find(({ kind }) => kind === "deck-laid")?.cards as { card: string }[];
    expect(laid.filter(({ card }) => !card.startsWith("joker:"))).toHaveLength(1);
    await page.getByRole("button", { name: /Fermata/ }).click();
    // A joker may lie behind the one card there is.
    const goOn = page.getByRole("button", { name: "Go on with Five Left" });
    for (let left = laid.length; left > 0; left -= 1)
      await page.getByRole("button", { name: /^(Next card|To the tally)/ }).click();
    await expect(goOn).toBeVisible();
    await expect(page.getByRole("main")).toContainText("Held");
    await page.keyboard.press("n");
    await expect(page.getByText("Five Left is over. It was: Card Table, 2 minutes.")).toBeVisible();
    await page.getByRole("link", { name: "What it makes of Next Time" }).click();
    await expect(page.getByRole("heading", { level: 1, name: "Next Time: Bram" })).toBeVisible();
  });
});

test("nothing that can be asked here: that is said, and nothing begins", async ({ page }) => {
  await page.clock.setFixedTime("2026-03-02T15:20:00+01:00");
  await addStudent(page, "Bram", { weekday: "Monday", from: "15:15" });
  await turnTo(page, "#/desk");
  await page.getByRole("button", { name: "Begin with Bram" }).click();
  await page.getByRole("button", { name: "Five Left", exact: true }).click();
  await expect(page.getByText("Nothing fits the time that is left.")).toBeVisible();
  await expect(page).toHaveURL(/#\/desk$/);
});
