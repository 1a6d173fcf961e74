/** Five Left from the Desk: one press, the rounds that are dealt, and the end on time. */
import AxeBuilder from "@axe-core/playwright";
import { expect, type Page } from "@playwright/test";
import { test } from "./quietTest.ts";
import { addStudent, rowsOf } from "./studioPages.ts";

test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

/** What an earlier lesson showed: one groove missed, one sound missed, and a sign, for which there is no round yet. */
async function hadALesson(page: Page): Promise<void> {
  const [bram] = await rowsOf(page, "students");
  const rows = ["style:samba", "sound:floor-tom", "symbol:fermata"].map((item, place) => ({
    version: 1,
    lessonId: "2026-02-23T15:00:00.000Z~a1",
    seq: 9,
    place,
    day: "2026-02-23",
    item,
    outcome: "slipped",
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
  await hadALesson(page);
  await page.goto("./#/desk");
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
  await expect(foot).not.toContainText("Fermata");
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
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

test("nothing that can be asked here: that is said, and nothing begins", async ({ page }) => {
  await page.clock.setFixedTime("2026-03-02T15:20:00+01:00");
  await addStudent(page, "Bram", { weekday: "Monday", from: "15:15" });
  await page.goto("./#/desk");
  await page.getByRole("button", { name: "Begin with Bram" }).click();
  await page.getByRole("button", { name: "Five Left", exact: true }).click();
  await expect(page.getByText("Nothing fits the time that is left.")).toBeVisible();
  await expect(page).toHaveURL(/#\/desk$/);
});
