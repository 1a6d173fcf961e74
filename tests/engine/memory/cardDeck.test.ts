import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { RHYTHMS, SIGNS, signById } from "../../../engine/catalogue/index.ts";
import { type DeckQuestion, type ItemId, type ListEntry, layDeck } from "../../../engine/memory/index.ts";
import { LEVELS } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

function entry(item: ItemId, about: Partial<ListEntry> = {}): ListEntry {
  return { item, chanceForgotten: 0.4, evidence: null, teacher: null, words: null, ...about };
}

function question(about: Partial<DeckQuestion> = {}): DeckQuestion {
  return {
    list: null,
    dealt: null,
    met: [],
    level: "second-year",
    count: 12,
    rhythms: true,
    jokerShare: 0,
    pictures: ["teapot", "weathercock"],
    chance: seededChance(3),
    ...about,
  };
}

const list = {
  refresh: [entry("symbol:quarter-note"), entry("style:bossa-nova"), entry("sticking:flam-tap")],
  new: [
    entry("symbol:segno", { teacher: "added", chanceForgotten: null }),
    entry("symbol:coda", { chanceForgotten: null }),
  ],
};

describe("a deck", () => {
  test("holds all that is due and what the teacher added, of this round only", () => {
    const deck = layDeck(question({ list }));
    expect(deck).toContainEqual({ card: "symbol:quarter-note", reason: "due" });
    expect(deck).toContainEqual({ card: "sticking:flam-tap", reason: "due" });
    expect(deck).toContainEqual({ card: "symbol:segno", reason: "teacher" });
    expect(deck.some(({ card }) => card.includes("bossa"))).toBe(false);
  });

  test("begins with something that is not new, and is a quarter new at most while enough was met", () => {
    const met = SIGNS.slice(0, 20).map(({ id }): ItemId => `symbol:${id}`);
    for (let seed = 0; seed < 40; seed += 1) {
      const deck = layDeck(question({ list, met, chance: seededChance(seed) }));
      expect(deck[0]?.reason).not.toBe("new");
      expect(deck.filter(({ reason }) => reason === "new").length).toBeLessThanOrEqual(3);
    }
  });

  test("for somebody who has met nothing is of the level", () => {
    const deck = layDeck(question({ level: "first-year" }));
    expect(deck).toHaveLength(12);
    for (const { card } of deck) {
      const id = card.slice("symbol:".length);
      expect((signById(id) ?? RHYTHMS.find((each) => each.id === id))?.level).toBe("first-year");
    }
  });

  test("has no rhythms where none are wanted", () => {
    for (let seed = 0; seed < 20; seed += 1)
      expect(
        layDeck(question({ rhythms: false, chance: seededChance(seed) })).some(({ card }) =>
          card.includes("rhythm-"),
        ),
      ).toBe(false);
  });

  test("holds no card twice, as many as asked, and jokers at the rate, never first", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.constantFrom(...LEVELS),
        fc.constantFrom(0, 0.2, 1),
        fc.nat(),
        (count, level, jokerShare, seed) => {
          const deck = layDeck(question({ list, count, level, jokerShare, chance: seededChance(seed) }));
          const cards = deck.filter(({ reason }) => reason !== "joker").map(({ card }) => card);
          expect(new Set(cards).size).toBe(cards.length);
          expect(cards).toHaveLength(count);
          expect(deck[0]?.reason).not.toBe("joker");
          const jokers = deck.length - cards.length;
          if (jokerShare === 0) expect(jokers).toBe(0);
          if (jokerShare === 1) expect(jokers).toBe(count);
        },
      ),
    );
  });

  test("a fifth of the cards is followed by a joker, over many decks", () => {
    let jokers = 0;
    for (let seed = 0; seed < 200; seed += 1)
      jokers += layDeck(question({ jokerShare: 0.2, chance: seededChance(seed) })).filter(
        ({ reason }) => reason === "joker",
      ).length;
    // 2,400 cards: 480 of them, standard deviation 20.
    expect(Math.abs(jokers - 480)).toBeLessThan(80);
  });
});

describe("a set that was dealt to the round", () => {
  const dealt = { items: ["symbol:coda", "symbol:half-note"] as const, nothingElse: false };

  test("lies first, in its order; what else is due comes behind", () => {
    const cards = layDeck(question({ list, dealt, count: 5 })).map(({ card }) => card);
    expect(cards.slice(0, 2)).toEqual(["symbol:coda", "symbol:half-note"]);
    expect(cards).toHaveLength(5);
    expect(new Set(cards).size).toBe(5);
    expect(cards).toContain("symbol:quarter-note");
  });

  test("on a bad day it is all there is, jokers among it", () => {
    const badDay = { ...dealt, nothingElse: true };
    const cards = layDeck(question({ list, dealt: badDay, jokerShare: 1 })).map(({ card }) => card);
    expect(cards.filter((card) => !card.startsWith("joker:"))).toEqual(["symbol:coda", "symbol:half-note"]);
    expect(cards.filter((card) => card.startsWith("joker:"))).toHaveLength(2);
  });

  test("what has no card is passed over", () => {
    const gone = { items: ["symbol:no-such-sign", "symbol:coda"] as const, nothingElse: true };
    expect(layDeck(question({ dealt: gone })).map(({ card }) => card)).toEqual(["symbol:coda"]);
  });
});
