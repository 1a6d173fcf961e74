/** Next Time: a student's list, the teacher's changes by keys and by buttons, Five Left, on paper, and where there is nothing. */
import { expect, type Locator, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";

/** What is put into the studio before the page is turned to: rows by table. */
type Rows = Readonly<Record<string, readonly object[]>>;

const DAY_MS = 86_400_000;
const daysAgo = (days: number): string => new Date(Date.now() - days * DAY_MS).toISOString().slice(0, 10);

function student(id: string, nickname: string): object {
  return {
    version: 1,
    id,
    nickname,
    level: "second-year",
    hand: "right",
    notes: "",
    archived: false,
    addedAt: "2026-01-01T10:00:00.000Z",
  };
}

function result(item: string, outcome: string, ago: number, place: number, words: string): object {
  const day = daysAgo(ago);
  return {
    version: 1,
    lessonId: `${day}~a1`,
    seq: 9,
    place,
    day,
    item,
    outcome,
    studentId: "bram",
    // In the first minute of its day: today's is past already, at whatever hour this is tried.
    at: `${day}T00:00:${String(10 + place)}.000Z`,
    evidence: { words, roundId: "round-1" },
  };
}

const STUDIO: Rows = {
  students: [student("bram", "Bram"), student("noor", "Noor")],
  results: [
    result("style:bossa-nova", "known", 60, 0, "Held at 120 a minute."),
    result("style:bossa-nova", "known", 46, 0, "Held at 124 a minute."),
    result("sticking:flam-tap", "known", 14, 1, "Right, left, right."),
    result("sticking:flam-tap", "slipped", 7, 1, "The left hand began twice."),
    result("style:samba", "slipped", 7, 2, "Bossa nova was heard at 110 a minute."),
    result("symbol:dotted-quarter-rest", "new", 7, 3, "Taken for a half rest."),
  ],
};

/** Fills the studio of this browser, as lessons would have. */
async function fill(page: Page, rows: Rows): Promise<void> {
  await page.goto("./#/next-time");
  await expect(page.getByText("There is nobody on the Roster yet.")).toBeVisible();
  await page.evaluate(async (all) => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open("throneside");
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(opening.error);
    });
    const tables = Object.keys(all);
    const writing = database.transaction(tables, "readwrite");
    for (const table of tables) for (const row of all[table] ?? []) writing.objectStore(table).put(row);
    await new Promise<void>((resolve, reject) => {
      writing.oncomplete = () => resolve();
      writing.onerror = () => reject(writing.error);
    });
    database.close();
  }, rows);
  await page.reload();
}

const list = (page: Page): Locator => page.getByRole("listbox", { name: "For the next lesson" });
const rowsOf = (page: Page, part: "Refresh" | "New"): Locator =>
  list(page).getByRole("group", { name: part }).getByRole("option");
const inFocus = (page: Page): Locator => list(page).locator('[aria-selected="true"]');
const button = (page: Page, name: string): Locator => page.getByRole("button", { name, exact: true });

async function names(page: Page, part: "Refresh" | "New"): Promise<readonly string[]> {
  const labels = await rowsOf(page, part).evaluateAll((rows) =>
    rows.map((row) => row.getAttribute("aria-label")),
  );
  return labels.map((label) => label?.split(",")[0] ?? "");
}

test.use({ reducedMotion: "reduce" });

test("nobody on the Roster, nobody heard, and a list: each is told, each is accessible", async ({ page }) => {
  await fill(page, STUDIO);
  await expect(page.getByRole("heading", { level: 1, name: "Next Time: Bram" })).toBeVisible();
  await expect(rowsOf(page, "Refresh").first()).toBeVisible();
  await expect(page.getByRole("heading", { name: "Each item of the list" })).toBeVisible();
  await expectClean(page);
  await page.getByRole("button", { name: /Student$/ }).click();
  await page.getByRole("option", { name: "Noor" }).click();
  await expect(page.getByText("Nothing has been heard of Noor yet.")).toBeVisible();
  await expect(page.getByText("Nothing is fading by then.")).toBeVisible();
  await expectClean(page);
});

