import { describe, expect, test } from "vitest";
import {
  NAMINGS,
  RHYTHMS,
  rhythmById,
  rhythmName,
  SIGN_FAMILIES,
  SIGNS,
  signById,
  signName,
} from "../../../../engine/catalogue/index.ts";
import { beatsPerBar, LEVELS } from "../../../../engine/score/index.ts";
import { toNumber } from "../../../../engine/units/index.ts";

describe("signs", () => {
  test("each has an id of its own, and a name of its own in each usage", () => {
    expect(new Set(SIGNS.map(({ id }) => id)).size).toBe(SIGNS.length);
    for (const naming of NAMINGS)
      expect(new Set(SIGNS.map((sign) => signName(sign, naming))).size).toBe(SIGNS.length);
  });

  test("what is seen tells each from all others, and does not say its name", () => {
    expect(new Set(SIGNS.map(({ family, seen }) => `${family} ${seen}`)).size).toBe(SIGNS.length);
    for (const { names, seen } of SIGNS)
      for (const name of Object.values(names)) expect(seen.toLowerCase()).not.toContain(name);
  });

  test("each family has something for a first-year student but those of later years", () => {
    const first = new Set(SIGNS.filter(({ level }) => level === "first-year").map(({ family }) => family));
    expect([...SIGN_FAMILIES].filter((family) => !first.has(family))).toEqual([]);
  });

  test("names are those of the usage", () => {
    const sign = signById("eighth-note");
    expect(sign && NAMINGS.map((naming) => signName(sign, naming))).toEqual(["Eighth note", "Quaver"]);
  });
});

describe("rhythms", () => {
  test("each level has at least four, each of one bar on the snare", () => {
    for (const level of LEVELS)
      expect(RHYTHMS.filter((each) => each.level === level).length).toBeGreaterThanOrEqual(4);
    for (const { groove } of RHYTHMS) {
      expect(groove.bars).toBe(1);
      expect(groove.voices).toEqual(["snare"]);
      expect(groove.notes.length).toBeGreaterThanOrEqual(3);
    }
  });

  test.each([
    ["rhythm-half-then-quarters", "A minim, two crotchets"],
    ["rhythm-eighths-on-two", "Quavers on two"],
    ["rhythm-eighth-two-sixteenths", "A quaver, two semiquavers"],
    ["rhythm-off-beat-after-three", "A quaver rest on three"],
    ["rhythm-dotted-quarter-first", "A dotted crotchet first"],
    ["rhythm-thirty-seconds-into-two", "Demisemiquavers into two"],
    ["rhythm-six-eight-quarter-eighth", "Six-eight: a crotchet, a quaver, three quavers"],
    ["rhythm-sixteenths-across", "Threes of semiquavers across the bar"],
  ])("%s is called %s in the United Kingdom", (id, name) => {
    const rhythm = rhythmById(id);
    expect(rhythm && rhythmName(rhythm, "uk")).toBe(name);
    expect(rhythm && rhythmName(rhythm, "us")).toBe(rhythm?.name);
  });

  test("no value is called as in the United States there", () => {
    for (const rhythm of RHYTHMS)
      expect(rhythmName(rhythm, "uk")).not.toMatch(
        /half|quarter|eighth|sixteenth|thirty-second|\ban? an?\b/i,
      );
  });

  test("no two are alike but for their tempo, the stroke on the next one counted", () => {
    const gapsOf = (rhythm: (typeof RHYTHMS)[number]): string => {
      const { groove } = rhythm;
      const places = [...groove.notes.map(({ position }) => toNumber(position)), beatsPerBar(groove.metre)];
      const first = places[0] ?? 0;
      const whole = (places.at(-1) ?? 1) - first;
      return places.map((place) => ((place - first) / whole).toFixed(4)).join(" ");
    };
    expect(new Set(RHYTHMS.map(gapsOf)).size).toBe(RHYTHMS.length);
  });
});
