import { expect, test } from "vitest";
import { run } from "./program.ts";

function answers(input: string): readonly unknown[] {
  const { code, stderr, lines } = run(["recall", "--list", "rudiments", "--json"], [], input);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  return lines.map((line): unknown => JSON.parse(line));
}

test("a line for each name: named, again, another, none, or which of several", () => {
  expect(
    answers("Flam taps\nflamtap\n\n  single para diddle \nquadruple paradiddle\ndrag paradiddle\n"),
  ).toEqual([
    { given: "Flam taps", match: "flam-tap", number: 22, state: "named" },
    { given: "flamtap", match: "flam-tap", number: 22, state: "repeated" },
    { given: "single para diddle", match: "single-paradiddle", number: 16, state: "named" },
    { given: "quadruple paradiddle", match: null, number: null, state: "not one of them" },
    {
      given: "drag paradiddle",
      match: null,
      number: null,
      state: "not one of them",
      perhaps: ["drag-paradiddle-1", "drag-paradiddle-2"],
    },
  ]);
});

test("in words, and nothing for nothing", () => {
  const { code, stdout } = run(
    ["recall", "--list", "rudiments"],
    [],
    "lesson 25\r\nlesson 26\r\nlesson25\r\n",
  );
  expect({ code, stdout }).toEqual({
    code: 0,
    stdout: "lesson 25: 34, lesson-25\nlesson 26: not one of them\nlesson25: 34, lesson-25 (again)\n",
  });
  expect(answers("")).toEqual([]);
});

test.each([
  [["recall"], "Name a list with --list: the lists are rudiments. See --help.\n"],
  [["recall", "--list", "styles"], "--list styles: the lists are rudiments. See --help.\n"],
  [
    ["recall", "--list", "rudiments", "flam"],
    '"flam" is not understood here; names are read from standard input. See --help.\n',
  ],
])("%j is not understood", (args, stderr) => {
  expect(run(args)).toMatchObject({ code: 2, stdout: "", stderr });
});
