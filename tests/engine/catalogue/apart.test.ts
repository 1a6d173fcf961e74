/** No two styles are the same groove: strokes, not names, tell them apart. */
import { describe, expect, test } from "vitest";
import { grooveById, STYLES } from "../../../engine/catalogue/index.ts";
import { type Groove, parseGrid } from "../../../engine/score/index.ts";
import { apart } from "./apart.ts";

/** Our choice: one stroke lost or added in a bar must not make another style of it. */
const LEAST_STROKES_PER_BAR = 2;

test.each(STYLES)("$id differs from every later style by two strokes a bar", (style) => {
  const close: string[] = [];
  for (const other of STYLES.slice(STYLES.indexOf(style) + 1)) {
    for (const mine of style.variants) {
      for (const theirs of other.variants) {
        const { strokesPerBar, stretch } = apart(mine, theirs);
        if (strokesPerBar < LEAST_STROKES_PER_BAR - 1e-9) {
          close.push(`${mine.id} and ${theirs.id} (its beat × ${stretch}): ${strokesPerBar.toFixed(2)}`);
        }
      }
    }
  }
  expect(close).toEqual([]);
});

describe("the measure", () => {
  const groove = (lines: string, tempo = "100-120"): Groove =>
    parseGrid(`groove: one\nname: One\nmetre: 4/4\nfeel: straight\ntempo: ${tempo}\n${lines}`);
  const rock = groove("hi-hat-closed | x.x.x.x. |\nsnare | ..x...x. |\nkick | x...x... |");

  test.each([
    ["itself", "hi-hat-closed | x.x.x.x. |\nsnare | ..x...x. |\nkick | x...x... |", 0],
    ["turned by a beat", "hi-hat-closed | x.x.x.x. |\nsnare | x...x... |\nkick | ..x...x. |", 0],
    ["on the ride", "ride | x.x.x.x. |\nsnare | ..x...x. |\nkick | x...x... |", 0],
    ["with a cross-stick", "ride | x.x.x.x. |\ncross-stick | ..x...x. |\nkick | x...x... |", 0.8],
    ["one kick more", "ride | x.x.x.x. |\nsnare | ..x...x. |\nkick | x..xx... |", 1],
    ["one ghost more", "ride | x.x.x.x. |\nsnare | ..xg..x. |\nkick | x...x... |", 0.5],
    [
      "two bars of it, one with a kick less",
      "ride | x.x.x.x. | x.x.x.x. |\nsnare | ..x...x. | ..x...x. |\nkick | x...x... | x....... |",
      0.5,
    ],
  ])("%s", (_, lines, strokes) => {
    expect(apart(rock, groove(lines)).strokesPerBar).toBeCloseTo(strokes, 9);
  });

  test("the same strokes written twice as fast are the same where the tempos meet, and only there", () => {
    const twice = "hi-hat-closed | xxxx xxxx |\nsnare | .x.x .x.x |\nkick | x.x. x.x. |";
    expect(apart(rock, groove(twice, "50-60"))).toEqual({ strokesPerBar: 0, stretch: 2 });
    expect(apart(rock, groove(twice, "160-200")).strokesPerBar).toBeGreaterThan(2);
  });

  test("is the same seen from either side", () => {
    for (const [one, two] of [
      ["polka", "rock-quarters"],
      ["bembe", "swing"],
      ["seven-eight-3", "waltz"],
    ] as const) {
      const [a, b] = [grooveById(one), grooveById(two)];
      if (!a || !b) throw new Error(`The stock has no ${one} or no ${two}.`);
      expect(apart(a, b).strokesPerBar).toBeCloseTo(apart(b, a).strokesPerBar, 9);
    }
  });
});
