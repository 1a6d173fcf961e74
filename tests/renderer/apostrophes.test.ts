/** What is shown is set like a book: an apostrophe is a raised comma, never the straight mark of a typewriter. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");

/** Comments are no text of the program; what is left has apostrophes in its sentences only, since strings stand in double marks. */
function withoutComments(source: string): string {
  return source
    .replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, ""))
    .replace(/(^|\s)\/\/ .*$/gm, "");
}

function straightIn(source: string): readonly string[] {
  return withoutComments(source)
    .split("\n")
    .flatMap((line, at) => (/[A-Za-z}]'[a-z]|[a-z]s' [a-z]/.test(line) ? [`${at + 1}: ${line.trim()}`] : []));
}

test("a straight one is found in a sentence, not in a comment", () => {
  expect(straightIn("const a = \"The kit's map.\"; // it's\n/* the kit's */\n* x")).toEqual([
    '1: const a = "The kit\'s map.";',
  ]);
  expect(straightIn("const a = `The pad of {hand}'s side.`;\n<p>Two players' turns are</p>")).toHaveLength(2);
});

describe.each(["renderer", "engine", "electron"])("%s", (folder) => {
  test("shows none", () => {
    const files = readdirSync(join(root, folder), { recursive: true, encoding: "utf8" }).filter((file) =>
      /\.tsx?$/.test(file),
    );
    expect(files.length).toBeGreaterThan(5);
    const found = files.flatMap((file) =>
      straightIn(readFileSync(join(root, folder, file), "utf8")).map((line) => `${folder}/${file}:${line}`),
    );
    expect(found).toEqual([]);
  });
});
