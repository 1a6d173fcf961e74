import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import {
  barAt,
  barsOf,
  FORMS,
  freeTurnAt,
  type Pulse,
  type TradedHit,
  turnAt,
  turnHits,
  turnOn,
  turnsOf,
} from "../../../engine/trading/index.ts";

/** A bar is two seconds. */
const PULSE: Pulse = { from: 10, tempoBpm: 120, metre: FOUR_FOUR };
const TWOS = turnsOf("twos", { groove: false, calls: 0 });

describe("forms", () => {
  test.each([
    ["twos", [2, 2, 2, 2, 2, 2, 2, 2], 16],
    ["fours", [4, 4, 4, 4, 4, 4, 4, 4], 32],
    ["eights", [8, 8, 8, 8], 32],
    ["shrinking", [8, 8, 4, 4, 2, 2, 1, 1], 30],
    ["twelve", [4, 4, 4, 4, 4, 4], 24],
    ["thirty-two", [8, 8, 8, 8], 32],
  ] as const)("%s", (form, bars, whole) => {
    const turns = turnsOf(form, { groove: false, calls: 0 });
    expect(turns.map(({ bars: long }) => long)).toEqual(bars);
    expect(turns.map(({ side }) => side)).toEqual(bars.map((_, at) => at % 2));
    expect(barsOf(turns)).toBe(whole);
  });

  test("a groove between two exchanges is as long as a turn, and both keep it", () => {
    const parts = turnsOf("shrinking", { groove: true, calls: 1 }).map(
      ({ part, side, bars }) => `${part} ${side} ${bars}`,
    );
    expect(parts.slice(0, 6)).toEqual([
      "call 1 8",
      "answer 0 8",
      "groove 1 4",
      "call 1 4",
      "answer 0 4",
      "groove 1 2",
    ]);
  });

  test.each([
    ["call", ["call 0 2", "way 1 1", "answer 1 2", "call 0 2", "way 1 1", "answer 1 2"]],
    ["answer", ["call 0 2", "answer 1 2", "way 0 1", "call 0 2", "answer 1 2", "way 0 1"]],
  ] as const)(
    "in two places there is room for what is on its way, after the %s that goes out here",
    (after, first) => {
      const turns = turnsOf("twos", { groove: false, calls: 0, way: { bars: 1, after } });
      expect(turns.slice(0, 6).map(({ part, side, bars }) => `${part} ${side} ${bars}`)).toEqual(first);
      // Nothing is waited for after the last answer.
      expect(turns.at(-1)?.part).toBe("answer");
    },
  );

  test("a free form has no bars", () => {
    expect(barsOf(turnsOf("free", { groove: true, calls: 0 }))).toBeNull();
  });

  test("laws: turns follow one another without a gap, calls and answers are equally long", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FORMS.filter((form) => form !== "free")),
        fc.boolean(),
        fc.constantFrom(0 as const, 1 as const),
        (form, groove, calls) => {
          let bar = 0;
          const turns = turnsOf(form, { groove, calls });
          for (const turn of turns) {
            expect(turn.fromBar).toBe(bar);
            bar += turn.bars ?? 0;
            const call = turns.find(({ part, exchange }) => part === "call" && exchange === turn.exchange);
            expect(turn.bars).toBe(call?.bars);
          }
          expect(barsOf(turns)).toBe(bar);
        },
      ),
    );
  });
});

describe("whose turn it is", () => {
  test.each([
    ["two beats before it", 9, { stage: "before", beatsLeft: 2 }],
    ["on the first line", 10, { stage: "on", index: 0, bar: 1, barsLeft: 2, beat: 1 }],
    ["in the last bar", 13.1, { stage: "on", index: 0, bar: 2, barsLeft: 1, beat: 3 }],
    ["on the line to the answer", 14, { stage: "on", index: 1, bar: 1, barsLeft: 2, beat: 1 }],
    ["in the last turn", 41.9, { stage: "on", index: 7, bar: 2, barsLeft: 1, beat: 4, next: null }],
    ["after it", 42, { stage: "after" }],
  ] as const)("%s", (_, time, at) => {
    expect(turnAt(TWOS, PULSE, time)).toMatchObject(at);
  });

  test("of a free form: from when it was passed on", () => {
    const turns = turnsOf("free", { groove: false, calls: 0 });
    expect(freeTurnAt(turns, [10, 15], PULSE, 16)).toMatchObject({
      stage: "on",
      index: 1,
      barsLeft: null,
      turn: { side: 1, part: "answer" },
    });
    expect(freeTurnAt(turns, [], null, 16)).toMatchObject({ stage: "before" });
  });

  test("law: it never goes back, and the bars left count down", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 8, max: 44, noNaN: true }), { minLength: 2 }), (times) => {
        let index = -1;
        for (const time of [...times].sort((a, b) => a - b)) {
          const at = turnAt(TWOS, PULSE, time);
          if (at.stage !== "on") continue;
          expect(at.index).toBeGreaterThanOrEqual(index);
          index = at.index;
          const end = barAt(PULSE, at.turn.fromBar + (at.turn.bars ?? 0));
          expect(at.barsLeft).toBe(Math.ceil((end - time) / 2 - 1e-6));
        }
      }),
    );
  });
});

describe("which strokes belong to a turn", () => {
  const at = (time: number, side: 0 | 1 | null): TradedHit => ({ time, side, voice: "snare", velocity: 0.6 });
  const [call, answer] = TWOS;
  if (!call || !answer) throw new Error("Twos have a call and an answer.");
  const times = (hits: readonly TradedHit[]) => hits.map(({ time }) => time);

  test("on two kits the player is known: a pick-up counts, and what the other strikes does not", () => {
    const hits = [at(9.8, 0), at(10, 0), at(12, 1), at(13.75, 1), at(13.97, 1), at(14.01, 0), at(14.5, 1)];
    expect(times(turnHits(hits, turnOn(call, PULSE)).phrase)).toEqual([9.8, 10]);
    expect(times(turnHits(hits, turnOn(call, PULSE)).withLanding)).toEqual([9.8, 10, 14.01]);
    expect(times(turnHits(hits, turnOn(answer, PULSE)).phrase)).toEqual([13.75, 13.97, 14.5]);
  });

  test("on one kit the line decides, half of a sixteenth before it", () => {
    const hits = [at(9.97, null), at(13.9, null), at(13.95, null), at(14.02, null)];
    expect(times(turnHits(hits, turnOn(call, PULSE)).phrase)).toEqual([9.97, 13.9]);
    expect(times(turnHits(hits, turnOn(answer, PULSE)).phrase)).toEqual([13.95, 14.02]);
  });
});