test("by keys: choose, move, cross off, undo; it is as it was left when the page is opened again", async ({
  page,
}) => {
  await fill(page, STUDIO);
  await expect(rowsOf(page, "Refresh")).toHaveCount(3);
  const before = await names(page, "Refresh");
  await list(page).focus();
  await page.keyboard.press("ArrowDown");
  await expect(inFocus(page)).toHaveAccessibleName(new RegExp(`^${before[1]}`));
  await page.keyboard.press("Alt+ArrowUp");
  await expect.poll(() => names(page, "Refresh")).toEqual([before[1], before[0], before[2]]);
  await page.keyboard.press("m");
  await expect.poll(() => names(page, "New")).toEqual([before[1], "Dotted quarter rest"]);
  await page.keyboard.press("x");
  await expect(page.getByRole("heading", { name: "Crossed off" })).toBeVisible();
  await page.reload();
  await expect.poll(() => names(page, "Refresh")).toEqual([before[0], before[2]]);
  await expect.poll(() => names(page, "New")).toEqual(["Dotted quarter rest"]);
  for (let undone = 0; undone < 3; undone += 1) await page.keyboard.press("Control+z");
  await expect.poll(() => names(page, "Refresh")).toEqual(before);
  await expect(button(page, "Undo")).toBeDisabled();
});

test("by buttons: move, cross off, put back, add a groove and a line of one's own", async ({ page }) => {
  await fill(page, STUDIO);
  const first = rowsOf(page, "Refresh").first();
  await expect(first).toHaveAttribute("aria-selected", "true");
  await expect(rowsOf(page, "Refresh")).toHaveCount(3);
  const before = await names(page, "Refresh");
  await button(page, "Move down").click();
  await expect.poll(() => names(page, "Refresh")).toEqual([before[1], before[0], before[2]]);
  await button(page, "Cross off").click();
  await expect(page.getByText(`${before[0]} is crossed off. Undo brings it back.`)).toBeVisible();
  await button(page, "Put it back").click();
  await expect.poll(() => names(page, "Refresh")).toContain(before[0]);
  const line = page.getByRole("textbox", { name: /^Add a groove/ });
  await page.locator("h1").click();
  await page.keyboard.press("n");
  await expect(line).toBeFocused();
  await page.keyboard.type("tang");
  await button(page, "Tango, played").click();
  await expect.poll(() => names(page, "New")).toEqual(["Dotted quarter rest", "Tango"]);
  await line.fill("Bring the brushes");
  await expectClean(page);
  await page.keyboard.press("Enter");
  await expect.poll(() => names(page, "New")).toEqual(["Dotted quarter rest", "Tango", "Bring the brushes"]);
});

test("another day makes another list", async ({ page }) => {
  await fill(page, { ...STUDIO, results: [...(STUDIO.results ?? []), ...knownWell()] });
  await expect(rowsOf(page, "Refresh")).toHaveCount(3);
  const later = new Date(Date.now() + 700 * DAY_MS).toISOString().slice(0, 10);
  await page.getByLabel("Next lesson", { exact: true }).fill(later);
  await expect(rowsOf(page, "Refresh")).toHaveCount(4);
  // A part without an entry is accessible too.
  await rowsOf(page, "New").first().click();
  await button(page, "Cross off").click();
  await expect(rowsOf(page, "New")).toHaveCount(0);
  await expectClean(page);
});

/** Held three times, the last time today: it will last for weeks. */
function knownWell(): readonly object[] {
  return [60, 30, 0].map((ago, at) => result("style:polka", "known", ago, 5 + at, "Held."));
}

test("Five Left deals what fits and can be asked here, and begins with it", async ({ page }) => {
  await fill(page, STUDIO);
  await button(page, "Deal").click();
  const dealt = page
    .getByRole("complementary", { name: "Margin" })
    .getByRole("status")
    .getByRole("listitem")
    .filter({ has: button(page, "Begin with these") });
  const first = dealt.first();
  await expect(first).toContainText(/^(Call a Style|Wall Chart|Card Table), [1-5] minutes?/);
  await expect(first).toContainText(/chance it is gone|never met before/);
  await expectClean(page);
  const [round = ""] = await first.locator("strong").allTextContents();
  await first.getByRole("button", { name: "Begin with these" }).click();
  await expect(page.getByRole("heading", { level: 1, name: round })).toBeVisible();
});

