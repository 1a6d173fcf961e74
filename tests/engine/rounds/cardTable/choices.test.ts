import fc from "fast-check";
import { expect, test } from "vitest";
import { NAMINGS, RHYTHMS, RUDIMENTS, SIGNS } from "../../../../engine/catalogue/index.ts";
import {
  type CardId,
  CHOICES,
  cardName,
  choicesFor,
  faceOf,
  isNamed,
} from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";

const NAMED: readonly CardId[] = [
  ...SIGNS.map(({ id }): CardId => `symbol:${id}`),
  ...RUDIMENTS.map(({ id }): CardId => `sticking:${id}`),
];

test("every named card has four names to choose from, all different, the right one among them, three of its kind", () => {
  fc.assert(
    fc.property(fc.constantFrom(...NAMED), fc.constantFrom(...NAMINGS), fc.nat(), (card, naming, seed) => {
      const choices = choicesFor(card, naming, seededChance(seed));
      expect(choices).toHaveLength(CHOICES);
      expect(choices).toContain(card);
      expect(new Set(choices.map((each) => cardName(each, naming))).size).toBe(CHOICES);
      expect(new Set(choices.map((each) => faceOf(each)?.kind)).size).toBe(1);
    }),
    { numRuns: 500 },
  );
});

test("the right one stands in each place about as often", () => {
  const places = [0, 0, 0, 0];
  for (let seed = 0; seed < 400; seed += 1) {
    const at = choicesFor("symbol:eighth-note", "us", seededChance(seed)).indexOf("symbol:eighth-note");
    places[at] = (places[at] ?? 0) + 1;
  }
  // Four places of 400: 100 each, standard deviation 8.7.
  for (const count of places) expect(Math.abs(count - 100)).toBeLessThan(40);
});

test("a note is beside values near it, and beside its rest now and then", () => {
  const seen = new Set(
    Array.from({ length: 60 }, (_, seed) =>
      choicesFor("symbol:eighth-note", "us", seededChance(seed)),
    ).flat(),
  );
  expect(seen).toContain("symbol:eighth-rest");
  expect(seen).toContain("symbol:dotted-eighth-note");
  expect(seen.has("symbol:sixty-fourth-note")).toBe(false);
});

test("a rhythm and a joker have no names to choose from", () => {
  expect(choicesFor("symbol:rhythm-triplet-on-two", "us", seededChance(1))).toEqual([]);
  expect(choicesFor("joker:teapot", "us", seededChance(1))).toEqual([]);
  expect([isNamed("symbol:coda"), isNamed("joker:teapot"), isNamed(`symbol:${RHYTHMS[0]?.id}`)]).toEqual([
    true,
    false,
    false,
  ]);
});
