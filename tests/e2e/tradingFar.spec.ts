/** Twos in two places: two pages in one room, a real broker between; the form begins at both, and both tell the same of it. */
import AxeBuilder from "@axe-core/playwright";
import { expect, type Page } from "@playwright/test";
import { type OpenRoom, openRoom } from "../../broker/openRoom.ts";
import { MEASURED } from "./measured.ts";
import { test } from "./quietTest.ts";
import { joinRoom } from "./roomJoined.ts";
import { choose } from "./studioPages.ts";
import { noteTexts, shownAtMs } from "./textsShown.ts";
import { openConnected, stroke } from "./virtualKit.ts";

const CODE = "TEST-CODE-0002";
const BEAT_MS = 500;
const SNARE = 38;
const HIGH_TOM = 50;
const RHYTHM = [0, 1, 1.5, 2, 3];
let room: OpenRoom;

test.describe.configure(MEASURED);
test.use({ reducedMotion: "reduce" });
test.beforeEach(async () => {
  room = await openRoom({ name: "Millrace", code: CODE, host: "127.0.0.1", port: 0 });
});
test.afterEach(() => room.close());

async function joinAs(page: Page, name: string): Promise<void> {
  await openConnected(page);
  await page.getByRole("link", { name: "A kit far away" }).click();
  await joinRoom(page, { name, address: `127.0.0.1:${room.port}`, room: "Millrace", code: CODE });
}

/** Strikes at moments after what this page showed, each stamped with exactly that moment. */
async function playAfter(page: Page, shown: string, voices: readonly number[]): Promise<void> {
  const from = await shownAtMs(page, shown);
  await page.evaluate(
    ([start, beats, keys, beatMs]) => {
      for (const [index, beat] of beats.entries()) {
        const at = start + beat * beatMs;
        setTimeout(() => {
          const now = performance.now;
          performance.now = () => at;
          try {
            Object.values(window.virtualInputs)[0]?.emit(keys[index] ?? []);
          } finally {
            performance.now = now;
          }
        }, at - performance.now());
      }
    },
    [from, RHYTHM, voices.map((key) => [...stroke(key)]), BEAT_MS] as const,
  );
}

test("a form that is begun at one place begins at the other, and both are told the same exchange", async ({
  browser,
}) => {
  test.slow();
  const [noor, bram] = [
    await (await browser.newContext()).newPage(),
    await (await browser.newContext()).newPage(),
  ];
  await joinAs(noor, "Noor");
  await joinAs(bram, "Bram");
  await expect(noor.getByText(/The far player is as/)).toBeVisible();
  for (const page of [noor, bram]) {
    await page.getByRole("link", { name: "Trading", exact: true }).click();
    await choose(page, "Played on", "a kit here and one far away");
    const box = page.getByRole("textbox", { name: "Beats a minute" });
    await box.fill(String(60_000 / BEAT_MS));
    await box.press("Tab");
    await noteTexts(page, "h2");
  }
  await noor.getByRole("button", { name: "Begin", exact: true }).click();
  // The other one has not begun yet, and is told what to do; the form is left, and begun again with both.
  await noor.getByRole("button", { name: "Begin the form" }).click();
  await expect(bram.getByText(/^A form was begun at the other place/)).toBeVisible();
  await noor.keyboard.press("KeyP");
  await noor.keyboard.press("KeyP");
  await bram.getByRole("button", { name: "Begin", exact: true }).click();
  for (const page of [noor, bram]) await expect(page.getByText(/calls\. Begin the form/)).toBeVisible();
  await noor.getByRole("button", { name: "Begin the form" }).click();
  await expect(bram.getByText("Counting in")).toBeVisible();
  await expect(noor.getByRole("heading", { level: 2, name: "You", exact: true })).toBeVisible({
    timeout: 15_000,
  });
  await playAfter(noor, "You", [SNARE, SNARE, HIGH_TOM, SNARE, SNARE]);
  await expect(bram.getByRole("heading", { level: 2, name: "You", exact: true })).toBeVisible({
    timeout: 15_000,
  });
  await playAfter(bram, "You", [SNARE, HIGH_TOM, HIGH_TOM, SNARE, SNARE]);
  const said = "Rhythm holds; the second sound moved from snare to high tom.";
  for (const page of [noor, bram]) await expect(page.getByText(said)).toBeVisible({ timeout: 20_000 });
  const { violations } = await new AxeBuilder({ page: noor }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  for (const page of [noor, bram]) await page.keyboard.press("Escape");
});
