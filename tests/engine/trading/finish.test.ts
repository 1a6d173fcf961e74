import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import {
  describeFinish,
  finishWords,
  judgeExchange,
  type Pulse,
  type Side,
  type TradedHit,
  turnOn,
  turnsOf,
} from "../../../engine/trading/index.ts";
import { snareAt } from "./phrases.ts";

/** A bar is two seconds, as in `phrases.ts`. */
const TURN = { from: 0, bars: 2, tempoBpm: 120, metre: FOUR_FOUR };
/** Two bars of which the last two beats are left open. */
const OPEN = [0, 1, 1.5, 2, 4, 5];
const END = [0, 1, 2, 2.5, 3, 4, 5, 6];

function finish(call: readonly number[], end: readonly number[]) {
  return describeFinish(
    { hits: snareAt(...call), turn: TURN },
    { hits: snareAt(...end), turn: TURN },
    "steady",
  );
}

describe("an end", () => {
  test.each([
    ["taken up on the one, to the next one", OPEN, [...END, 8], 0, true, true],
    ["taken up where the call stopped, before the line", OPEN, [-2, -1, ...END, 8], -2, true, true],
    ["taken up within the first beat", OPEN, [0.5, 1, 2, 5, 8], 0.5, true, true],
    ["let pass for a beat", OPEN, [1, 2, 5, 8], 1, false, false],
    ["that stops a bar too soon", OPEN, [0, 1, 2], 0, true, false],
    ["that leaves the one open", OPEN, END, 0, true, false],
    ["that comes in beside the one", OPEN, [...END, 8.2], 0, true, false],
    ["that runs over", OPEN, [...END, 8, 9, 10], 0, true, false],
    ["of a call that left nothing open", [...OPEN, 6, 7, 7.75], [...END, 8], 0, true, true],
    ["of no call", [], [...END, 8], 0, true, true],
    ["that was never played", OPEN, [], null, false, false],
  ] as const)("%s", (_, call, end, takenUpBeats, takenUp, finished) => {
    const told = finish(call, end);
    expect(told).toMatchObject({ takenUp, finished });
    if (takenUpBeats === null) expect(told.takenUpBeats).toBeNull();
    else expect(told.takenUpBeats).toBeCloseTo(takenUpBeats, 6);
  });

  test("on one kit the landing may be anybody's: it is not told, but what is short is", () => {
    const onOneKit = (end: readonly number[]) =>
      describeFinish(
        { hits: snareAt(...OPEN), turn: TURN },
        { hits: snareAt(...end), turn: TURN, isLandingTold: false },
        "steady",
      );
    expect(onOneKit(END).finished).toBeNull();
    expect(onOneKit([0, 1]).finished).toBe(false);
    expect(finishWords(onOneKit(END)).join(" ")).toContain("cannot be told on one kit");
  });

  test.each([
    [OPEN, [...END, 8], "Taken up on the one, three beats after the call stopped."],
    [
      OPEN,
      [-0.5, 0, ...END, 8],
      "Taken up half a beat before the one, two beats and a half after the call stopped.",
    ],
    [
      OPEN,
      [-1.75, 0, 8],
      "Taken up a beat and three quarters before the one, a beat and a quarter after the call stopped.",
    ],
    [
      OPEN,
      [1 / 3, 1, 8],
      "Taken up a third of a beat after the one, three beats and a third after the call stopped.",
    ],
    [OPEN, [2, 8], "Taken up two beats after the one, late, five beats after the call stopped."],
    [[...OPEN, 7.5], [0, 8], "The call left nothing open; taken up on the one."],
    [[], [0, 8], "Nothing was called; begun on the one."],
    [OPEN, [], "Nobody finished it: the whole turn was left empty."],
  ] as const)("of %j by %j, in words", (call, end, words) => {
    expect(finishWords(finish(call, end))[0]).toBe(words);
  });

  test("what it is like is said, and whether the phrase is finished", () => {
    expect(finishWords(finish(OPEN, [...END, 8])).slice(1)).toEqual([
      "It fills its turn and lands on the one; 13 in 100 beats are left empty, 1.0 strokes a beat; much of the call is in it.",
      "The phrase is finished.",
    ]);
    expect(finishWords(finish(OPEN, END)).at(-1)).toBe("The phrase stays open.");
  });

  test("laws: whatever the tempo, and wherever both stand, it is the same", () => {
    const places = fc.uniqueArray(fc.integer({ min: 0, max: 15 }), { minLength: 1, maxLength: 10 });
    fc.assert(
      fc.property(
        places,
        places,
        fc.integer({ min: 50, max: 200 }),
        fc.integer({ min: 0, max: 1000 }),
        (a, b, tempoBpm, from) => {
          const at = (halves: readonly number[], bpm: number, later: number) => ({
            hits: snareAt(...halves.map((half) => half / 2)).map((hit) => ({
              ...hit,
              time: later + (hit.time * 120) / bpm,
            })),
            turn: { ...TURN, tempoBpm: bpm, from: later },
          });
          const one = describeFinish(at(a, 120, 0), at(b, 120, 0), "steady");
          const other = describeFinish(at(a, tempoBpm, from), at(b, tempoBpm, from), "steady");
          expect(other.takenUp).toBe(one.takenUp);
          expect(other.end.spaceLeft).toBeCloseTo(one.end.spaceLeft, 9);
          expect(other.leftOpenBeats).toBeCloseTo(one.leftOpenBeats ?? Number.NaN, 6);
          expect(one.leftOpenBeats).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });
});

describe("in a form", () => {
  const pulse: Pulse = { from: 0, tempoBpm: 120, metre: FOUR_FOUR };
  const [call, answer] = turnsOf("twos", { groove: false, calls: 0 });
  if (!call || !answer) throw new Error("A call has its answer.");
  const played = { call: turnOn(call, pulse), answer: turnOn(answer, pulse) };
  const struck = (side: Side | null, beats: readonly number[]): readonly TradedHit[] =>
    snareAt(...beats).map((hit) => ({ ...hit, side }));

  test("who finishes may begin before the line, and that the time was kept is told", () => {
    const hits = [...struck(0, OPEN), ...struck(1, [6, 7, ...END.map((beat) => beat + 8), 16])];
    const told = judgeExchange(hits, played, { aim: "finish", level: "steady" });
    expect(told).toMatchObject({ met: true, finish: { takenUp: true } });
    expect(told.finish?.takenUpBeats).toBeCloseTo(-2, 6);
    expect(told.says[0]).toBe("Taken up two beats before the one, a beat after the call stopped.");
    expect(told.says.at(-1)).toBe("Time was kept through the change.");
  });

  test("on one kit the line says whose stroke it is", () => {
    const hits = struck(null, [...OPEN, ...END.map((beat) => beat + 8), 16]);
    const told = judgeExchange(hits, played, { aim: "finish", level: "steady" });
    expect(told.met).toBeNull();
    expect(told.finish?.takenUpBeats).toBeCloseTo(0, 6);
  });
});
