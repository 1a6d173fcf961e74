/** Say & Strike: a phrase said by the program and struck; typed; heard by the microphone; turned round; on the wall; kept. */
import { expect, type Page } from "@playwright/test";
import { HOUSE_SPEAKER, type SaidAt, sayWords } from "../../engine/speech/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { expectClean } from "./clean.ts";
import { MEASURED, WAITING } from "./measured.ts";
import { test } from "./quietTest.ts";
import { addStudent, choose, rowsOf } from "./studioPages.ts";
import { connectTwoKits, SECOND } from "./twoKits.ts";
import { KIT, plugIn, sendInTime, stroke } from "./virtualKit.ts";

const MONDAY = "2026-03-02T15:10:00+01:00";
const MONDAY_AFTER = "2026-03-09T15:10:00+01:00";
const MUCH_LATER = "2026-04-20T15:10:00+02:00";
const KICK = 36;
const SNARE = 38;
const TOM = 43;
const RATE = 24_000;

test.use({ timezoneId: "Europe/Vienna", reducedMotion: "reduce" });

declare global {
  interface Window {
    /** Sound that the microphone hears from now on, once. */
    sayIntoMicrophone: (samples: readonly number[], sampleRate: number) => void;
  }
}

/** A microphone in a quiet room, into which sound can be put. */
async function quietRoom(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const silent = { context: null as AudioContext | null, ear: null as GainNode | null };
    navigator.mediaDevices.getUserMedia = () =>
      Promise.resolve(new AudioContext().createMediaStreamDestination().stream);
    AudioContext.prototype.createMediaStreamSource = function (this: AudioContext) {
      silent.context = this;
      silent.ear = new GainNode(this);
      // Never quite silent, as no room is.
      const hiss = this.createBuffer(1, this.sampleRate, this.sampleRate);
      const samples = hiss.getChannelData(0);
      for (let at = 0; at < samples.length; at += 1) samples[at] = (Math.random() - 0.5) * 0.002;
      const room = new AudioBufferSourceNode(this, { buffer: hiss, loop: true });
      room.connect(silent.ear);
      room.start();
      return silent.ear as unknown as MediaStreamAudioSourceNode;
    };
    window.sayIntoMicrophone = (said, sampleRate) => {
      if (!silent.context || !silent.ear) throw new Error("The microphone is not open.");
      const buffer = silent.context.createBuffer(1, said.length, sampleRate);
      buffer.copyToChannel(Float32Array.from(said), 0);
      const source = new AudioBufferSourceNode(silent.context, { buffer });
      source.connect(silent.ear);
      source.start(silent.context.currentTime + 0.5);
    };
  });
}

async function say(page: Page, words: readonly SaidAt[]): Promise<void> {
  await expect(page.getByRole("heading", { name: "I am listening." })).toBeVisible();
  const { samples } = sayWords(words, HOUSE_SPEAKER, RATE, seededChance(7));
  await page.evaluate(([all, rate]) => window.sayIntoMicrophone(all, rate), [
    Array.from(samples, (sample) => sample * 0.5),
    RATE,
  ] as const);
}

/** Strikes with the time stamps that are meant, whenever the page gets round to them. */
function strike(page: Page, strikes: readonly (readonly [atMs: number, note: number])[]): Promise<void> {
  return sendInTime(
    page,
    strikes.map(([ms, note]) => ({ ms, bytes: stroke(note) })),
  );
}

async function connect(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await page.getByText(`${KIT} is connected.`).waitFor();
}

async function typePhrase(page: Page, text: string): Promise<void> {
  const line = page.getByRole("textbox", { name: "Type a phrase" });
  await line.fill(text);
  await line.press("Enter");
}

