import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { expect, type Page } from "@playwright/test";
import { fillById } from "../../engine/catalogue/index.ts";
import { itemId, OUTCOMES, type SessionEvent } from "../../engine/session/index.ts";
import { LESSON, playedLesson } from "../renderer/screens/replay/playedLesson.ts";
import { expectClean } from "./clean.ts";
import { snareOnTheTom, withoutEverySecondKick } from "./faultyTake.ts";
import { test } from "./quietTest.ts";
import { keepLessons, linkTo } from "./replayed.ts";
import { openReport, withoutPlaces } from "./reportOpened.ts";
import { turnTo } from "./turnTo.ts";

const run = promisify(execFile);

const SHUFFLE = { id: "shuffle", name: "Shuffle" } as const;
const PAPERS = ["A4", "Letter"] as const;

/** Pages and pictures made of dots, counted in the PDF itself: the browser writes these objects uncompressed. */
function inPdf(pdf: Buffer): { readonly pages: number; readonly pictures: number; readonly fonts: number } {
  const text = pdf.toString("latin1");
  const count = (pattern: RegExp): number => text.match(pattern)?.length ?? 0;
  return {
    pages: count(/\/Type\s*\/Page(?![a-zA-Z])/g),
    pictures: count(/\/Subtype\s*\/Image/g),
    fonts: count(/\/FontFile[23]?\s/g),
  };
}

/** The text of the PDF as its reader finds it; undefined where the system has no `pdftotext`. */
async function textOf(pdf: Buffer): Promise<string | undefined> {
  const started = run("pdftotext", ["-raw", "-", "-"], { encoding: "utf8" });
  started.child.stdin?.end(pdf);
  try {
    return (await started).stdout.replace(/\s+/g, " ");
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
    throw error;
  }
}

/** What stands on the sheet in print, and whether any of it lies outside its page or under another part. */
async function onSheet(page: Page) {
  return page.evaluate(() => {
    const texts: string[] = [];
    const cut: string[] = [];
    const pages = [...document.querySelectorAll("[data-print-page]")];
    let overlaps = 0;
    let width = 0;
    for (const sheet of pages) {
      const edge = sheet.getBoundingClientRect();
      const isInside = (box: DOMRect): boolean =>
        box.left >= edge.left && box.right <= edge.right && box.top >= edge.top && box.bottom <= edge.bottom;
      const walker = document.createTreeWalker(sheet, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const range = document.createRange();
        range.selectNodeContents(node);
        const text = node.textContent ?? "";
        texts.push(text);
        if (!isInside(range.getBoundingClientRect()) && text.trim() !== "") cut.push(text);
      }
      for (const line of sheet.querySelectorAll("[data-staff-line]"))
        if (!isInside(line.getBoundingClientRect())) cut.push("a line of the staff");
      const parts = [...sheet.children].map((part) => part.getBoundingClientRect());
      overlaps += parts.slice(1).filter((part, at) => part.top < (parts[at]?.bottom ?? 0) - 0.5).length;
      width = Math.max(width, sheet.scrollWidth - sheet.clientWidth);
    }
    const others = [...document.body.querySelectorAll("nav, main, aside, button")].filter(
      (element) => element.getClientRects().length > 0,
    ).length;
    return { text: texts.join(" ").replace(/\s+/g, " "), pages: pages.length, cut, overlaps, others, width };
  });
}

/** Prints the sheet that is open on both papers, and holds it against the words that must be on it. */
async function expectPrinted(page: Page, words: readonly string[], pages = 1): Promise<void> {
  await page.emulateMedia({ media: "print" });
  // Faces of type and drawings take their place a moment after the sheet has come.
  await expect(async () => {
    const sheet = await onSheet(page);
    for (const word of words) expect(sheet.text).toContain(word);
    expect(sheet).toMatchObject({ pages, cut: [], overlaps: 0, others: 0, width: 0 });
  }).toPass({ timeout: 10_000 });
  await page.emulateMedia({ media: null });
  for (const format of PAPERS) {
    const pdf = await page.pdf({ format });
    expect(inPdf(pdf)).toMatchObject({ pages, pictures: 0 });
    expect(inPdf(pdf).fonts).toBeGreaterThan(0);
    const text = await textOf(pdf);
    if (text !== undefined) for (const word of words) expect(text).toContain(word);
  }
}

