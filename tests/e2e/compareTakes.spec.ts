/** A report's charts, and a second take beside the first: what changed, which take is laid beside, what is told of each. */
import { readFileSync } from "node:fs";
import { expect, type Locator, type Page } from "@playwright/test";
import { writeMidi } from "midi-file";
import { type Demonstration, demonstrate, grooveById } from "../../engine/catalogue/index.ts";
import { noteFor, parseKitMap } from "../../engine/kit/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { expectClean } from "./clean.ts";
import { dropFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";

const mapFile = new URL("../../kit-maps/general-midi-1.json", import.meta.url);
const map = parseKitMap(JSON.parse(readFileSync(mapFile, "utf8")), "general-midi-1.json");

const TICKS_PER_SECOND = 2000;
/** Half a second a quarter note, so that a tick is half a millisecond. */
const CLOCK = { ticksPerBeat: TICKS_PER_SECOND / 2, microsecondsPerBeat: 500_000 } as const;

type Playing = Partial<Omit<Demonstration, "chance">> & {
  readonly seed: number;
  /** Each second of the take lasts longer than the one before by so many thousandths of a second. */
  readonly slowing?: number;
};

/** A file in which the demonstration plays a groove, humanly. */
function playedFile(grooveId: string, { seed, slowing = 0, ...how }: Playing): Buffer {
  const groove = grooveById(grooveId);
  if (!groove) throw new Error(`The catalogue has no groove called ${grooveId}.`);
  const even = { tempoBpm: 104, bars: 8, leanMs: 0, spreadMs: 12, leftOut: 0, added: 0 };
  const strokes = [...demonstrate(groove, { ...even, ...how, chance: seededChance(seed) })].sort(
    (a, b) => a.time - b.time,
  );
  let last = 0;
  const notes = strokes.map(({ time, voice, velocity }) => {
    const noteNumber = noteFor(map, voice);
    if (noteNumber === undefined) throw new Error(`The map has no key for the ${voice}.`);
    const tick = Math.max(last, Math.round(time * (1 + (slowing / 1000) * time) * TICKS_PER_SECOND));
    const deltaTime = tick - last;
    last = tick;
    const strength = Math.min(127, Math.max(1, Math.round(velocity * 127)));
    return { deltaTime, channel: 9, type: "noteOn" as const, noteNumber, velocity: strength };
  });
  const { ticksPerBeat, microsecondsPerBeat } = CLOCK;
  const track = [
    { deltaTime: 0, meta: true as const, type: "setTempo" as const, microsecondsPerBeat },
    ...notes,
    { deltaTime: 0, meta: true as const, type: "endOfTrack" as const },
  ];
  return Buffer.from(writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat }, tracks: [track] }));
}

async function callStyle(page: Page, name: string): Promise<void> {
  await page.goto("./#/call-a-style");
  await page.getByRole("option", { name, exact: true }).click();
}

/** Plays a file as the next take, and waits for its report. */
async function playTake(page: Page, name: string, bytes: Buffer): Promise<void> {
  const start = page.getByRole("button", { name: /^(Start listening|Again)$/ });
  await start.click();
  await dropFile(page, name, bytes);
  // The file of the take before lies ready until this one has been read.
  await expect(page.getByText(name)).toBeVisible();
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(page.getByText(/ a minute · /)).toBeVisible();
  await page.getByRole("main").focus();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { name: "Voices" })).toBeVisible();
}

async function heightOf(control: Locator): Promise<number> {
  return (await control.boundingBox())?.height ?? 0;
}

const loose: Playing = { spreadMs: 22, leftOut: 0.06, seed: 3 };
const even: Playing = { spreadMs: 9, tempoBpm: 108, seed: 5 };

test("a second take of the same style lies beside the first, and the choice can be made by mouse and key", async ({
  page,
}) => {
  await callStyle(page, "Shuffle");
  await playTake(page, "loose.mid", playedFile("shuffle", loose));
  await expect(page.getByText("Beside the take before")).toHaveCount(0);
  await playTake(page, "even.mid", playedFile("shuffle", even));

  await expect(page.getByRole("heading", { name: "Beside the take before" })).toBeVisible();
  const changes = page.getByRole("list", { name: "What changed" });
  await expect(changes).toContainText(/Spread went from 2\d ms to (9|1\d) ms\./);
  await expect(changes).toContainText(/The tempo went from 10\d a minute to 10\d a minute\./);
  const figure = page.getByRole("figure", { name: "Lean and spread by beat, take 1 and this take" });
  // An open mark and a filled one for each of four beats, and one of each in the key.
  await expect(figure.locator('circle[fill="var(--sheet)"]')).toHaveCount(5);
  await expect(figure.locator('circle[fill="var(--teal)"]')).toHaveCount(5);
  await page.getByText("Figures of both takes by beat").click();
  await expect(
    page.getByRole("table", { name: "Figures of both takes by beat" }).getByRole("row"),
  ).toHaveCount(5);
  await expect(page.getByRole("table", { name: "Voices of both takes" })).toContainText("left out");
  await expectClean(page);

  await playTake(page, "even again.mid", playedFile("shuffle", { ...even, seed: 6 }));
  await page.getByRole("button", { name: /Laid beside this take/ }).click();
  await expect(page.getByRole("option")).toHaveText([/^take 2: /, /^take 1: /, "no other take"]);
  await page.getByRole("option", { name: /^take 1: / }).click();
  await expect(page.getByRole("heading", { name: "Beside take 1" })).toBeVisible();

  await page.getByRole("main").focus();
  await page.keyboard.press("KeyB");
  await expect(page.getByRole("heading", { name: "Beside another take" })).toBeVisible();
  await expect(changes).toHaveCount(0);
  await page.keyboard.press("KeyB");
  await expect(page.getByRole("heading", { name: "Beside the take before" })).toBeVisible();
  await expect(changes).toBeVisible();
});

