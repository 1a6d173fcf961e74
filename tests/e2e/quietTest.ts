import { test as base, expect } from "@playwright/test";

/** What the test runner itself says in pages whose files are not kept (playwright.config.ts). */
const NOT_KEPT = "Service Worker registration blocked by Playwright";

/** A test that fails, too, when any page of it throws, or complains in the console (a policy, a lost file, React). */
export const test = base.extend<{ readonly quiet: undefined }>({
  quiet: [
    async ({ context }, use) => {
      const complaints: string[] = [];
      context.on("weberror", (error) => complaints.push(String(error.error())));
      context.on("console", (message) => {
        const isComplaint = message.type() === "error" || message.type() === "warning";
        if (isComplaint && message.text() !== NOT_KEPT) complaints.push(message.text());
      });
      await use(undefined);
      expect(complaints).toEqual([]);
    },
    { auto: true },
  ],
});