test("typed and struck: rhythm and sound told apart; a reload goes on with it; its tally is kept", async ({
  page,
}) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await plugIn(page, KIT);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await connect(page);
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: /Begin with Ottilie/ }).click();
  await page.getByRole("main").getByRole("link", { name: "Say & Strike" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Say & Strike" })).toBeVisible();
  await expect(page.getByRole("heading", { name: "The next phrase" })).toBeVisible();
  await expectClean(page);

  await typePhrase(page, "doo boom");
  await expect(page.getByRole("alert")).toContainText('"boom" is not one of the syllables');
  await typePhrase(page, "doo ka doo ka");
  await expect(page.getByRole("heading", { name: "Strike what was said." })).toBeVisible();
  await expect(page.getByText("doo ka doo ka")).toHaveCount(0);
  await expectClean(page);
  await strike(page, [
    [0, KICK],
    [600, TOM],
    [1200, KICK],
    [1800, SNARE],
  ]);
  await expect(page.getByRole("heading", { name: "doo ka doo ka" })).toBeVisible();
  await expect(page.getByText(/Rhythm holds; the second sound moved from snare to/)).toBeVisible();
  await expect(page.getByText("Of 4 sounds 1 was taken for another.")).toBeVisible();
  await expectClean(page);

  // The program's phrase, left open; a round that is broken off goes on with it.
  await page.getByRole("button", { name: /^The program’s phrase/ }).click();
  await expect(page.getByRole("heading", { name: "Strike what was said." })).toBeVisible();
  const isCalled = ({ event }: Record<string, unknown>): boolean =>
    JSON.stringify(event).includes('"called"');
  await expect.poll(async () => (await rowsOf(page, "events")).filter(isCalled).length).toBe(2);
  await page.reload();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Go on with it" }).click();
  await page.getByRole("link", { name: "Back to Say & Strike" }).click();
  await expect(page.getByRole("heading", { name: "Strike what was said." })).toBeVisible();
  await page.getByRole("button", { name: "Leave it, take another" }).click();

  await page.keyboard.press("Escape");
  await expect(page.getByText("The round is over. This is what it showed.")).toBeVisible();
  await expectClean(page);
  await expect
    .poll(async () => (await rowsOf(page, "results")).map(({ item, outcome }) => `${item} ${outcome}`).sort())
    .toEqual(["syllable:kick known", "syllable:snare new"]);
});

async function beginWithOttilie(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: /Begin with Ottilie/ }).click();
  await page.getByRole("main").getByRole("link", { name: "Say & Strike" }).click();
  await expect(page.getByRole("heading", { name: "The next phrase" })).toBeVisible();
}

async function endTheLesson(page: Page, lessonsSoFar: number): Promise<void> {
  await page.getByRole("link", { name: /^Ottilie/ }).click();
  await page.getByRole("button", { name: "End the lesson" }).click();
  await expect(page.getByRole("heading", { name: /^Ottilie: the lesson is over/ })).toBeVisible();
  const isEnd = ({ event }: Record<string, unknown>): boolean =>
    JSON.stringify(event).includes('"lesson-ended"');
  await expect.poll(async () => (await rowsOf(page, "events")).filter(isEnd).length).toBe(lessonsSoFar);
}

test("the next lesson goes on where this student left off; long after, a step easier; it is said before the round", async ({
  page,
}) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await plugIn(page, KIT);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15", level: "First year" });
  await connect(page);
  await beginWithOttilie(page);
  await expect(page.getByText("Ottilie has not struck any yet, and begins at step 1 of 16")).toBeVisible();
  await expectClean(page);
  // Four beats on one drum: two held in a row, and the next is a step harder.
  for (const held of [1, 2]) {
    await page.getByRole("button", { name: /^The program’s phrase/ }).click();
    await expect(page.getByRole("heading", { name: "Strike what was said." })).toBeVisible();
    await strike(
      page,
      [0, 1, 2, 3].map((beat) => [beat * 700, KICK] as const),
    );
    await expect(page.getByText(`All ${4 * held} sounds were taken for what they were.`)).toBeVisible();
  }
  // The second round of a lesson goes on as well.
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Set it differently" }).click();
  await expect(page.getByText("Ottilie goes on at step 2 of 16, as left off earlier today:")).toBeVisible();
  await expectClean(page);
  await endTheLesson(page, 1);

  await page.clock.setFixedTime(MONDAY_AFTER);
  await page.reload();
  await beginWithOttilie(page);
  await expect(page.getByText("Ottilie goes on at step 2 of 16, as left off 7 days ago:")).toBeVisible();
  await endTheLesson(page, 2);

  await page.clock.setFixedTime(MUCH_LATER);
  await page.reload();
  await beginWithOttilie(page);
  await expect(
    page.getByText("Ottilie left off at step 2, 49 days ago, and begins at step 1 of 16"),
  ).toBeVisible();
});

