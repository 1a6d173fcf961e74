/** The lesson that is on, looked at in Replay: here and from another window, as it is played. */
import { expect, type Page } from "@playwright/test";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { addStudent, waitForStoredStrikes } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";

test.use({ timezoneId: "Europe/Vienna" });

const strikes = (page: Page, count: number) =>
  expect(page.getByText(new RegExp(`, ${count} strikes?, not ended yet`))).toBeVisible();

test("comes in as it is played, says so, and lets one go back and along again", async ({ page, context }) => {
  await page.clock.setFixedTime("2026-03-02T15:10:00+01:00");
  await addStudent(page, "Bram", { weekday: "Monday", from: "15:15" });
  await turnTo(page, "#/desk");
  await page.getByRole("button", { name: "Begin with Bram" }).click();
  await expect(page.getByRole("heading", { level: 1, name: /^Bram, until/ })).toBeVisible();
  await page.keyboard.press("KeyF");
  await page.keyboard.press("KeyJ");
  await page.getByRole("link", { name: "Replay", exact: true }).click();
  await page
    .getByRole("row", { name: /not ended/ })
    .getByRole("link")
    .click();
  const along = page.getByText(
    "The lesson is on. What is played comes in as it is played, and the cursor goes along.",
  );
  await expect(along).toBeVisible();
  await strikes(page, 2);
  await expectClean(page);

  // The keys that play the kit play it here as well.
  await page.keyboard.press("KeyF");
  await strikes(page, 3);
  await expect(page.getByText(/^snare, .*strength/i)).toBeVisible();
  await expect(along).toBeVisible();
  await page.keyboard.press("Home");
  await expect(along).toHaveCount(0);
  await page.keyboard.press("KeyF");
  await strikes(page, 4);
  await expect(page.getByRole("slider", { name: "Moment of the lesson" })).toHaveAttribute(
    "aria-valuenow",
    "0",
  );
  await page.getByRole("button", { name: "Go along with it" }).click();
  await expect(along).toBeVisible();
  await expect(page).toHaveURL(/#\/replay\/[^/]+$/);

  // Another window follows what this one writes.
  await waitForStoredStrikes(page, 4);
  const other = await context.newPage();
  await other.goto(page.url());
  await strikes(other, 4);
  await expect(other.getByText(/^The lesson has not ended\. What another window writes/)).toBeVisible();
  await page.keyboard.press("KeyJ");
  await strikes(other, 5);
  await page.getByRole("link", { name: "Desk", exact: true }).click();
  await page.getByRole("button", { name: "End the lesson" }).click();
  await expect(other.getByText(/, 5 strikes\. /)).toBeVisible();
  await expect(other.getByText(/not ended/)).toHaveCount(0);
  await other.close();
});
