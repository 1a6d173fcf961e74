import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** What compares times of one run with each other: one file after the other, when nothing else runs. */
const MEASURED = [
  "tests/bench/{grading,identify,memory,shelf,studio}.test.ts",
  "tests/bench/listening/speed.test.ts",
  "tests/bench/room/relay.test.ts",
  "tests/bench/spotting/speed.test.ts",
  "tests/cli/bench.test.ts",
  "tests/engine/formats/smfFuzz.test.ts",
  "tests/renderer/audio/clock.test.ts",
];
const BROWSER = "tests/e2e/**";
/** What puts a stand-in in the place of a module: it must not meet the modules of other files. */
const WITH_STAND_INS = readdirSync(join(import.meta.dirname, "tests"), { recursive: true, encoding: "utf8" })
  .filter((name) => /\.test\.tsx?$/.test(name))
  .map((name) => `tests/${name}`)
  .filter((path) => readFileSync(join(import.meta.dirname, path), "utf8").includes("vi.mock("));

export default defineConfig({
  test: {
    // Patience for a slow, busy machine: it costs nothing where all is well.
    testTimeout: 180_000,
    // Two cores, as the machine that checks every change has.
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
          exclude: [...MEASURED, BROWSER, ...WITH_STAND_INS],
          // Files share the modules they read: reading the catalogue anew for each took half of the time.
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: { name: "stand-ins", include: WITH_STAND_INS, sequence: { groupOrder: 1 } },
      },
      {
        extends: true,
        test: {
          name: "measured",
          include: MEASURED,
          fileParallelism: false,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
