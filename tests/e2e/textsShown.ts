/** Texts that stand for a moment only, such as a count: noted by the page itself, since a look from outside may come too late. */
import type { Page } from "@playwright/test";

declare global {
  interface Window {
    textsShown: string[];
  }
}

/** From now on notes every text of the elements a selector finds, each time it changes. */
export async function noteTexts(page: Page, selector: string): Promise<void> {
  await page.evaluate((elements) => {
    window.textsShown = [];
    let before: readonly string[] = [];
    const look = (): void => {
      const now = [...document.querySelectorAll(elements)].map(({ textContent }) => textContent);
      window.textsShown.push(...now.filter((text) => !before.includes(text)));
      before = now;
    };
    new MutationObserver(look).observe(document, { childList: true, subtree: true, characterData: true });
    look();
  }, selector);
}

/** Which of these texts were shown so far, in the order they came. */
export async function shownOf(page: Page, texts: readonly string[]): Promise<readonly string[]> {
  return page.evaluate((wanted) => window.textsShown.filter((text) => wanted.includes(text)), texts);
}
