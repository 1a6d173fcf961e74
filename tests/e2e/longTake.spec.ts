import { expect } from "@playwright/test";
import { MEASURED } from "./measured.ts";
import { dropFile, grooveFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";

test.describe.configure(MEASURED);

/** Ten minutes at 100 a minute are 250 bars of four. */
const BARS = 250;

test("a take of ten minutes is heard, shown and reported without the page standing still", async ({
  page,
}) => {
  await page.goto("./#/call-a-style");
  await page.getByRole("option", { name: "Rock sixteenths", exact: true }).click();
  await dropFile(page, "ten minutes.mid", grooveFile("rock-sixteenths", { bars: BARS, tempoBpm: 100 }));
  await page.getByRole("button", { name: "Start listening" }).click();
  await page.evaluate(() => {
    const state = { longestMs: 0, last: performance.now() };
    const look = (): void => {
      const now = performance.now();
      state.longestMs = Math.max(state.longestMs, now - state.last);
      state.last = now;
      document.documentElement.dataset.longestGapMs = String(Math.round(state.longestMs));
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(page.getByText(/was played: \d+ strokes/)).toBeVisible();
  const strokes = Number(
    /(\d+) strokes/.exec((await page.getByText(/was played: \d+ strokes/).textContent()) ?? "")?.[1],
  );
  expect(strokes).toBeGreaterThan(3000);

  const begun = Date.now();
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await expect(page.getByRole("heading", { name: "Voices" })).toBeVisible({ timeout: 60_000 });
  const reportMs = Date.now() - begun;
  const longestGapMs = Number(await page.locator("html").getAttribute("data-longest-gap-ms"));
  test.info().annotations.push({
    type: "ten minutes",
    description: `${strokes} strokes, report after ${reportMs} ms, longest wait between two frames ${longestGapMs} ms`,
  });
  await expect(page.getByRole("heading", { level: 1 })).toContainText("called");
  expect(longestGapMs).toBeLessThan(1000);
});