test("two students at two kits strike one phrase at the same time: a line for each", async ({ page }) => {
  test.slow();
  await page.clock.setFixedTime(MONDAY);
  await plugIn(page, KIT, SECOND);
  await addStudent(page, "Ottilie", { weekday: "Monday", from: "15:15" });
  await addStudent(page, "Bram", { weekday: "Monday", from: "15:45" });
  await page.getByRole("link", { name: "Kit", exact: true }).click();
  await connectTwoKits(page);
  await expect(page.getByText(`${KIT} and ${SECOND} are connected.`)).toBeVisible();
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "Two students on two kits" }).click();
  await choose(page, `At ${KIT}`, "Ottilie");
  await choose(page, `At ${SECOND}`, "Bram");
  await page.getByRole("button", { name: "Begin with both" }).click();
  await page.getByRole("link", { name: "Say & Strike", exact: true }).first().click();
  await page.getByText("Everybody answers each phrase").click();
  await expectClean(page);
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await typePhrase(page, "doo ka doo ka");
  await expect(page.getByText("Ottilie: In your own tempo, when you are ready.")).toBeVisible();
  await expect(page.getByText("Bram: In your own tempo, when you are ready.")).toBeVisible();
  await expectClean(page);
  const from = await page.evaluate(() => performance.now() + 200);
  const beats = (keys: readonly number[], ms: number) =>
    keys.map((key, beat) => ({ ms: beat * ms, bytes: stroke(key) }));
  await Promise.all([
    sendInTime(page, beats([KICK, SNARE, KICK, SNARE], 600), { from }),
    sendInTime(page, beats([KICK, SNARE, KICK, TOM], 700), { name: SECOND, from: from + 130 }),
  ]);
  await expect(page.getByText("Ottilie: Rhythm holds; sound holds.")).toBeVisible();
  await expect(page.getByText(/^Bram: Rhythm holds; the fourth sound moved from snare to /)).toBeVisible();
  await expect(page.getByText("Bram: Of 4 sounds 1 was taken for another.")).toBeVisible();
  await expectClean(page);
});

test.describe("what is said on a sound device", WAITING, () => {
  test.describe.configure(MEASURED);

  test("the microphone learns two syllables, hears a phrase, and shows it for a glance; turned round it hears the answer", async ({
    page,
  }) => {
    // Some forty seconds are spoken, in real time.
    test.setTimeout(180_000);
    await quietRoom(page);
    await plugIn(page, KIT);
    await page.goto("./#/kit");
    await connect(page);
    await page.getByRole("link", { name: "Say & Strike", exact: true }).click();
    await page.getByRole("button", { name: "Begin", exact: true }).click();
    await expect(page.getByRole("button", { name: /^I say it/ })).toBeDisabled();
    const learn = async (): Promise<void> => {
      for (const text of ["doo", "ka"]) {
        await page.getByRole("button", { name: `${text} 0 of 5` }).click();
        await say(
          page,
          [0, 1, 2, 3, 4].map((at) => ({ time: 0.2 + at * 0.7, text })),
        );
        await expect(page.getByRole("button", { name: `${text} known` })).toBeVisible({ timeout: 30_000 });
      }
    };
    await learn();
    const phrase = ["doo", "ka", "ka", "doo"].map((text, at) => ({ time: 0.2 + at * 0.5, text }));
    await page.getByRole("button", { name: /^I say it/ }).click();
    await say(page, phrase);
    await expect(page.getByRole("heading", { name: "Is this what was said?" })).toBeVisible({
      timeout: 30_000,
    });
    await expect(page.getByText(/^doo\?? ka\?? ka\?? doo\??$/)).toBeVisible();
    await expectClean(page);
    await page.getByRole("button", { name: /^That is it/ }).click();
    await expect(page.getByRole("heading", { name: "Strike what was said." })).toBeVisible();
    await strike(page, [
      [0, KICK],
      [500, SNARE],
      [1000, SNARE],
      [1500, KICK],
    ]);
    await expect(page.getByText("Rhythm holds; sound holds.")).toBeVisible();

    // Turned round: one strikes, the student says it. Another voice, learnt by itself.
    await page.keyboard.press("KeyB");
    await page.getByRole("button", { name: /^I strike it/ }).click();
    await strike(page, [
      [0, SNARE],
      [500, KICK],
      [1000, SNARE],
    ]);
    await expect(page.getByRole("heading", { name: "Say what was struck." })).toBeVisible();
    await expectClean(page);
    await learn();
    await page.getByRole("button", { name: /^Say it/ }).click();
    await say(
      page,
      ["ka", "doo", "doo"].map((text, at) => ({ time: 0.2 + at * 0.5, text })),
    );
    await expect(page.getByRole("heading", { name: "Is this your answer?" })).toBeVisible({
      timeout: 30_000,
    });
    await page.getByRole("button", { name: /^That is it/ }).click();
    await expect(page.getByText("Rhythm holds; the third sound moved from snare to kick.")).toBeVisible();
    // No sound, no example of a voice is written anywhere.
    const kept = await page.evaluate(() => JSON.stringify(localStorage));
    expect(kept).not.toContain("frames");
  });
});

