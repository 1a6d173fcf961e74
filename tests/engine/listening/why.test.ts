import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import {
  catalogueStock,
  type Heard,
  hear,
  inSentence,
  placesWords,
  shelfStock,
  whyWords,
} from "../../../engine/listening/index.ts";
import { FOUR_FOUR, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

/** Eight bars at the groove's usual tempo, as a steady player has them. */
function take(id: string, seed = 7) {
  const groove = writtenGrooveOf(id);
  return played(groove, {
    ...{ tempoBpm: usualTempo(groove), bars: 8, spreadMs: 10, leftOut: 0.02 },
    chance: seededChance(seed),
  });
}

function heardAmong(id: string, styleIds: readonly string[]): Heard {
  const hearing = hear(take(id), catalogueStock(STYLES.filter((style) => styleIds.includes(style.id))));
  if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
  return hearing;
}

const styleOf = (id: string): string => id.replace(/-\d$/, "");

describe("near neighbours", () => {
  test.each([
    ["shuffle-2", "swing", "Shuffle rather than swing: the snare holds two and four."],
    ["swing", "shuffle", "Swing rather than shuffle: there is no snare on two and four."],
    ["shuffle", "blues-shuffle", "Shuffle rather than blues shuffle: the snare comes only on two and four."],
    ["half-time-shuffle", "shuffle", "the snare comes on the second of the triplet of every beat."],
    [
      "bossa-nova",
      "samba",
      "Bossa nova rather than samba: the kick comes on one and three of both bars and the hi-hat plays eighths.",
    ],
    ["samba", "bossa-nova", "the kick comes on two and on the “a” of every beat of both bars."],
    [
      "bossa-nova",
      "rock-eighths",
      "the cross-stick comes on one and four and on the “and” of two of the first bar",
    ],
    ["samba", "partido-alto", "Samba rather than partido alto: the floor tom comes on two of both bars."],
    ["rock-eighths", "half-time", "Rock eighths rather than half-time: the snare holds two and four."],
    ["half-time", "rock-eighths", "Half-time rather than rock eighths: the snare comes on three."],
    ["rock-eighths", "rock-sixteenths", "the hi-hat plays eighths."],
    ["rock-sixteenths", "rock-eighths", "the hi-hat plays sixteenths."],
    ["rock-eighths-2", "boom-bap", "the kick comes only on one and three."],
    ["d-beat", "rock-eighths", "D-beat rather than rock eighths: the kick comes on the “and” of three."],
    ["steppers", "one-drop", "Steppers rather than one drop: the kick comes on every beat."],
    ["one-drop", "steppers", "One drop rather than steppers: the kick comes only on two and four."],
    ["one-drop", "rockers", "One drop rather than rockers: the kick comes on two and four."],
    ["disco", "four-on-the-floor", "Disco rather than four on the floor: the hi-hat comes on every beat."],
    ["four-on-the-floor", "disco", "Four on the floor rather than disco: there is no hi-hat on every beat."],
    ["swing", "jazz-waltz", "the ride comes on the last of the triplet of two and four."],
    ["six-eight-ballad", "twelve-eight-blues", "the kick comes on six."],
    ["twelve-eight-blues", "six-eight-ballad", "the kick comes only on one and seven."],
  ])("%s beside %s: %s", (id, neighbour, words) => {
    const hearing = heardAmong(id, [styleOf(id), neighbour]);
    expect(hearing.candidates[0]?.id).toBe(styleOf(id));
    const said = whyWords({ ...hearing, known: true });
    expect(said.length).toBe(1);
    expect(said[0]).toContain(words);
  });
});

describe("in the whole catalogue", () => {
  test.each(STYLES.map(({ id }) => id))("%s: two sentences about the two next, each with a reason", (id) => {
    const hearing = heardAmong(
      id,
      STYLES.map((style) => style.id),
    );
    const [best, second, third] = hearing.candidates;
    const said = whyWords({ ...hearing, known: true });
    expect(said.length).toBe(2);
    [second, third].forEach((other, at) => {
      const start = `${best?.name} rather than ${inSentence(other?.name ?? "")}: `;
      expect(said[at]?.startsWith(start), said[at]).toBe(true);
      expect(said[at]?.slice(start.length)).toMatch(/^(the|there is no|\d+ a minute|hardly) .*[^.]\.$/);
    });
  });
});

describe("none I know", () => {
  test.each([
    ["rock-eighths", ["boom-bap"], "None I know; nearest is boom-bap, but the kick on three is not its own."],
    [
      "steppers",
      ["one-drop"],
      "None I know; nearest is one drop, but the kick on one and three is not its own",
    ],
    [
      "swing-2",
      ["shuffle"],
      "None I know; nearest is shuffle, but its kick on one and three is not there and its snare",
    ],
  ])("%s where only %s is known: %s", (id, known, words) => {
    const said = whyWords({ ...heardAmong(id, known), known: false });
    expect(said.length).toBe(1);
    expect(said[0]).toContain(words);
  });

  test("of two that are known, what is missing in each", () => {
    const said = whyWords({ ...heardAmong("tango", ["march", "train-beat"]), known: false });
    expect(said.length).toBe(2);
    expect(said[0]).toMatch(/^None I know; nearest is (march|train beat), but .+\.$/);
    expect(said[1]).toMatch(/^Nor is it (march|train beat): .+\.$/);
  });
});

test("only what was struck is told: a voice that was never played is not said to be", () => {
  for (const { id } of STYLES) {
    const hits = take(id, 3).filter(({ voice }) => voice !== "snare");
    const hearing = hear(hits, catalogueStock(STYLES));
    if (hearing.kind !== "heard") continue;
    for (const said of whyWords({ ...hearing, known: true }))
      expect(said).not.toMatch(/the snare (comes|holds|plays)/);
  }
});

test("a stroke that is left out is not told with the others", () => {
  const groove = writtenGrooveOf("shuffle-2");
  const tempoBpm = 120;
  const hits = played(groove, { tempoBpm, bars: 8, spreadMs: 8, chance: seededChance(5) });
  const onFour = (time: number): boolean => Math.round(time / (60 / tempoBpm)) % 4 === 3;
  const without = hits.filter(({ voice, time }) => !(voice === "snare" && onFour(time)));
  expect(hits.length - without.length).toBe(8);
  const stock = catalogueStock(STYLES.filter(({ id }) => id === "shuffle" || id === "swing"));
  const said = [hits, without].map((one) => {
    const hearing = hear(one, stock);
    if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
    const shuffle = hearing.candidates.find(({ id }) => id === "shuffle");
    return shuffle?.why?.rather[0]?.because;
  });
  expect(said[0]).toBe("the snare holds two and four");
  // The one without its four has no telling which half of the bar is which: its snare may be counted on four.
  expect(said[1]).toMatch(/^the snare comes on (two|four)$/);
});

test("on a shelf the grooves are told by their own names", () => {
  const shelf = shelfStock([
    { id: "a", name: "Tuesday 4", takes: [take("rock-eighths", 1)] },
    { id: "b", name: "Wednesday", takes: [take("bossa-nova", 2)] },
  ]);
  const hearing = hear(take("rock-eighths", 3), shelf);
  if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
  const [said] = whyWords({ ...hearing, known: true });
  expect(said).toMatch(/^Tuesday 4 rather than Wednesday: the snare /);
});

describe("places as they are counted", () => {
  const COMPOUND = { numerator: 6, denominator: 8 };
  test.each([
    [[1, 3], FOUR_FOUR, 1, "on two and four"],
    [[3, 2, 1, 0], FOUR_FOUR, 1, "on every beat"],
    [[2.5], FOUR_FOUR, 1, "on the “and” of three"],
    [[0.25, 0.75], FOUR_FOUR, 1, "on the “e” and the “a” of one"],
    [[3, 3.25, 3.5, 3.75], FOUR_FOUR, 1, "on four and on the “e”, the “and” and the “a” of four"],
    [[0, 1.5, 2.75], FOUR_FOUR, 1, "on one, on the “and” of two and on the “a” of three"],
    [[1 + 2 / 3, 3 + 2 / 3], FOUR_FOUR, 1, "on the last of the triplet of two and four"],
    [[5, 7], FOUR_FOUR, 2, "on two and four of the second bar"],
    [[1, 5], FOUR_FOUR, 2, "on two of both bars"],
    [[0, 5.5], FOUR_FOUR, 2, "on one of the first bar, on the “and” of two of the second"],
    [[0, 1, 5 / 3], COMPOUND, 1, "on one, four and six"],
    [[0, 1 / 3, 2 / 3, 1, 4 / 3, 5 / 3], COMPOUND, 1, "on every eighth"],
  ])("%o in %o over %i bars: %s", (places, metre, bars, words) => {
    expect(placesWords(places, { metre, bars })).toBe(words);
  });
});

test.each([
  ["Bossa nova", "bossa nova"],
  ["Afro-Cuban 6/8", "Afro-Cuban 6/8"],
  ["D-beat", "D-beat"],
])("%s inside a sentence: %s", (name, words) => {
  expect(inSentence(name)).toBe(words);
});
