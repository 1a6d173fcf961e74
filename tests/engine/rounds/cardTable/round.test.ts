import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CARDS_UNTIL_AGAIN,
  type CardAnswer,
  type CardTable,
  type CardTableEvent,
  cardTableAfter,
  cardTableEventSchema,
  cardTableRules,
  isCardOpen,
  MOST_CARDS,
  NEW_CARD_TABLE,
  stillToAnswerCard,
} from "../../../../engine/rounds/index.ts";
import { anyCardTableEvent } from "./events.ts";

const PLAYERS = [null, "ottilie", "bram"] as const;
const anyEvents = fc.array(anyCardTableEvent(PLAYERS), { maxLength: 60 });

function after(...events: readonly CardTableEvent[]): CardTable {
  return events.reduce(cardTableAfter, NEW_CARD_TABLE);
}

const laid: CardTableEvent = {
  kind: "deck-laid",
  cards: [
    { card: "symbol:quarter-note", reason: "due" },
    { card: "symbol:eighth-rest", reason: "new" },
    { card: "joker:teapot", reason: "joker" },
    { card: "sticking:flam-tap", reason: "due" },
    { card: "symbol:coda", reason: "new" },
  ],
};
const turned = (of: readonly (string | null)[] = ["ottilie"]): CardTableEvent => ({
  kind: "turned-up",
  choices: [],
  of: [...of],
});
const answered = (answer: CardAnswer, by: string | null = "ottilie"): CardTableEvent => ({
  kind: "card-answered",
  by,
  answer,
});
const RIGHT: CardAnswer = { way: "choice", meant: "symbol:quarter-note" };
const WRONG: CardAnswer = { way: "word", given: "half", meant: "symbol:half-note" };

/** The table as plainly as it can be told. */
interface Model {
  deck: string[];
  open: {
    card: string;
    waiting: (string | null)[];
    answered: Map<string | null, string>;
    put: boolean;
  } | null;
  turned: number;
  teacher: boolean;
}

function modelAfter(model: Model, event: CardTableEvent): void {
  const { open } = model;
  switch (event.kind) {
    case "deck-laid":
      model.deck.push(...event.cards.map(({ card }) => card));
      model.deck.length = Math.min(model.deck.length, MOST_CARDS);
      return;
    case "slipped-in":
      if (model.deck.length < MOST_CARDS) model.deck.unshift(event.card);
      return;
    case "turned-up": {
      if (open && open.waiting.length > 0) return;
      const card = model.deck.shift();
      if (card === undefined) return;
      model.turned += 1;
      const waiting = card.startsWith("joker:") ? [] : [...new Set(event.of)];
      model.open = { card, waiting, answered: new Map(), put: card.startsWith("joker:") };
      return;
    }
    case "card-answered":
      if (!open?.waiting.includes(event.by)) return;
      open.waiting = open.waiting.filter((each) => each !== event.by);
      open.answered.set(event.by, "");
      return;
    case "put-back":
      if (!open || open.put || open.waiting.length > 0 || model.deck.length >= MOST_CARDS) return;
      open.put = true;
      model.deck.splice(CARDS_UNTIL_AGAIN, 0, open.card);
      return;
    case "laid-away":
      model.open = null;
      return;
    case "cards-turned-round":
      model.open = null;
      model.teacher = !model.teacher;
      return;
    case "overruled":
      return;
  }
}

