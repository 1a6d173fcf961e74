import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
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
/** What can be met again by the next file that shares its modules: stand-ins for modules, globals and the clock, a database in memory. */
const LEAVES_SOMETHING =
  /\bvi\.(mock|doMock|hoisted|resetModules|spyOn|stubGlobal|stubEnv|useFakeTimers|setSystemTime)\(|fake-indexeddb|\b(globalThis|window|process\.env)\.\w+ = |Object\.assign\(globalThis/;
/** Pure functions, or a program of its own. */
const PURE = /^tests\/(examples\.test\.ts|(engine|reference|bench|cli|engraving|kit-maps)\/)/;
/**
 * Whole programs; what failed now and then when it shared modules; and what draws components: parts of these may still be on their
 * way when the file ends, and could not be had by the next that needs them.
 */
const APART_ANYWAY =
  /^tests\/((electron|scripts|broker)\/|arrows\.test\.ts|renderer\/out\/print\/staffLines\.test\.ts|.+\.test\.tsx$)/;

/** The files that must not share modules: those in which one of these words stands, here or in what they take from beside them. */
function filesApart(): string[] {
  const texts = readdirSync(join(import.meta.dirname, "tests"), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => `tests/${name.replaceAll("\\", "/")}`)
    .filter((path) => !PURE.test(path) && !path.startsWith("tests/e2e/"))
    .map((path) => ({ path, text: readFileSync(join(import.meta.dirname, path), "utf8") }));
  const isTest = (path: string) => /\.test\.tsx?$/.test(path);
  const leaving = texts.filter(({ text }) => LEAVES_SOMETHING.test(text));
  const taken = leaving.filter(({ path }) => !isTest(path)).map(({ path }) => `/${basename(path)}"`);
  return texts
    .filter(
      (file) =>
        APART_ANYWAY.test(file.path) ||
        leaving.includes(file) ||
        taken.some((name) => file.text.includes(name)),
    )
    .map(({ path }) => path)
    .filter(isTest);
}
const APART = filesApart();
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
          include: TESTS,
          exclude: [...APART, ...MEASURED, BROWSER],
          // Files share the modules they read: reading the catalogue anew for each took half of the time.
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: "apart",
          include: APART,
          exclude: MEASURED,
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
