/**
 * What a round costs: from Desk to its beginning in two actions and less than a second; and how soon a strike is on the page.
 *
 * The machine that checks may be busy with other things: strikes are told in frames of this browser, counted meanwhile, not in
 * milliseconds of the clock.
 */
import { expect, type Page } from "@playwright/test";
import { MEASURED } from "./measured.ts";
import { test } from "./quietTest.ts";
import { addStudent } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";
import { KIT, plugIn } from "./virtualKit.ts";

/** A Monday. */
const MONDAY = "2026-03-02T15:10:00+01:00";
const SNARE = 38;
const FLOOR_TOM = 43;
/** A rhythm of one bar. */
const BAR = "Eighths on three";

test.describe.configure(MEASURED);
test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

/** What is drawn by lot is always the first. */
test.beforeEach(async ({ page }) => {
  await page.addInitScript(
    ([L, R]) => {
      Math.random = () => 0;
      localStorage.setItem("throneside.hands", JSON.stringify({ version: 1, pads: { L, R } }));
    },
    [SNARE, FLOOR_TOM] as const,
  );
});

/** From pressing a link of the page to a heading on the page that it leads to, as it is painted. */
async function fromLinkTo(page: Page, link: string, heading: string): Promise<number> {
  return page.evaluate(
    async ([name, wanted]) => {
      const found = [...document.querySelectorAll("main a")].find(({ textContent }) => textContent === name);
      if (!(found instanceof HTMLElement)) throw new Error(`There is no link ${name} on this page.`);
      const isThere = (): boolean =>
        [...document.querySelectorAll("main h1, main h2, main [role=timer]")].some(({ textContent }) =>
          new RegExp(wanted).test(textContent ?? ""),
        );
      const from = performance.now();
      found.click();
      while (!isThere()) await new Promise(requestAnimationFrame);
      return performance.now() - from;
    },
    [link, heading] as const,
  );
}

/** What is seen of each round once it has begun. */
const BEGUN = [
  ["Back Turned", "First each once"],
  ["Spotting", "Which groove is it"],
  ["Wall Chart", "^\\d:\\d\\d"],
  ["Card Table", "^(What is it\\?|Strike this bar\\.|Whose hands are these\\?)$"],
] as const;

test("any round begins within a second, by the second action at the Desk", async ({ page }) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await plugIn(page, KIT);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  for (const [round, seen] of BEGUN) {
    // A program that was just opened: nothing of the round is there yet.
    await turnTo(page, "#/desk");
    await page.reload();
    const goOn = page.getByRole("button", { name: "Go on with it" });
    const begin = page.getByRole("button", { name: /Begin with Ottilie/ });
    // First action: the lesson.
    await goOn.or(begin).first().click();
    await expect(page.getByRole("main").getByRole("link", { name: round })).toBeVisible();
    // Second action: the round.
    const tookMs = await fromLinkTo(page, round, seen);
    console.log(`${round}: from the action to the round ${tookMs.toFixed(0)} ms`);
    expect(tookMs, round).toBeLessThan(1000);
    await page.getByRole("button", { name: "End Esc" }).click();
    await page.getByRole("link", { name: "Back to Desk" }).click();
  }
});

interface Reaction {
  /** Frames of this browser that were painted between the strike and the page that shows it. */
  readonly frames: readonly number[];
  readonly ms: readonly number[];
}

/** Strikes again and again, and watches a text of the page at every frame until it is another one. */
async function reactions(page: Page, watched: string, keys: readonly number[]): Promise<Reaction> {
  return page.evaluate(
    async ([kit, selector, struck]) => {
      const textNow = (): string =>
        [...document.querySelectorAll(selector)].map(({ textContent }) => textContent).join("|");
      const frames: number[] = [];
      const ms: number[] = [];
      for (const key of struck) {
        await new Promise(requestAnimationFrame);
        const before = textNow();
        const from = performance.now();
        window.virtualInputs[kit]?.emit([0x99, key, 90]);
        let count = 0;
        do {
          await new Promise(requestAnimationFrame);
          count += 1;
        } while (textNow() === before && count < 120);
        frames.push(count);
        ms.push(performance.now() - from);
        await new Promise((later) => setTimeout(later, 90));
      }
      return { frames, ms };
    },
    [KIT, watched, keys] as const,
  );
}

const middle = (all: readonly number[]): number =>
  [...all].sort((a, b) => a - b)[all.length >> 1] ?? Number.NaN;
const most = (all: readonly number[]): number =>
  [...all].sort((a, b) => a - b)[Math.floor(all.length * 0.95)] ?? Number.NaN;

function expectSoon(round: string, { frames, ms }: Reaction): void {
  console.log(
    `${round}: strike to page ${middle(frames)} frames (95 of 100: ${most(frames)}), ${middle(ms).toFixed(1)} ms (${most(ms).toFixed(1)} ms)`,
  );
  expect(frames.length).toBeGreaterThan(10);
  expect(middle(frames), round).toBeLessThanOrEqual(2);
}

async function connect(page: Page): Promise<void> {
  await plugIn(page, KIT);
  await page.goto("./#/kit");
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByText(`${KIT} is connected.`).waitFor();
}

const SIXTEEN = Array.from({ length: 16 }, (_, at) => (at % 2 === 0 ? FLOOR_TOM : SNARE));

test("Wall Chart: strokes on the two pads are counted within two frames", async ({ page }) => {
  await connect(page);
  await turnTo(page, "#/wall-chart");
  await page.getByRole("button", { name: "What" }).first().click();
  await page.getByRole("option", { name: "The hands, played on two pads" }).click();
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByText("Nothing was struck on the two pads yet.")).toBeVisible();
  expectSoon("Wall Chart", await reactions(page, "main section", SIXTEEN));
});

test("Spotting: what is struck is shown to be heard within two frames", async ({ page }) => {
  await connect(page);
  await turnTo(page, "#/spotting");
  await page.getByText("The teacher plays: what I hear there is the key").click();
  await page.getByRole("button", { name: "Begin" }).click();
  await expect(page.getByText("Play it on the kit. A silence ends it.")).toBeVisible();
  expectSoon("Spotting", await reactions(page, "main section", SIXTEEN));
});

test("Card Table: the strokes of a bar are counted within two frames", async ({ page }) => {
  await connect(page);
  await turnTo(page, "#/card-table");
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("button", { name: /It comes next/ }).click();
  await page.getByRole("option", { name: BAR, exact: true }).click();
  await page.getByRole("button", { name: /^Next card/ }).click();
  await expect(page.getByRole("heading", { name: "Strike this bar." })).toBeVisible();
  expectSoon("Card Table", await reactions(page, "main section", SIXTEEN));
});

test("Back Turned: an answer that is struck is on the page within two frames", async ({ page }) => {
  await connect(page);
  await turnTo(page, "#/back-turned");
  await page.getByRole("button", { name: "Begin" }).click();
  const all: { frames: number[]; ms: number[] } = { frames: [], ms: [] };
  for (let turn = 0; turn < 16; turn += 1) {
    await page.keyboard.press("KeyN");
    await expect(page.locator("#asked")).toBeVisible();
    const { frames, ms } = await reactions(page, "main section", [SNARE]);
    all.frames.push(...frames);
    all.ms.push(...ms);
    await expect(page.locator("#it-was")).toBeVisible();
  }
  expectSoon("Back Turned", all);
});
