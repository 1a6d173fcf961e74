import { describe, expect, test } from "vitest";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import {
  freeTurnOn,
  judgeExchange,
  type PlayedTurn,
  type Pulse,
  type Side,
  type TradedHit,
  tellForm,
  turnsOf,
} from "../../../engine/trading/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { snareAt } from "./phrases.ts";

/** A bar is two seconds, as in `phrases.ts`. */
const PULSE: Pulse = { from: 0, tempoBpm: 120, metre: FOUR_FOUR };
const TURNS = turnsOf("free", { groove: false, calls: 0 });
const HOW = { level: "steady" } as const;

function struck(side: Side, offsetMs: number, ...beats: readonly number[]): readonly TradedHit[] {
  return snareAt(...beats).map((hit) => ({ ...hit, time: hit.time + offsetMs / 1000, side }));
}

/** Turns that pass on at these beats. */
function turnsAt(...beats: readonly number[]): readonly PlayedTurn[] {
  return beats.slice(1).flatMap((until, at) => {
    const turn = TURNS[at];
    return turn ? [freeTurnOn(turn, PULSE, { from: (beats[at] ?? 0) / 2, until: until / 2 })] : [];
  });
}

function judge(hits: readonly TradedHit[], turns: readonly PlayedTurn[], aim: "echo" | "answer" | "finish") {
  const [call, answer] = turns;
  if (!call || !answer) throw new Error("A call has its answer.");
  return judgeExchange(hits, { call, answer }, { aim, ...HOW });
}

describe("an exchange of a free form", () => {
  test("each one's lean, and how the time went over", () => {
    const hits = [...struck(0, -20, 0, 1, 1.5, 2, 3, 4, 5), ...struck(1, 30, 8, 9, 9.5, 10, 11, 12, 13)];
    const told = judge(hits, turnsAt(0, 8.06, 16), "echo");
    expect(told.met).toBe(true);
    expect(told.call.leanMs).toBeCloseTo(-20, 6);
    expect(told.answer.leanMs).toBeCloseTo(30, 6);
    expect(told.handOverMs).toBeCloseTo(50, 6);
    expect(told.says.at(-1)).toBe("The answer came in 50 ms behind where the call left the time.");
    // Where an answer should have begun nobody knows.
    expect(told.comparison.leanMs).toBeNull();
  });

  test.each([
    ["as long as the call, from a pick-up", [-1, 0, 1, 4], [7, 8, 9, 12, 16], "as long", true],
    ["begun on three", [2, 3, 4], [10, 11, 14, 18], "as long", false],
    ["a bar shorter", [0, 1, 4], [8, 9, 10], "shorter", false],
    ["a bar longer", [0, 1, 4], [8, 9, 12, 17, 18], "longer", false],
  ] as const)("by bar lines, not by its own first stroke: %s", (_, call, answer, length, landsOnOne) => {
    const hits = [...struck(0, 0, ...call), ...struck(1, 0, ...answer)];
    const passes = answer[0] ?? 8;
    const told = judge(hits, turnsAt(call[0] ?? 0, passes, 20), "answer");
    expect(told.answered).toMatchObject({ length, landsOnOne });
  });
});

test("who follows whom is told of a free form as of any other", () => {
  const chance = seededChance(5);
  const hits: TradedHit[] = [];
  const beats = [0];
  // The caller keeps to the pulse, scattered; the other comes 30 ms off and makes 0.7 of it good at each beat.
  for (let turn = 0; turn < 24; turn += 1) {
    const from = turn * 8;
    let apart = turn % 2 === 1 ? 30 * (chance() < 0.5 ? -1 : 1) : 0;
    for (let beat = 0; beat < 8; beat += 1) {
      const side = turn % 2 === 1 ? 1 : 0;
      hits.push(...struck(side, apart, from + beat));
      apart = (side === 1 ? 0.3 : 0.95) * apart + 5 * normal(chance);
    }
    beats.push(from + 8);
  }
  const told = tellForm(hits, turnsAt(...beats.map((beat) => Math.max(0, beat - 0.1))));
  expect(told.players.map(({ strokes }) => strokes)).toEqual([96, 96]);
  expect(told.players[1].correction?.share).toBeGreaterThan(0.4);
  expect(told.players[0].correction?.share).toBeLessThan(0.35);
  expect(told.follows).toBe(1);
});
