/** Roster: students added, found, changed, archived, undone; taken along, made one, erased without a trace. */
import { readFileSync } from "node:fs";
import { expect, type Page } from "@playwright/test";
import { strFromU8, unzipSync } from "fflate";
import { expectClean } from "./clean.ts";
import { IN_REAL_TIME, MEASURED } from "./measured.ts";
import { test } from "./quietTest.ts";
import { addStudent, allStorage, choose, rowsOf } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";

test.use({ reducedMotion: "reduce" });

/** A lesson with two strikes and a remark. */
async function teach(page: Page, nickname: string, remark: string): Promise<void> {
  await page.getByRole("button", { name: "Begin a lesson" }).click();
  await expect(page.getByRole("button", { name: "End the lesson" })).toBeVisible();
  await page.keyboard.press("KeyF");
  await page.keyboard.press("KeyF");
  await page.getByRole("textbox", { name: "A remark about now" }).fill(remark);
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "End the lesson" }).click();
  await expect(page.getByRole("button", { name: "End the lesson" })).toHaveCount(0);
  await expect
    .poll(async () => (await rowsOf(page, "lessons")).filter(({ endedAt }) => endedAt === null).length)
    .toBe(0);
  await turnTo(page, "#/roster");
  await page.getByRole("link", { name: nickname }).click();
  await expect(page.getByRole("heading", { level: 1, name: nickname })).toBeVisible();
}

test("by keyboard alone: a student is added, found, changed, archived, and all of it taken back", async ({
  page,
}) => {
  await page.goto("./#/roster");
  await expect(page.getByText("Nobody yet.")).toBeVisible();
  await expectClean(page);
  await page.getByRole("link", { name: "Add a student" }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("textbox", { name: "Nickname" })).toBeFocused();
  await expectClean(page);
  // Letters typed into a field strike no drum.
  await page.keyboard.type("Noor");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Noor" })).toBeVisible();
  await expect(page.getByText("Noor added.")).toBeVisible();
  await expectClean(page);
  await page.getByRole("textbox", { name: "Notes" }).fill("Likes to know why.");
  await page.getByRole("button", { name: "Keep the changes" }).press("Enter");
  await expect(page.getByText("Noor changed.")).toBeVisible();
  await page.getByRole("button", { name: "Put in the archive" }).press("Enter");
  await expect(page.getByText("Noor archived.")).toBeVisible();
  await expect(page.getByRole("button", { name: "Begin a lesson" })).toBeDisabled();
  await page.keyboard.press("Control+z");
  await expect(page.getByText("Undone: Noor archived.")).toBeVisible();
  await expect(page.getByRole("button", { name: "Begin a lesson" })).toBeEnabled();
  await page.keyboard.press("Control+z");
  await expect(page.getByRole("textbox", { name: "Notes" })).toHaveValue("");
  await page.getByRole("link", { name: "Back to the Roster" }).press("Enter");
  await expect(page.getByRole("searchbox", { name: "Find a student" })).toBeVisible();
  await page.keyboard.press("/");
  await expect(page.getByRole("searchbox", { name: "Find a student" })).toBeFocused();
  await page.keyboard.type("noo");
  await expect(page.getByRole("rowheader")).toHaveText(["Noor"]);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Noor" })).toBeVisible();
});

test("the form says what is missing, and that a nickname is there already", async ({ page }) => {
  await addStudent(page, "Bram");
  await turnTo(page, "#/roster/new");
  await page.getByRole("button", { name: "Add to the Roster" }).click();
  await expect(page.getByRole("alert")).toHaveText("A nickname is needed.");
  await page.getByRole("textbox", { name: "Nickname" }).fill("bram");
  await expect(page.getByText("Another student goes by this nickname already.")).toBeVisible();
  await page.getByRole("textbox", { name: /who agreed/ }).fill("his father");
  await page.getByRole("button", { name: "Add to the Roster" }).click();
  await expect(page.getByRole("alert")).toHaveText("The consent note needs both: who agreed, and the day.");
  await expect(page.getByText("Local rules decide.")).toBeVisible();
  await expectClean(page);
});

