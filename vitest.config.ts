import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
    exclude: ["tests/e2e/**"],
    // Two cores, and the reference suites are heavy: files one after the other keep the figures steady.
    fileParallelism: false,
    testTimeout: 60_000,
  },
});
