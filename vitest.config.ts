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
/** What asks pure functions only, or starts a program of its own: nothing is left behind in the modules it reads. */
const PURE = ["tests/examples.test.ts", "tests/{engine,reference,bench,cli,engraving,kit-maps}/**/*.test.ts"];
const TESTS = ["tests/**/*.test.ts", "tests/**/*.test.tsx"];

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
          include: PURE,
          exclude: MEASURED,
          // Files share the modules they read: reading the catalogue anew for each took half of the time.
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: "apart",
          include: TESTS,
          exclude: [...PURE, ...MEASURED, BROWSER],
          sequence: { groupOrder: 1 },
        },
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