test("without a microphone the round goes on: it is said why, and typed", async ({ page }) => {
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = () =>
      Promise.reject(new DOMException("Permission denied", "NotAllowedError"));
  });
  await page.goto("./#/say-and-strike");
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await page.keyboard.press("KeyB");
  await page.getByRole("button", { name: "ka 0 of 5" }).click();
  await expect(page.getByRole("alert")).toContainText("The microphone could not be had (Permission denied).");
  await page.getByRole("button", { name: /^The program’s phrase/ }).click();
  await expect(page.getByRole("heading", { name: "Say what was struck." })).toBeVisible();
  await page.getByRole("textbox", { name: "Or type it" }).fill("ka ka ka ka");
  await page.getByRole("textbox", { name: "Or type it" }).press("Enter");
  await expect(page.getByText(/sound/).first()).toBeVisible();
  await expect(page.getByRole("heading", { name: "What is struck next" })).toBeVisible();
});

test("the wall is read from two metres and shows no phrase before it is struck", async ({
  page,
  context,
}) => {
  await plugIn(page, KIT);
  await page.goto("./#/kit");
  await connect(page);
  await page.getByRole("link", { name: "Say & Strike", exact: true }).click();
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await typePhrase(page, "1 2 (3) and");
  const wall = await context.newPage();
  await wall.goto("./#/wall");
  await expect(wall.getByRole("heading", { name: "Strike what was said." })).toBeVisible();
  await expect(wall.getByText("1 2 (3) and")).toHaveCount(0);
  await strike(page, [
    [0, SNARE],
    [700, SNARE],
    [1750, SNARE],
  ]);
  await expect(wall.getByRole("heading", { name: "1 2 (3) and" })).toBeVisible();
  await expect(wall.getByText("Rhythm holds; sound holds.")).toBeVisible();
  const sizes = await wall
    .locator("main :is(h1, p, li)")
    .evaluateAll((nodes) => nodes.map((node) => Number.parseFloat(getComputedStyle(node).fontSize)));
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual(28);
  await expectClean(wall);
});

test("a studio spells a syllable its own way; what cannot be is said", async ({ page }) => {
  await page.goto("./#/say-and-strike");
  await page.getByRole("button", { name: "Spell them as this studio says them" }).click();
  await page.getByRole("textbox", { name: "snare" }).fill("doo");
  await expect(page.getByText("Two syllables are spelt the same")).toBeVisible();
  await page.getByRole("textbox", { name: "snare" }).fill("tak");
  await expectClean(page);
  await page.getByRole("button", { name: "Done" }).click();
  await page.reload();
  await expect(page.getByRole("term").filter({ hasText: "tak" })).toBeVisible();
});
