/**
 * A quick scroll through 20,000 entries beside the same page standing still. What the computer does besides (other
 * programs, a drawing without a graphics card) meets both alike; what is held against a figure is the page's own work.
 */
import { type CDPSession, expect, type Page } from "@playwright/test";
import { putManyEntries } from "./manyEntries.ts";
import { MEASURED } from "./measured.ts";
import { test } from "./quietTest.ts";

test.describe.configure(MEASURED);

const SECONDS = 5;
/** CSS pixels a frame: 75 rows a second, as fast as a strong flick. */
const PIXELS_A_FRAME = 55;
/** At 60 frames a second a frame has 16.7 ms; one that takes longer than this was missed. */
const MISSED_MS = 20;
/** Script of ours in a frame: a good third of it, so that slower computers keep up as well. */
const MOST_SCRIPT_MS = 6;
/** Of a hundred frames, how many more may be missed than when nothing moves. Our choice. */
const MORE_MISSED_IN_100 = 5;

interface Frames {
  readonly frames: number;
  readonly missed: number;
  /** Milliseconds of script, and of style and layout, a frame. */
  readonly script: number;
  readonly layout: number;
}

async function measured(page: Page, client: CDPSession, pixelsAFrame: number): Promise<Frames> {
  const figure = async (): Promise<ReadonlyMap<string, number>> =>
    new Map((await client.send("Performance.getMetrics")).metrics.map(({ name, value }) => [name, value]));
  const before = await figure();
  const lengths = await page.evaluate(
    ({ seconds, pixels }) =>
      new Promise<readonly number[]>((done) => {
        const list = document.querySelector("[role=listbox]");
        const lengths: number[] = [];
        let last = performance.now();
        const until = last + seconds * 1000;
        const frame = (now: number): void => {
          lengths.push(now - last);
          last = now;
          if (list) list.scrollTop += pixels;
          if (now < until) requestAnimationFrame(frame);
          else done(lengths.slice(1));
        };
        requestAnimationFrame(frame);
      }),
    { seconds: SECONDS, pixels: pixelsAFrame },
  );
  const after = await figure();
  const milliseconds = (name: string): number =>
    ((after.get(name) ?? Number.NaN) - (before.get(name) ?? Number.NaN)) * 1000;
  const frames = lengths.length;
  return {
    frames,
    missed: lengths.filter((length) => length > MISSED_MS).length,
    script: milliseconds("ScriptDuration") / frames,
    layout: (milliseconds("LayoutDuration") + milliseconds("RecalcStyleDuration")) / frames,
  };
}

test("20,000 entries scroll by as smoothly as the page stands still", async ({ page }, { annotations }) => {
  await page.goto("./#/shelf");
  await expect(page.getByRole("option").first()).toBeVisible();
  await putManyEntries(page, 20_000);
  const client = await page.context().newCDPSession(page);
  await client.send("Performance.enable");
  const still = await measured(page, client, 0);
  const scrolled = await measured(page, client, PIXELS_A_FRAME);
  const told = ({ frames, missed, script, layout }: Frames): string =>
    `${frames} frames, ${missed} over ${MISSED_MS} ms; a frame: script ${script.toFixed(2)} ms, style and layout ${layout.toFixed(2)} ms`;
  annotations.push(
    { type: "still", description: told(still) },
    { type: "scrolled", description: told(scrolled) },
  );
  console.info(`Shelf of 20,000, still: ${told(still)}\nShelf of 20,000, scrolled: ${told(scrolled)}`);
  const top = await page.getByRole("listbox", { name: "On the Shelf" }).evaluate((list) => list.scrollTop);
  expect(top).toBeGreaterThan(PIXELS_A_FRAME * scrolled.frames * 0.9);
  expect(scrolled.script).toBeLessThan(MOST_SCRIPT_MS);
  const share = ({ missed, frames }: Frames): number => (100 * missed) / frames;
  expect(share(scrolled)).toBeLessThanOrEqual(share(still) + MORE_MISSED_IN_100);
});
