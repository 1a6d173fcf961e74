/** Texts that stand for a moment only, such as a count: noted by the page itself, since a look from outside may come too late. */
import type { Page } from "@playwright/test";

declare global {
  interface Window {
    textsShown: { readonly text: string; readonly atMs: number }[];
  }
}

/** From now on notes every text of the elements a selector finds, each time it changes. */
export async function noteTexts(page: Page, selector: string): Promise<void> {
  await page.evaluate((elements) => {
    window.textsShown = [];
    let before: readonly string[] = [];
    const look = (): void => {
      const now = [...document.querySelectorAll(elements)].map(({ textContent }) => textContent);
      const atMs = performance.now();
      window.textsShown.push(...now.filter((text) => !before.includes(text)).map((text) => ({ text, atMs })));
      before = now;
    };
    new MutationObserver(look).observe(document, { childList: true, subtree: true, characterData: true });
    look();
  }, selector);
}

/** Which of these texts were shown so far, in the order they came. */
export async function shownOf(page: Page, texts: readonly string[]): Promise<readonly string[]> {
  return page.evaluate(
    (wanted) => window.textsShown.map(({ text }) => text).filter((text) => wanted.includes(text)),
    texts,
  );
}

/** When this text was first shown, by the page's clock in milliseconds; NaN where it was not. */
export async function shownAtMs(page: Page, wanted: string): Promise<number> {
  return page.evaluate(
    (text) => window.textsShown.find((shown) => shown.text === text)?.atMs ?? Number.NaN,
    wanted,
  );
}