test("the practice page says what to work on, where, and how to begin, on one page of either paper", async ({
  page,
}) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, { bars: 8, tempoBpm: 120 }, withoutEverySecondKick);
  await page.keyboard.press("p");
  const dialog = page.getByRole("dialog", { name: "Practice page: Shuffle" });
  await expect(dialog.getByRole("button", { name: "Print" })).toBeFocused();
  await expect(page).toHaveTitle("Practice page: Shuffle");
  await dialog.getByLabel("Name").fill("Ottilie");
  await dialog.getByLabel("Date").fill("27 November 2026");
  await expectPrinted(page, [
    "Name Ottilie",
    "Date 27 November 2026",
    "Shuffle",
    "The kick was left out eight times. Count it in.",
    "It is plainest in bar 1, beat 3.",
    "Begin at 84 a minute",
    "then 120, as it was played.",
    "Count aloud and strike only the kick, where it is written.",
    "What I noticed",
    "Warm up, and stop when it hurts.",
  ]);
  await expect(dialog.locator("[data-work-mark]")).toHaveCount(1);
  await page.keyboard.press("Escape");
  await expect(dialog).toHaveCount(0);
  await expect(page).toHaveTitle("Report: Throneside");
});

test("name and date may stay lines to write on; the groove sheet has staff, ring and what makes it itself", async ({
  page,
}) => {
  await withoutPlaces(page);
  await openReport(page, { id: "samba", name: "Samba" }, { bars: 8, tempoBpm: 100 });
  await page.keyboard.press("o");
  await page.getByRole("menuitem", { name: "Groove sheet" }).click();
  const dialog = page.getByRole("dialog", { name: "Groove sheet: Samba" });
  await expect(dialog).toBeVisible();
  await expectPrinted(page, ["Name", "Date", "Samba", "2/4, straight", "the pedal between", "Remarks"]);
  await expect(dialog.getByRole("img", { name: "Samba on the staff" })).toBeVisible();
  await expect(dialog.getByRole("img", { name: /^Bar ring of Samba/ })).toBeVisible();
});

test("the longest that there is to say fits one page as well", async ({ page }) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, { bars: 16, tempoBpm: 120 }, snareOnTheTom);
  await page.keyboard.press("p");
  const dialog = page.getByRole("dialog", { name: "Practice page: Shuffle" });
  await dialog.getByLabel("Name").fill("Ottilie, on Thursdays at half past three with Bram and Noor");
  await expectPrinted(page, [
    "The high tom answered where the snare is written, 32 times. The rhythm holds; move the sound.",
    "Count aloud and strike only the snare, where it is written.",
    "Warm up, and stop when it hurts.",
  ]);
});

test("the sheet of the longest fill of the stock", async ({ page }) => {
  const fill = fillById("threes-over-the-bar");
  if (!fill) throw new Error("The catalogue has no threes over the bar.");
  await page.goto("./#/shelf");
  await expect(page.getByRole("listbox", { name: "On the Shelf" }).getByRole("option").first()).toBeVisible();
  await page.getByRole("searchbox", { name: "Find on the Shelf" }).fill(fill.name);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: fill.name })).toBeVisible();
  await page.keyboard.press("p");
  const dialog = page.getByRole("dialog", { name: `Fill sheet: ${fill.name}` });
  await expect(dialog.getByRole("img", { name: `${fill.name} on the staff` })).toBeVisible();
  await expectPrinted(page, [
    fill.name,
    "leads to the one after",
    "Two bars of a groove, then the fill",
    "Remarks",
  ]);
});

/** Opens a new entry of the Shelf with this text, under this name. */
async function openWritten(page: Page, kind: string, name: string, body: string): Promise<void> {
  await page.goto("./#/shelf");
  await page.getByRole("button", { name: kind, exact: true }).click();
  await page.getByRole("textbox", { name: "Name", exact: true }).fill(name);
  await page.getByRole("textbox", { name: "As text" }).fill(body);
  await page.getByRole("heading", { level: 1, name }).click();
  await page.keyboard.press("p");
}

