import { test as base, expect } from "@playwright/test";

/** A test that fails, too, when any page of it throws, or complains in the console (a policy, a lost file, React). */
export const test = base.extend<{ readonly quiet: undefined }>({
  quiet: [
    async ({ context }, use) => {
      const complaints: string[] = [];
      context.on("weberror", (error) => complaints.push(String(error.error())));
      context.on("console", (message) => {
        if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
      });
      await use(undefined);
      expect(complaints).toEqual([]);
    },
    { auto: true },
  ],
});
