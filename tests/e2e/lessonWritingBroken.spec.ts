/** A lesson that was broken off in the middle of a take, ended where it was: the take is judged after all, in the built program. */
import { expect } from "@playwright/test";
import { grooveById } from "../../engine/catalogue/index.ts";
import { test } from "./quietTest.ts";
import { addStudent, choose, playBossa, rowsOf, waitForStoredStrikes } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";

const bossa = grooveById("bossa-nova");
const strikes = (8 / (bossa?.bars ?? Number.NaN)) * (bossa?.notes.length ?? 0);

test("a take that was being played is judged, and what it showed is known", async ({ page }) => {
  await addStudent(page, "Bram");
  await turnTo(page, "#/desk");
  await choose(page, /Begin a lesson with/, "Bram");
  await playBossa(page);
  await expect.poll(async () => (await rowsOf(page, "lessons"))[0]?.takes).toBe(1);
  await waitForStoredStrikes(page, strikes);
  await turnTo(page, "#/desk");
  await page.reload();
  await page.getByRole("button", { name: "End it where it was" }).click();
  await expect.poll(async () => (await rowsOf(page, "lessons"))[0]?.endedAt).toEqual(expect.any(String));
  await expect
    .poll(() => rowsOf(page, "takes"))
    .toEqual([
      expect.objectContaining({ heard: expect.objectContaining({ id: "bossa-nova" }), voiceAccuracy: 1 }),
    ]);
  await expect
    .poll(() => rowsOf(page, "results"))
    .toEqual([expect.objectContaining({ item: "style:bossa-nova", outcome: "known" })]);
});