test("a phrase is called a phrase, and is played once", async ({ page }) => {
  await openWritten(
    page,
    "a phrase",
    "Two bars on the snare",
    "role: call\nmetre: 4/4\ntempo: 70-120\n\nsnare | x... x.x. x... x.x. | xxxx .... x... .... |",
  );
  const dialog = page.getByRole("dialog", { name: "Phrase sheet: Two bars on the snare" });
  await expect(dialog.getByRole("img", { name: "Two bars on the snare on the staff" })).toBeVisible();
  await expectPrinted(page, [
    "Phrase, a call",
    "It is played once. Then 2 bars are left for the answer.",
    "Remarks",
  ]);
  await expect(dialog.getByText("Groove", { exact: true })).toHaveCount(0);
});

test("a long drum part goes on over pages, its sections named, none of its lines cut", async ({ page }) => {
  const sections = Array.from(
    { length: 9 },
    (_, at) => `section: Verse ${at + 1}\ntempo: ${90 + at}\nplay: runs, 7 bars\nplay: turns, 1 bar`,
  );
  await openWritten(
    page,
    "a drum part",
    "River road",
    `${sections.join("\n\n")}

section: Chorus
tempo: 100
times: 3
play: runs, 4 bars

groove: runs
name: Runs
metre: 4/4
tempo: 80-140
hi-hat-closed | xxxx xxxx xxxx xxxx | x.xx x.xx x.xx x.xx |
snare         | .... x... .... x... | .... x... ..x. x..x |
kick          | x... ..x. x... .... | x..x .... x.x. .... |

groove: turns
name: Turns
metre: 4/4
tempo: 80-140
high-tom | xxxx xxxx .... .... |
floor-tom | .... .... xxxx xxxx |`,
  );
  const dialog = page.getByRole("dialog", { name: "Drum part: River road" });
  await expect(dialog.getByText("10 sections, 84 bars in all")).toBeVisible();
  // Two bars stand on a line: four lines to a verse, two to the chorus.
  await expect(dialog.locator("[data-staff-line]")).toHaveCount(38);
  await expect(dialog.getByText(/^page (\d+) of \1$/)).toBeVisible();
  const pages = await dialog.locator("[data-print-page]").count();
  expect(pages).toBeGreaterThan(2);
  await expectPrinted(
    page,
    ["Drum part", "River road", "Verse 1", "Verse 9", "Chorus, 3 times", `page ${pages} of ${pages}`],
    pages,
  );
  await expect(dialog.getByText("Groove", { exact: true })).toHaveCount(0);
});