test("groups are made, filled and looked at; the archive is apart", async ({ page }) => {
  await addStudent(page, "Bram");
  await addStudent(page, "Noor");
  await turnTo(page, "#/roster");
  await page.getByRole("textbox", { name: "A new group" }).fill("Saturday band");
  await page.keyboard.press("Enter");
  await expect(page.getByText("Saturday band, 0 students")).toBeVisible();
  await page.getByRole("link", { name: "Noor" }).click();
  // The name of the group stands on the Roster too.
  await expect(page.getByRole("heading", { level: 1, name: "Noor" })).toBeVisible();
  await page.getByText("Saturday band", { exact: true }).click();
  await expect(page.getByRole("switch", { name: "Saturday band" })).toBeChecked();
  await page.getByRole("link", { name: "Back to the Roster" }).click();
  await expect(page.getByText("Saturday band, 1 student")).toBeVisible();
  await choose(page, /Group/, "Saturday band");
  await expect(page.getByRole("rowheader")).toHaveText(["Noor"]);
  await page.getByRole("link", { name: "Noor" }).click();
  await page.getByRole("button", { name: "Put in the archive" }).click();
  await expect(page.getByText("Noor archived.")).toBeVisible();
  await page.getByRole("link", { name: "Back to the Roster" }).click();
  await expect(page.getByRole("rowheader")).toHaveText(["Bram"]);
  await page.getByText("The archive", { exact: true }).click();
  await expect(page.getByRole("rowheader")).toHaveText(["Noor"]);
  await expectClean(page);
});

test("erased, neither the id nor the nickname is anywhere in what the browser keeps", async ({ page }) => {
  await addStudent(page, "Bram");
  await addStudent(page, "Zzyzxa");
  const [student] = (await rowsOf(page, "students")).filter(({ nickname }) => nickname === "Zzyzxa");
  const id = String(student?.id);
  await page.getByRole("textbox", { name: "Notes" }).fill("Zzyzxa sits beside Bram.");
  await page.getByRole("button", { name: "Keep the changes" }).click();
  await expect(page.getByText("Zzyzxa changed.")).toBeVisible();
  await teach(page, "Zzyzxa", "Zzyzxa leads.");
  await turnTo(page, "#/roster");
  await page.getByRole("link", { name: "Bram" }).click();
  await teach(page, "Bram", "Louder than Zzyzxa.");
  const before = await allStorage(page);
  expect(before).toContain(id);
  expect(before).toContain("Louder than Zzyzxa.");
  await turnTo(page, "#/roster");
  await page.getByRole("link", { name: "Zzyzxa" }).click();
  await page.getByRole("button", { name: "Erase Zzyzxa" }).click();
  await expect(page.getByText("1 lesson, with every strike in it")).toBeVisible();
  await expect(page.getByRole("button", { name: "Erase for good" })).toBeDisabled();
  await page.getByRole("textbox", { name: /To be sure/ }).fill("Zzyzxa");
  await expectClean(page);
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText("The student is erased.")).toBeVisible();
  await expect(page.getByRole("rowheader")).toHaveText(["Bram"]);
  const after = await allStorage(page);
  expect(after).not.toContain(id);
  expect(after.toLowerCase()).not.toContain("zzyzxa");
  expect(after).toContain("Louder than somebody.");
  // Nothing that can be taken back brings the student back.
  await page.keyboard.press("Control+z");
  await expect(page.getByRole("rowheader")).toHaveText(["Bram"]);
});

test("twice on the Roster becomes one, lessons and all, and two again", async ({ page }) => {
  await addStudent(page, "Bram B.");
  await teach(page, "Bram B.", "the first");
  await addStudent(page, "Bram");
  await choose(page, "Who is Bram as well?", "Bram B.");
  await page.getByRole("button", { name: "Make Bram B. one with Bram" }).click();
  await expect(page.getByText("Bram B. made one with Bram.")).toBeVisible();
  await page.getByRole("link", { name: "Back to the Roster" }).click();
  await expect(page.getByRole("rowheader")).toHaveText(["Bram"]);
  const [bram] = await rowsOf(page, "students");
  expect((await rowsOf(page, "lessons")).map(({ studentIds }) => studentIds)).toEqual([[bram?.id]]);
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect(page.getByRole("rowheader")).toHaveText(["Bram", "Bram B."]);
});