test("over the months: each skill and each item as a small chart, the figures beside it, the entry in focus first", async ({
  page,
}) => {
  await fill(page, STUDIO);
  const chart = (name: string): Locator => page.getByRole("figure", { name: `${name}, lesson after lesson` });
  await expect(chart("playing grooves")).toBeVisible();
  // Two lessons in which it held, one in which it was missed: a column each.
  await expect(chart("playing grooves").locator(".recharts-bar-rectangle path")).toHaveCount(3);
  const figures = chart("rudiments");
  await figures.getByText("Figures of rudiments").click();
  await expect(figures.getByRole("row")).toHaveText([
    "lessonheldmissednew",
    /^\d+ \w+ \d{4}100$/,
    /^\d+ \w+ \d{4}010$/,
  ]);
  await rowsOf(page, "New").first().click();
  await expect(
    page.getByRole("heading", { name: "Each item of the list" }).locator("+ ul").getByRole("figure").first(),
  ).toHaveAccessibleName("Dotted quarter rest, read, lesson after lesson");
  await expectClean(page);
});

test("a groove in focus is played now", async ({ page }) => {
  await fill(page, STUDIO);
  await rowsOf(page, "Refresh").filter({ hasText: "Samba" }).click();
  await button(page, "Play it now").click();
  await expect(page).toHaveURL(/#\/call-a-style$/);
  await expect(page.getByRole("option", { selected: true })).toHaveText("Samba");
});

test("on paper: one page, with the student's name, and no chance on it", async ({ page }) => {
  await fill(page, STUDIO);
  await expect(rowsOf(page, "Refresh")).toHaveCount(3);
  await page.locator("h1").click();
  await page.keyboard.press("p");
  const sheet = page.getByRole("article", { name: /^Next Time: / });
  await expect(sheet).toBeVisible();
  await expect(page.getByRole("textbox", { name: /^Name/ })).toHaveValue("Bram");
  await expect(sheet.getByRole("listitem")).toHaveCount(4);
  await expect(sheet).not.toContainText("one in");
  await expectClean(page);
  const pdf = await page.pdf({ preferCSSPageSize: true, format: "A4" });
  expect(pdf.toString("latin1").match(/\/Type \/Page\b(?!s)/g)).toHaveLength(1);
  await page.keyboard.press("Escape");
  await expect(sheet).toHaveCount(0);
});

test("what another window hears is on the list without asking", async ({ page, context }) => {
  await fill(page, STUDIO);
  await expect(rowsOf(page, "Refresh")).toHaveCount(3);
  const other = await context.newPage();
  await other.goto("./#/next-time");
  await expect(rowsOf(other, "Refresh")).toHaveCount(3);
  await other.getByRole("button", { name: "Cross off" }).click();
  await expect(rowsOf(page, "Refresh")).toHaveCount(2);
});

test("at 200 % zoom it is one column, nothing cut off at the side; every control is large enough", async ({
  page,
}) => {
  await page.setViewportSize({ width: 640, height: 360 });
  await fill(page, STUDIO);
  await expect(rowsOf(page, "Refresh").first()).toBeVisible();
  await expect(page.getByRole("heading", { name: "Each item of the list" })).toBeVisible();
  // Charts take the width that is there a moment after it.
  await expect
    .poll(() =>
      page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
    )
    .toBe(0);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("button, input, [role=option]")]
      .filter((control) => control.closest("[aria-hidden=true], [hidden]") === null)
      // Of a toggle the whole label is pressed, not the box that is hidden in it.
      .map((control) => (control.matches("[role=switch]") ? (control.closest("label") ?? control) : control))
      .map((control) => ({ name: control.textContent, box: control.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 1 && (box.width < 43.9 || box.height < 43.9))
      .map(({ name, box }) => `${name} ${box.width} × ${box.height}`),
  );
  expect(small).toEqual([]);
  await expectClean(page);
});
