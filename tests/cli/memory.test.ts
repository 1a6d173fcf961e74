import { readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { expect, test } from "vitest";
import { run } from "./program.ts";

const fixtures = resolve(import.meta.dirname, "../fixtures/groove-midi");
// The longest is left out: eight times the work would tell nothing more.
const files = readdirSync(fixtures)
  .filter((name) => name.endsWith(".mid") && !name.startsWith("1_"))
  .map((name) => join(fixtures, name));

/** Loaded into the child beside the program: at its end it says the most memory it ever held, in kilobytes. */
const SAY_MEMORY =
  'data:text/javascript,process.on("exit",()=>process.stderr.write("held "+process.resourceUsage().maxRSS))';

function mostMegabytes(count: number): number {
  const takes = Array.from({ length: count }, (_, index) => files[index % files.length] ?? "");
  const { code, lines, stderr } = run(
    ["grade", "--groove", "swing", "--click", "120", "--json", ...takes],
    ["--import", SAY_MEMORY],
  );
  expect(code).toBe(0);
  expect(lines.length).toBe(count);
  const kilobytes = Number(/held (\d+)$/.exec(stderr)?.[1]);
  expect(kilobytes).toBeGreaterThan(10_000);
  return kilobytes / 1024;
}

test("memory stays flat over many takes", () => {
  const few = mostMegabytes(100);
  const many = mostMegabytes(400);
  console.info(`most memory held: ${few.toFixed(0)} MB over 100 takes, ${many.toFixed(0)} MB over 400`);
  // Measured: 6 to 31 MB, as the collector pleases. A program changed to keep its reports grew by 243 MB.
  expect(many - few).toBeLessThan(100);
});
