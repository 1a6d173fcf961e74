import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FILLS, RUDIMENTS, STYLES } from "../../../engine/catalogue/index.ts";
import { NameMatcher, rudimentMatcher } from "../../../engine/recall/index.ts";

describe("of the rudiments", () => {
  test.each(
    RUDIMENTS.flatMap(({ id, name, otherNames }) => [name, ...otherNames].map((said) => ({ said, id }))),
  )("$said is $id", ({ said, id }) => {
    expect(rudimentMatcher().match(said)).toEqual({ kind: "named", id });
  });

  test.each([
    ["drag paradiddle", ["drag-paradiddle-1", "drag-paradiddle-2"]],
    ["ratamacue", ["single-ratamacue", "double-ratamacue", "triple-ratamacue"]],
    ["single stroke", ["single-stroke-roll", "single-stroke-four", "single-stroke-seven"]],
    ["swiss army", ["swiss-army-triplet"]],
  ])("%s is asked about, not guessed", (said, ids) => {
    const match = rudimentMatcher().match(said);
    expect(match.kind).toBe("ask");
    expect(new Set(match.kind === "ask" ? match.ids : [])).toEqual(new Set(ids));
  });

  test.each(["", "   ", "?!", "…", "x".repeat(5000), "five", "💥"])("%j names none", (said) => {
    expect(rudimentMatcher().match(said).kind).not.toBe("named");
  });

  test("a name in another order of its words is the same name", () => {
    const named = fc.constantFrom(...RUDIMENTS.filter(({ name }) => name.split(" ").length === 3));
    fc.assert(
      fc.property(named, fc.shuffledSubarray([0, 1, 2], { minLength: 3 }), ({ id, name }, order) => {
        const words = name.split(" ");
        expect(rudimentMatcher().match(order.map((at) => words[at]).join(" "))).toEqual({
          kind: "named",
          id,
        });
      }),
      { numRuns: 60 },
    );
  });

  test("whatever is said, an answer is one of the list or none, and a question is about several or a part", () => {
    const ids = new Set(RUDIMENTS.map(({ id }) => id));
    fc.assert(
      fc.property(fc.string({ maxLength: 40 }), (said) => {
        const match = rudimentMatcher().match(said);
        const asked = match.kind === "named" ? [match.id] : match.kind === "ask" ? match.ids : [];
        expect(asked.every((id) => ids.has(id))).toBe(true);
        expect(match.kind === "ask" && asked.length === 0).toBe(false);
      }),
      { numRuns: 60 },
    );
  });
});

test("two names equally near are asked about", () => {
  const matcher = new NameMatcher([
    { id: "one", names: ["Merton"] },
    { id: "other", names: ["Melton"] },
  ]);
  expect(matcher.match("Meton")).toEqual({ kind: "ask", ids: ["one", "other"] });
  expect(matcher.match("Merton")).toEqual({ kind: "named", id: "one" });
});

test("any list will do: every style and fill of the stock is found by its own name and joined up", () => {
  const matcher = new NameMatcher([...STYLES, ...FILLS].map(({ id, name }) => ({ id, names: [name] })));
  const missed = [...STYLES, ...FILLS].filter(({ id, name }) => {
    const match = matcher.match(name);
    return !(match.kind === "named" && match.id === id);
  });
  expect(missed.map(({ name }) => name)).toEqual([]);
});
