/** Studio: where it is kept, backed up, looked into, put back, erased; the demo studio comes and goes. */
import { readFileSync } from "node:fs";
import { expect } from "@playwright/test";
import { SCREENS } from "../../renderer/app/route.ts";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { addStudent, allStorage, rowsOf } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";

test.use({ reducedMotion: "reduce" });

test("the studio is backed up, erased, looked into and put back", async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
  await addStudent(page, "Casimir");
  await turnTo(page, "#/studio");
  await expect(page.getByText("No backup has been made yet.")).toBeVisible();
  await expect(page.getByText(/1 student, 0 lessons/)).toBeVisible();
  await expectClean(page);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Back up now" }).click(),
  ]);
  const archive = readFileSync(await download.path());
  await expect(page.getByText("The last one was made today.")).toBeVisible();

  await page.getByRole("button", { name: "Erase everything" }).click();
  await page.getByRole("textbox", { name: /To be sure/ }).fill("erase");
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText(/0 students, 0 lessons/)).toBeVisible();
  expect(await allStorage(page)).not.toContain("Casimir");

  const file = page.getByLabel("An archive");
  await file.setInputFiles({
    name: "letter.gz",
    mimeType: "application/gzip",
    buffer: Buffer.from("Dear drummer"),
  });
  await expect(page.getByRole("alert")).toBeVisible();
  expect(await rowsOf(page, "students")).toEqual([]);
  await file.setInputFiles({ name: "studio.jsonl.gz", mimeType: "application/gzip", buffer: archive });
  await expect(page.getByText("Students: Casimir.")).toBeVisible();
  await expectClean(page);
  expect(await rowsOf(page, "students")).toEqual([]);
  await page.getByRole("button", { name: "Put back; what is here holds" }).click();
  await expect(page.getByText(/1 row is put back, 0 were there already/)).toBeVisible();
  expect((await rowsOf(page, "students")).map(({ nickname }) => nickname)).toEqual(["Casimir"]);
});

test("Millrace Studio comes when it is asked for, says on every page that it is invented, and goes in one step", async ({
  page,
}) => {
  test.slow();
  await addStudent(page, "Somebody real");
  await turnTo(page, "#/studio");
  await page.getByRole("button", { name: "Look at Millrace Studio" }).click();
  await expect(page.getByRole("button", { name: "Remove Millrace Studio" })).toBeEnabled({
    timeout: 240_000,
  });
  expect(await rowsOf(page, "lessons")).toHaveLength(104);
  for (const { id, name } of SCREENS) {
    await turnTo(page, `#/${id}`);
    await expect(page.getByRole("link", { name, exact: true })).toHaveAttribute("aria-current", "page");
    await expect(page.getByText("Millrace Studio: invented")).toBeVisible();
  }
  await turnTo(page, "#/roster");
  await page.getByRole("link", { name: "Ottilie (invented)" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Ottilie (invented)" })).toBeVisible();
  await expect(page.getByRole("rowheader", { name: /\(invented\)/ }).first()).toBeVisible();
  await expectClean(page);
  await turnTo(page, "#/desk");
  await expect(page.getByRole("heading", { name: /^Due for / })).toBeVisible();
  await expectClean(page);
  await turnTo(page, "#/studio");
  await page.getByRole("button", { name: "Remove Millrace Studio" }).click();
  await expect(page.getByRole("button", { name: "Look at Millrace Studio" })).toBeVisible();
  const left = await allStorage(page);
  expect(left.toLowerCase()).not.toContain("millrace");
  expect((await rowsOf(page, "students")).map(({ nickname }) => nickname)).toEqual(["Somebody real"]);
});
