import type { Page } from "@playwright/test";

const NOTHING_OPEN = "about:blank";

/**
 * Turns a program that is open to another place of its book, and waits until that is drawn. Going to an address that differs
 * in its hash loads nothing: for a moment the page left before still stands there, and whatever is looked for may be found on it.
 * A program that is not open yet is opened there.
 *
 * @param to what stands behind the "#" and with it: "#/roster/new".
 */
export async function turnTo(page: Page, to: string): Promise<void> {
  if (page.url() === NOTHING_OPEN) {
    await page.goto(`./${to}`);
    return;
  }
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