test("a take of another style is not laid beside it", async ({ page }) => {
  await callStyle(page, "Shuffle");
  await playTake(page, "loose.mid", playedFile("shuffle", loose));
  await page.getByRole("button", { name: "Another style" }).click();
  await page.getByRole("option", { name: "Samba", exact: true }).click();
  await playTake(page, "samba.mid", playedFile("samba", { ...even, tempoBpm: 100 }));
  await expect(page.getByRole("heading", { name: "Touch" })).toBeVisible();
  await expect(page.getByText("Laid beside this take")).toHaveCount(0);
});

test("zones, drift, voices and touch of one take, each with its figures in a table", async ({ page }) => {
  await callStyle(page, "Shuffle");
  await playTake(
    page,
    "take.mid",
    playedFile("shuffle", { spreadMs: 10, bars: 16, slowing: 0.6, leftOut: 0.04, seed: 4 }),
  );

  const byBeat = page.getByRole("figure", { name: "Lean and spread by beat of the bar" });
  for (const zone of ["band", "not heard"])
    await expect(byBeat.locator("text", { hasText: zone })).toBeVisible();
  await expect(byBeat).toContainText("Band: 30 ms either side of the take’s own lean. Not heard: up to 1");
  const along = page.getByRole("figure", { name: "Lean along the take" });
  await expect(along).toContainText(/Dashed: the fitted drift\. Lost \d in 100 over the take\./);
  await expect(along.locator("path[stroke-dasharray='6 5']")).toBeVisible();
  // Its ends lie outside the band, its middle inside: squares and circles, and both together one a bar.
  const squares = along.locator('rect[fill="var(--rust)"]');
  const circles = along.locator('circle[fill="var(--teal)"]');
  await expect(squares.or(circles)).toHaveCount(16);
  await expect(squares).not.toHaveCount(0);
  await expect(circles).not.toHaveCount(0);
  await page.getByText("Figures along the take").click();
  await expect(page.getByRole("table", { name: "Figures along the take" }).getByRole("row")).toHaveCount(17);

  const voices = page.getByRole("table", { name: /^Voices: each row/ });
  await expect(voices.getByRole("columnheader", { name: "left out" })).toBeVisible();
  await expect(voices.getByRole("rowheader", { name: "ride, 128" })).toBeVisible();
  await expect(page.getByRole("table", { name: /^Touch by voice/ })).toContainText(/\d+ to \d+/);
});

test("more about a take opens by its key, is clean, and is not cut off at 200 % zoom", async ({ page }) => {
  await callStyle(page, "Funk sixteenths");
  await playTake(
    page,
    "take.mid",
    playedFile("funk-sixteenths", { tempoBpm: 96, bars: 12, leftOut: 0.02, added: 0.02, seed: 8 }),
  );
  await expect(page.getByRole("heading", { name: "Clock and limbs" })).toBeHidden();
  await page.keyboard.press("KeyM");
  for (const heading of [
    "Form",
    "Clock and limbs",
    "Together",
    "Swing by limb",
    "Flams and drags",
    "Hi-hat",
    "Where the touch differs",
  ]) {
    await expect(page.getByRole("heading", { name: heading, exact: true })).toBeVisible();
  }
  await expect(page.getByRole("table", { name: "Together" })).toContainText("kick against hi-hat");
  await expectClean(page);
  for (const summary of await page.locator("summary").all())
    expect(await heightOf(summary)).toBeGreaterThanOrEqual(44);

  await page.setViewportSize({ width: 640, height: 360 });
  // Charts take their new width a moment after the page has it.
  await expect
    .poll(() =>
      page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
    )
    .toBe(0);
  await expectClean(page);
  await page.getByRole("main").focus();
  await page.keyboard.press("KeyM");
  await expect(page.getByRole("heading", { name: "Clock and limbs" })).toBeHidden();
});
