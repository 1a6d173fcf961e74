/** Twos in two places: two pages in one room, a real broker between; the form begins at both, and both tell the same of it. */
import { expect, type Page } from "@playwright/test";
import { type OpenRoom, openRoom } from "../../broker/openRoom.ts";
import { expectClean } from "./clean.ts";
import { lineTo } from "./lineCut.ts";
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

async function joinAs(page: Page, name: string, port = room.port): Promise<void> {
  await openConnected(page);
  await page.getByRole("link", { name: "A kit far away" }).click();
  await joinRoom(page, { name, address: `127.0.0.1:${port}`, room: "Millrace", code: CODE });
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

/** Trading on a kit here and one far away, chosen and not begun. */
async function chooseFar(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Trading", exact: true }).click();
  await choose(page, "Played on", "a kit here and one far away");
  const box = page.getByRole("textbox", { name: "Beats a minute" });
  await box.fill(String(60_000 / BEAT_MS));
  await box.press("Tab");
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
    await chooseFar(page);
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
  await expectClean(noor);
  for (const page of [noor, bram]) await page.keyboard.press("Escape");
});

test("a kit that is lost is waited for; back, the form goes on; left there, or given up here, it ends with what was heard", async ({
  browser,
}) => {
  test.slow();
  const line = await lineTo(room.port);
  const [noor, bram] = [
    await (await browser.newContext()).newPage(),
    await (await browser.newContext()).newPage(),
  ];
  await joinAs(noor, "Noor");
  await joinAs(bram, "Bram", line.port);
  await expect(noor.getByText(/The far player is as/)).toBeVisible();
  await expect(bram.getByText(/The far player is as/)).toBeVisible();
  for (const page of [noor, bram]) {
    await chooseFar(page);
    await page.getByRole("button", { name: "Begin", exact: true }).click();
    await expect(page.getByText(/calls\. Begin the form/)).toBeVisible();
  }
  await noteTexts(noor, "h2");
  await noor.getByRole("button", { name: "Begin the form" }).click();
  await expect(bram.getByText("Counting in")).toBeVisible();
  await expect(noor.getByRole("heading", { level: 2, name: "You", exact: true })).toBeVisible({
    timeout: 15_000,
  });
  await playAfter(noor, "You", [SNARE, SNARE, HIGH_TOM, SNARE, SNARE]);

  line.cut();
  const gone = /^The kit of Bram is gone\. The connection there broke off/;
  await expect(noor.getByText(gone)).toBeVisible();
  await expect(bram.getByText(/^The kit of Noor is gone\. The room broke off here/)).toBeVisible();
  await expect(noor.getByRole("button", { name: /^End the form/ })).toBeVisible();
  await expectClean(noor);
  line.mend();
  await expect(noor.getByText(/^The kit of Bram was gone for \d+ s, and is back\.$/)).toBeVisible();
  await expect(bram.getByText(/^The kit of Noor was gone for \d+ s, and is back\.$/)).toBeVisible();
  await expect(noor.getByText(gone)).toHaveCount(0);

  // Their turn comes as if nothing had happened; then they stop.
  await expect(bram.getByRole("heading", { level: 2, name: "You", exact: true })).toBeVisible({
    timeout: 15_000,
  });
  await bram.keyboard.press("KeyP");
  await expect(noor.getByText("Bram has left the form. This is what was heard until then.")).toBeVisible();
  await expect(noor.getByText(/^You: 5 strokes on /)).toBeVisible();
  await expectClean(noor);
  await bram.keyboard.press("KeyP");

  // Once more; they are gone for good, and nobody waits.
  await noor.getByRole("button", { name: "The form again" }).click();
  await expect(bram.getByText("Counting in")).toBeVisible();
  // The first turn is over: the call is on its way, or, within one room, answered already.
  await expect(noor.getByRole("heading", { level: 2, name: /^(On its way to )?Bram$/ })).toBeVisible({
    timeout: 15_000,
  });
  await bram.context().close();
  await expect(noor.getByText(gone)).toBeVisible();
  await noor.keyboard.press("KeyR");
  await expect(
    noor.getByText("The form was ended while the kit of Bram was gone. This is what was heard until then."),
  ).toBeVisible();
  await noor.context().close();
  await line.close();
});