test("the print button hands the page to the browser, and what is printed is black on white", async ({
  page,
}) => {
  await page.addInitScript(() => {
    window.print = () => {
      document.documentElement.dataset.printed = "yes";
    };
  });
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, { bars: 8, tempoBpm: 120 });
  await page.keyboard.press("p");
  await expect(page.getByRole("dialog").getByRole("button", { name: "Print" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.locator("html")).toHaveAttribute("data-printed", "yes");
  await page.emulateMedia({ media: "print" });
  const colours = await page.evaluate(() => {
    const sheet = document.querySelector("[data-print-sheet]");
    const parts = [...(sheet?.querySelectorAll("*") ?? [])];
    return [
      ...new Set(
        parts.flatMap((part) => {
          const { color, fill, stroke } = getComputedStyle(part);
          return part.namespaceURI?.endsWith("svg") ? [fill, stroke] : [color];
        }),
      ),
    ];
  });
  for (const colour of colours) {
    const [red, green, blue] = (/rgba?\((\d+), (\d+), (\d+)/.exec(colour) ?? []).slice(1);
    expect([green, blue]).toEqual([red, red]);
  }
  expect(colours).toContain("rgb(0, 0, 0)");
});

test("the page before it is printed holds no barrier, at any width", async ({ page }) => {
  await withoutPlaces(page);
  await openReport(page, SHUFFLE, { bars: 8, tempoBpm: 120 });
  await page.keyboard.press("p");
  await expect(page.getByRole("dialog")).toBeVisible();
  await expectClean(page);
  await page.setViewportSize({ width: 640, height: 360 });
  await expectClean(page);
  await expect
    .poll(() =>
      page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
    )
    .toBe(0);
});

/** A lesson with more than fits of everything: the page has never less room than with this one. */
function fullLesson(): readonly SessionEvent[] {
  const styles = ["rock-eighths", "shuffle", "bossa-nova", "samba", "disco", "polka", "march"];
  const full = playedLesson({
    at: "2026-03-16T15:30:00.000Z",
    takes: styles.map((styleId, seed) => ({ styleId, seed, bars: 4, leftOut: 0.1 })),
    remarks: Array.from({ length: 6 }, (_, index) => ({
      about: 5 + index,
      text: "Wrist, not the arm. ".repeat(12),
    })),
  });
  return full.map((event) => {
    if (event.kind !== "round-ended") return event;
    const [result] = event.tally;
    if (!result) throw new Error("The lesson showed nothing.");
    const tally = OUTCOMES.flatMap((outcome) =>
      Array.from({ length: 14 }, (_, index) => ({
        ...result,
        item: itemId("style", `a-long-name-of-a-groove-${outcome}-${index}`),
        outcome,
      })),
    );
    return { ...event, tally };
  });
}

/** CSS pixels; 25.4 mm are 96 of them by definition. */
const PAPER_PIXELS = { A4: { width: 794, height: 1123 }, Letter: { width: 816, height: 1056 } } as const;
const mm = (pixels: number): number => (pixels * 25.4) / 96;
const ROOM_MM = 15;

test("the lesson report leaves at least 15 mm to write on, however full the lesson was", async ({ page }) => {
  const full = fullLesson();
  await keepLessons(page, [LESSON, full]);
  for (const [lesson, title] of [
    [LESSON, /^Bram, 2 March 2026/],
    [full, /^Bram, 16 March 2026/],
  ] as const) {
    await page.setViewportSize({ width: 1280, height: 720 });
    await turnTo(page, linkTo(lesson, 0));
    await expect(page.getByRole("heading", { level: 1, name: title })).toBeVisible();
    await page.getByRole("button", { name: "With the remarks" }).click();
    const dialog = page.getByRole("dialog", { name: /^Lesson report: Bram/ });
    await expect(dialog.getByText("For next time")).toBeVisible();
    await page.evaluate(() => document.fonts.ready);
    for (const format of PAPERS) {
      await page.setViewportSize(PAPER_PIXELS[format]);
      await page.emulateMedia({ media: "print" });
      const room = await dialog.locator("[data-room-to-write]").boundingBox();
      const paper = await dialog.locator("[data-print-page]").boundingBox();
      test.info().annotations.push({
        type: "room to write",
        description: `${format}: ${mm(room?.height ?? 0).toFixed(1)} mm`,
      });
      console.log(`${format}: ${mm(room?.height ?? 0).toFixed(1)} mm to write on`);
      expect(mm(room?.height ?? 0)).toBeGreaterThanOrEqual(ROOM_MM);
      expect(mm(room?.width ?? 0)).toBeGreaterThan(150);
      // It is on this page, not on a second one.
      expect(paper?.height ?? 0).toBeLessThanOrEqual(PAPER_PIXELS[format].height);
      await page.emulateMedia({ media: null });
      expect(inPdf(await page.pdf({ format })).pages).toBe(1);
    }
    await page.setViewportSize({ width: 1280, height: 720 });
    await page.keyboard.press("Escape");
    await expect(dialog).toHaveCount(0);
  }
});

test("the tally of a round on paper: what held, what was missed, and the round's own table", async ({
  page,
}) => {
  await page.goto("./#/wall-chart");
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByRole("timer")).toBeVisible();
  await page.keyboard.press("KeyN");
  const line = page.getByRole("textbox", { name: "A name" });
  await line.fill("flam tap");
  await line.press("Enter");
  await page.getByRole("button", { name: /That is all/ }).click();
  await page.getByRole("button", { name: "End Esc" }).click();
  await page.getByRole("button", { name: "On paper" }).click();
  await expect(page.getByRole("article", { name: "Tally: Wall Chart" })).toBeVisible();
  await expectPrinted(page, [
    "Tally",
    "Wall Chart",
    "Held",
    "Flam Tap",
    "Missed",
    "Triple Ratamacue",
    "Look by look, the whole chart",
    "1 of 40",
  ]);
  await expectClean(page);
});
