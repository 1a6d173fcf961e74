import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  aimOf,
  answererOf,
  FIRST_SET,
  NEW_TRADING,
  type Trading,
  type TradingEvent,
  tradingAfter,
  tradingEventSchema,
  tradingRules,
} from "../../../../engine/rounds/index.ts";
import { anyTradingEvent } from "./events.ts";

const anyEvents = fc.array(anyTradingEvent([null, "ottilie", "bram"]), { maxLength: 60 });

function after(...events: readonly TradingEvent[]): Trading {
  return events.reduce(tradingAfter, NEW_TRADING);
}

const began: TradingEvent = { kind: "form-began" };
const left: TradingEvent = { kind: "form-left" };
const over: TradingEvent = { kind: "form-over", says: ["Both stood on the pulse."] };
const turned: TradingEvent = { kind: "turned-round" };
function exchanged(about: Partial<Extract<TradingEvent, { kind: "exchanged" }>> = {}): TradingEvent {
  return {
    kind: "exchanged",
    aim: "echo",
    calls: 0,
    by: "ottilie",
    met: true,
    rhythm: true,
    sound: true,
    handOverMs: 4,
    says: ["Rhythm holds; sound holds.", "An echo."],
    timeline: { turns: [], strokes: [] },
    ...about,
  };
}

describe("a form", () => {
  test("begins, is told exchange by exchange, and as a whole", () => {
    const own = after(began, exchanged(), exchanged({ met: false }), over);
    expect(own).toMatchObject({ stage: "told", says: ["Both stood on the pulse."] });
    expect(own.exchanges.map(({ met }) => met)).toEqual([true, false]);
  });

  test("that is begun again keeps what was said before, for the tally", () => {
    const own = after(began, exchanged(), over, began, exchanged({ by: "bram" }));
    expect(own.exchanges.length).toBe(1);
    expect(own.past.map(({ by }) => by)).toEqual(["ottilie", "bram"]);
  });

  test("that is left keeps its exchanges; one without any leaves nothing", () => {
    expect(after(began, exchanged(), left)).toMatchObject({ stage: "told", exchanges: [{ by: "ottilie" }] });
    expect(after(began, left)).toMatchObject({ stage: "between", exchanges: [] });
  });

  test.each([
    ["an exchange outside of a form", [exchanged()]],
    ["its end outside of one", [over]],
    ["leaving none", [left]],
  ] as const)("%s changes nothing", (_, events) => {
    expect(after(...events)).toBe(NEW_TRADING);
  });

  test("is not set otherwise, nor turned round, while it is on", () => {
    const set: TradingEvent = { kind: "set-out", set: { ...FIRST_SET, tempoBpm: 120 } };
    expect(after(began, set).set.tempoBpm).toBe(FIRST_SET.tempoBpm);
    expect(after(set).set.tempoBpm).toBe(120);
    expect(after(began, turned).calls).toBe(0);
    expect(after(turned).calls).toBe(1);
    expect(after(turned, turned).calls).toBe(0);
  });
});

describe("what it showed", () => {
  test("echoes and things moved, of whoever answered; a free answer cannot be wrong", () => {
    const own = after(
      began,
      exchanged(),
      exchanged({ aim: "move-one", met: false, by: "bram", says: ["Rhythm holds; sound holds."] }),
      exchanged({ aim: "answer", met: null }),
    );
    expect(tradingRules.shown(own)).toEqual([
      { by: "ottilie", item: "trade:echo", outcome: "held", words: "Rhythm holds; sound holds." },
      { by: "bram", item: "trade:move-one", outcome: "missed", words: "Rhythm holds; sound holds." },
    ]);
  });

  test("each step in a sentence", () => {
    expect(tradingRules.words(NEW_TRADING, { kind: "set-out", set: FIRST_SET }, "us")).toBe(
      "Twos, 92 a minute; the answers: echo.",
    );
    expect(tradingRules.words(after(began), exchanged(), "us")).toBe("Rhythm holds; sound holds. An echo.");
    expect(tradingRules.words(NEW_TRADING, left, "us")).toBeNull();
  });
});

describe("whose answer it is", () => {
  const of = (kits: Trading["set"]["kits"], calls: 0 | 1) => ({ set: { ...FIRST_SET, kits }, calls });
  test.each([
    ["two kits, two students", of("two", 0), ["ottilie", "bram"], "bram"],
    ["turned round", of("two", 1), ["ottilie", "bram"], "ottilie"],
    ["one student and the teacher, who calls", of("shared", 0), ["ottilie"], "ottilie"],
    ["the teacher answers", of("shared", 1), ["ottilie"], null],
    ["a player who is not there answers", of("with-player", 0), ["ottilie"], null],
    ["a player who is not there calls", of("with-player", 1), ["ottilie"], "ottilie"],
    ["nobody is there", of("demonstration", 0), ["ottilie"], null],
    ["nobody of the Roster", of("two", 0), [], null],
  ] as const)("%s", (_, own, players, by) => {
    expect(answererOf(own, players)).toBe(by);
  });
});

test("the two who show how it goes do one of each", () => {
  const show = { ...FIRST_SET, kits: "demonstration" as const };
  expect([0, 1, 2, 3].map((exchange) => aimOf(show, exchange))).toEqual([
    "echo",
    "move-one",
    "finish",
    "answer",
  ]);
  expect(aimOf({ ...show, kits: "two", aim: "move-one" }, 0)).toBe("move-one");
});

test("what was dealt goes round, exchange by exchange", () => {
  const set = { ...FIRST_SET, kits: "two" as const, aim: "answer" as const };
  const dealt = { items: ["trade:move-one", "trade:echo"] as const, nothingElse: false };
  expect([0, 1, 2].map((exchange) => aimOf(set, exchange, dealt))).toEqual(["echo", "move-one", "echo"]);
  expect(aimOf(set, 0, { items: ["sound:kick"], nothingElse: false })).toBe("answer");
});

test("laws: what was shown only grows, nothing is said outside of a form, events survive writing and reading", () => {
  fc.assert(
    fc.property(anyEvents, (events) => {
      let own = NEW_TRADING;
      for (const event of events) {
        const before = own;
        own = tradingAfter(before, event);
        const [was, is] = [tradingRules.shown(before), tradingRules.shown(own)];
        expect(is.slice(0, was.length)).toEqual(was);
        if (before.stage !== "on") expect(own.past).toBe(before.past);
        expect(tradingEventSchema.parse(JSON.parse(JSON.stringify(event)))).toEqual(event);
      }
    }),
  );
});
