import type { Page } from "@playwright/test";

/**
 * Turns a program that is open to another place of its book, and waits until that is drawn. Going to an address that differs
 * in its hash loads nothing: for a moment the page left before still stands there, and whatever is looked for may be found on it.
 *
 * @param to what stands behind the "#" and with it: "#/roster/new".
 */
export async function turnTo(page: Page, to: string): Promise<void> {
  await page.evaluate(
    (hash) =>
      new Promise<void>((drawn) => {
        if (window.location.hash === hash) return drawn();
        // The program was told before us, and draws before anything else is done.
        window.addEventListener("hashchange", () => setTimeout(drawn), { once: true });
        window.location.hash = hash;
      }),
    to,
  );
}
