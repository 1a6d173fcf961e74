import AxeBuilder from "@axe-core/playwright";
import { expect, type Page } from "@playwright/test";

/** Nothing on the page as it stands hinders anybody, as far as a program can tell. */
export async function expectClean(page: Page): Promise<void> {
  // In the page itself: else a second page is opened for each look, and comes to the front of this one.
  // Only what hinders is described: to describe all that is well takes longer than to look for it.
  const { violations } = await new AxeBuilder({ page })
    .options({ resultTypes: ["violations"] })
    .setLegacyMode()
    .analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`)).toEqual(
    [],
  );
}
