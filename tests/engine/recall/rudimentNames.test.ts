/**
 * The naming of rudiments against 400 misspellings and 200 names that are none, which were written before the matcher
 * was tuned; what was tuned on and what was kept for the report are told apart.
 */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { RUDIMENTS } from "../../../engine/catalogue/index.ts";
import { rudimentMatcher } from "../../../engine/recall/index.ts";
import { wilson } from "../../../engine/units/index.ts";

const folder = resolve(import.meta.dirname, "../../fixtures/recall");
const linesOf = (file: string): readonly string[] =>
  readFileSync(resolve(folder, file), "utf8")
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("#"));

const misspelt = linesOf("misspelt-rudiments.txt").flatMap((line) => {
  const [number, ...spellings] = line.split("|").map((part) => part.trim());
  return spellings.map((given, at) => ({ given, number: Number(number), tunedOn: at % 2 === 0 }));
});
const wrong = linesOf("no-rudiments.txt").map((given, at) => ({ given, tunedOn: at % 2 === 0 }));

/** Numbers of the rudiments that may be meant; one where it is named. */
function numbersOf(given: string): readonly number[] {
  const match = rudimentMatcher().match(given);
  const ids = match.kind === "named" ? [match.id] : match.kind === "ask" ? match.ids : [];
  return ids.map((id) => RUDIMENTS.find((rudiment) => rudiment.id === id)?.number ?? 0);
}

function isNamed(given: string): boolean {
  return rudimentMatcher().match(given).kind === "named";
}

describe.each([
  { half: "tuned on", tunedOn: true },
  { half: "kept for the report", tunedOn: false },
])("the half $half", ({ tunedOn }) => {
  test("at least 99 of 100 misspellings are named rightly, none as another", () => {
    const asked = misspelt.filter((each) => each.tunedOn === tunedOn);
    expect(asked).toHaveLength(200);
    const missed = asked.filter(({ given, number }) => !(isNamed(given) && numbersOf(given)[0] === number));
    const asAnother = missed.filter(({ given }) => isNamed(given));
    const { low, high } = wilson(asked.length - missed.length, asked.length);
    const told = missed.map(
      ({ given, number }) => `${given} (${number}): ${numbersOf(given).join(", ") || "none"}`,
    );
    const share = ((asked.length - missed.length) / asked.length).toFixed(3);
    console.info(
      `${share} [${low.toFixed(3)}, ${high.toFixed(3)}] named rightly; not: ${told.join("; ") || "none"}`,
    );
    expect(asAnother).toEqual([]);
    expect(missed.length).toBeLessThanOrEqual(2);
  });

  test("no wrong name is accepted", () => {
    const asked = wrong.filter((each) => each.tunedOn === tunedOn);
    expect(asked.length).toBeGreaterThanOrEqual(100);
    expect(
      asked.filter(({ given }) => isNamed(given)).map(({ given }) => `${given}: ${numbersOf(given)}`),
    ).toEqual([]);
  });
});