describe("any sequence of events", () => {
  test("leaves the table as the plain model has it", () => {
    fc.assert(
      fc.property(anyEvents, (events) => {
        const model: Model = { deck: [], open: null, turned: 0, teacher: false };
        let own = NEW_CARD_TABLE;
        for (const event of events) {
          modelAfter(model, event);
          own = cardTableAfter(own, event);
          expect(own.deck.map(({ card }) => card)).toEqual(model.deck);
          expect(own.turned).toBe(model.turned);
          expect(own.roles).toBe(model.teacher ? "teacher-answers" : "student-answers");
          expect(own.open?.card ?? null).toBe(model.open?.card ?? null);
          expect(own.open ? stillToAnswerCard(own.open) : []).toEqual(model.open?.waiting ?? []);
          expect(own.open?.answers.map(({ by }) => by) ?? []).toEqual([
            ...(model.open?.answered.keys() ?? []),
          ]);
        }
      }),
      { numRuns: 300 },
    );
  });

  test("shows more and never less, nothing of a joker, and nothing of the teacher's turns", () => {
    fc.assert(
      fc.property(anyEvents, (events) => {
        let own = NEW_CARD_TABLE;
        for (const event of events) {
          const before = own;
          own = cardTableAfter(own, event);
          const shown = cardTableRules.shown(own);
          expect(shown.slice(0, before.shown.length)).toEqual(before.shown);
          const fresh = shown.slice(before.shown.length);
          if (fresh.length === 0) continue;
          expect(before.roles).toBe("student-answers");
          for (const { item } of fresh) expect(item).toBe((before.open ?? own.open)?.card);
          for (const { item } of fresh) expect(item.startsWith("joker:")).toBe(false);
        }
      }),
      { numRuns: 300 },
    );
  });

  test("is read back from what is kept as it was written, and a lawful word is said of each", () => {
    fc.assert(
      fc.property(anyEvents, (events) => {
        let own = NEW_CARD_TABLE;
        for (const event of events) {
          expect(cardTableEventSchema.parse(JSON.parse(JSON.stringify(event)))).toEqual(event);
          const words = cardTableRules.words(own, event, "us");
          if (words !== null) expect(words).toMatch(/^[A-Z].*\.$/s);
          own = cardTableAfter(own, event);
        }
      }),
    );
  });

  test("is told with the names that are used here; what was chosen is quoted as it stood on the table", () => {
    const chosen = (named?: string) =>
      answered({ way: "choice", meant: "symbol:eighth-rest", ...(named ? { named } : {}) });
    const [ready, open] = [after(laid), after(laid, turned())];
    expect(cardTableRules.words(ready, turned(), "us")).toBe("Turned up: quarter note.");
    expect(cardTableRules.words(ready, turned(), "uk")).toBe("Turned up: crotchet.");
    expect(cardTableRules.words(open, chosen(), "uk")).toBe("Chosen: Quaver rest, which is something else.");
    const quoted = (named?: string) => after(laid, turned(), chosen(named), turned());
    expect(cardTableRules.shown(quoted("Quaver rest"))[0]?.words).toBe("Taken for quaver rest.");
    expect(cardTableRules.shown(quoted())[0]?.words).toBe("Taken for eighth rest.");
  });

  test("that changes nothing gives back the same table", () => {
    const own = after(laid, turned());
    expect(cardTableAfter(own, turned())).toBe(own);
    expect(cardTableAfter(own, answered(RIGHT, "bram"))).toBe(own);
    expect(cardTableAfter(own, { kind: "put-back" })).toBe(own);
  });
});

describe("a card", () => {
  test("that is named rightly shows at once", () => {
    const own = after(laid, turned(), answered(RIGHT));
    expect(own.shown).toEqual([{ by: "ottilie", item: "symbol:quarter-note", outcome: "held", words: "" }]);
  });

  test("that is named wrongly shows when it is laid away, with what was said", () => {
    const own = after(laid, turned(), answered(WRONG));
    expect(own.shown).toEqual([]);
    expect(cardTableAfter(own, turned()).shown).toEqual([
      { by: "ottilie", item: "symbol:quarter-note", outcome: "missed", words: 'Named as "half".' },
    ]);
  });

  test("may be overruled by the teacher, who heard what was said", () => {
    const own = after(
      laid,
      turned(),
      answered(WRONG),
      { kind: "overruled", by: "ottilie", outcome: "known" },
      turned(),
    );
    expect(own.shown.map(({ outcome }) => outcome)).toEqual(["held"]);
    const taken = after(
      laid,
      turned(),
      answered(RIGHT),
      { kind: "overruled", by: "ottilie", outcome: "slipped" },
      turned(),
    );
    expect(taken.shown.map(({ outcome }) => outcome)).toEqual(["held", "missed"]);
  });

  test("that the teacher slipped in, known to be new, is the next one, and was never met where it is missed", () => {
    const own = after(
      laid,
      { kind: "slipped-in", card: "symbol:segno" },
      turned(),
      answered(WRONG),
      turned(),
    );
    expect(own.shown).toMatchObject([{ item: "symbol:segno", outcome: "not-met" }]);
  });

  test("may be said to be never met", () => {
    const own = after(laid, turned(), answered({ way: "said", outcome: "never-met" }), turned());
    expect(own.shown).toMatchObject([{ outcome: "not-met", words: "Never met before." }]);
  });

  test("that is put back comes again after three others, once", () => {
    const own = after(laid, turned(), answered(WRONG), { kind: "put-back" }, { kind: "put-back" });
    expect(own.deck.map(({ card }) => card)).toEqual([
      "symbol:eighth-rest",
      "joker:teapot",
      "sticking:flam-tap",
      "symbol:quarter-note",
      "symbol:coda",
    ]);
  });

  test("waits for each of a group, and shows of each what he answered", () => {
    const own = after(laid, turned(["ottilie", "bram"]), answered(RIGHT));
    expect(own.open && isCardOpen(own.open)).toBe(true);
    const both = [answered(WRONG, "bram"), turned()].reduce(cardTableAfter, own);
    expect(both.shown.map(({ by, outcome }) => [by, outcome])).toEqual([
      ["ottilie", "held"],
      ["bram", "missed"],
    ]);
  });

  test("that is a joker waits for nobody", () => {
    const own = after({ kind: "deck-laid", cards: [{ card: "joker:teapot", reason: "joker" }] }, turned());
    expect(own.open).toMatchObject({ card: "joker:teapot", of: [] });
  });

  test("shown to the teacher shows nothing of the student", () => {
    const own = after(
      laid,
      { kind: "cards-turned-round" },
      turned([null]),
      answered(WRONG, null),
      turned([null]),
    );
    expect(own.shown).toEqual([]);
  });
});
