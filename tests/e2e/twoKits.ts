/** Two modules at one computer. */
import type { Page } from "@playwright/test";
import { choose } from "./studioPages.ts";
import { KIT } from "./virtualKit.ts";

/** The name of the module plugged in beside {@link KIT}. */
export const SECOND = "Second module";

/** Connects both on the page of Kit, which is open; they are plugged in. */
export async function connectTwoKits(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Connect the kit" }).click();
  await choose(page, /Kit on input/, KIT);
  await choose(page, /Second kit on input/, SECOND);
}
