/** A report to take things along from. */
import { expect, type Page } from "@playwright/test";
import { dropFile, grooveFile } from "./midiFile.ts";

/**
 * Plays a file of the style at once, with the style called, and waits for the report.
 *
 * @param played makes another take of the file, with something wrong in it.
 */
export async function openReport(
  page: Page,
  style: { readonly id: string; readonly name: string },
  how: { readonly bars: number; readonly tempoBpm: number },
  played: (file: Buffer) => Buffer = (file) => file,
): Promise<void> {
  await page.goto("./#/call-a-style");
  await page
    .getByRole("listbox", { name: "What is called" })
    .getByRole("option", { name: style.name, exact: true })
    .click();
  await page.getByRole("button", { name: "Start listening" }).click();
  await dropFile(page, `${style.id}.mid`, played(grooveFile(style.id, how)));
  await page.getByRole("button", { name: "all at once" }).click();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("heading", { level: 1, name: `${style.name}, as called` })).toBeVisible({
    timeout: 15_000,
  });
  await expect(page.getByRole("button", { name: "Take it along" })).toBeVisible();
}

/** Takes the dialog for a place away, as in browsers that have none: files become downloads. */
export async function withoutPlaces(page: Page): Promise<void> {
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, "showSaveFilePicker");
  });
}