test("one student leaves as one zip", async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
  await addStudent(page, "Noor");
  await teach(page, "Noor", "Sing it.");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Take Noor along" }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^Noor, \d{4}-\d\d-\d\d\.zip$/);
  const files = unzipSync(new Uint8Array(readFileSync(await download.path())));
  expect(Object.keys(files).slice(0, 5)).toEqual([
    "read me.html",
    "lessons.csv",
    "takes.csv",
    "results.csv",
    "Noor.throneside.jsonl",
  ]);
  expect(strFromU8(files["Noor.throneside.jsonl"] ?? new Uint8Array())).toContain("Sing it.");
  await expect(page.getByText(/Handed over to the downloads: Noor/)).toBeVisible();
  // The page to read stands on its own, and is one that everybody can read.
  await page.setContent(strFromU8(files["read me.html"] ?? new Uint8Array()));
  await expect(page.getByRole("heading", { level: 1, name: "Noor" })).toBeVisible();
  await expect(page.getByRole("table")).toHaveCount(2);
  await expect(page.getByRole("row").last()).toContainText(/\d{4}-\d\d-\d\d/);
  await expectClean(page);
});

test.describe("in real time", IN_REAL_TIME, () => {
  test.describe.configure(MEASURED);
  test("with 200 students it stands as soon as with four, and nothing is put in its place first", async ({
    page,
  }) => {
    await page.goto("./#/roster");
    await expect(page.getByText("Nobody yet")).toBeVisible();
    await page.addInitScript(() => {
      const marks = { placeholder: false, rowsMs: 0 };
      Reflect.set(window, "marks", marks);
      new MutationObserver(() => {
        if (document.body?.textContent.includes("is being fetched")) marks.placeholder = true;
        if (marks.rowsMs === 0 && document.querySelector("tbody a")) marks.rowsMs = performance.now();
      }).observe(document, { childList: true, subtree: true });
    });
    const times = new Map<number, { readonly placeholder: boolean; readonly rowsMs: number }[]>([
      [4, []],
      [200, []],
    ]);
    // In turns, so that what else the machine does falls on both.
    for (let turn = 0; turn < 5; turn += 1)
      for (const [students, marks] of times) {
        await putStudents(page, students);
        await page.goto("about:blank");
        await page.goto("./#/roster");
        await expect(page.locator("tbody a")).toHaveCount(students);
        marks.push(await page.evaluate(() => Reflect.get(window, "marks")));
      }
    // What else a machine does makes a page later, never sooner: the soonest of each is the program's.
    const [soonestOfFour, soonestOfMany] = [...times.values()].map((all) =>
      all.toSorted((one, other) => one.rowsMs - other.rowsMs).at(0),
    );
    expect(soonestOfFour?.placeholder).toBe(false);
    expect(soonestOfMany?.placeholder).toBe(false);
    const [four = 0, many = 0] = [soonestOfFour?.rowsMs, soonestOfMany?.rowsMs];
    console.log(
      `Roster from nothing: ${Math.round(four)} ms with 4 students, ${Math.round(many)} ms with 200.`,
    );
    expect(four).toBeGreaterThan(0);
    expect(many / four).toBeLessThan(2);
  });
});

async function putStudents(page: Page, count: number): Promise<void> {
  await page.evaluate(async (students) => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open("throneside");
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    const transaction = database.transaction("students", "readwrite");
    transaction.objectStore("students").clear();
    for (let number = 0; number < students; number += 1)
      transaction.objectStore("students").put({
        version: 1,
        id: `s${number}`,
        nickname: `Student ${number}`,
        level: "steady",
        hand: "right",
        notes: "",
        archived: false,
        addedAt: "2026-01-01T10:00:00.000Z",
        lessonDay: { weekday: 1 + (number % 7), from: "15:30", minutes: 30 },
      });
    await new Promise((resolve) => {
      transaction.oncomplete = resolve;
    });
    database.close();
  }, count);
}
