import { describe, expect, test } from "vitest";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import {
  AIMS,
  type Aim,
  CHARACTERS,
  followedPulse,
  judgeExchange,
  type PhraseHit,
  type Pulse,
  playedBy,
  type Side,
  type TradedHit,
  type Turn,
  tellForm,
  turnHits,
  turnOn,
  turnsOf,
  wholeFormWords,
} from "../../../engine/trading/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";

const PULSE: Pulse = { from: 10, tempoBpm: 100, metre: FOUR_FOUR };
const TURNS = turnsOf("fours", { groove: false, calls: 0 });
const HOW = { level: "steady" } as const;

function traded(phrase: readonly PhraseHit[], side: Side): readonly TradedHit[] {
  return phrase.map((hit) => ({ ...hit, side }));
}

function played(call: Turn, answer: Turn) {
  return { call: turnOn(call, PULSE), answer: turnOn(answer, PULSE) };
}

/** A whole form by the two who are not there. */
function wholeForm(aim: Aim, seed: number, turns = TURNS): readonly TradedHit[] {
  const chance = seededChance(seed);
  const hits: TradedHit[] = [];
  for (const [at, turn] of turns.entries()) {
    const call = turn.part === "answer" ? turns[at - 1] : undefined;
    const called = call ? { turn: call, phrase: turnHits(hits, turnOn(call, PULSE)).phrase } : null;
    const character = turn.side === 0 ? "early" : "sparse";
    hits.push(...traded(playedBy({ character, turn, pulse: PULSE, called, aim, chance }), turn.side));
  }
  return hits;
}

describe.each(AIMS)("players who are not there, asked for %s", (aim) => {
  test("do what is asked, and it is heard", () => {
    for (let seed = 0; seed < 12; seed += 1) {
      const hits = wholeForm(aim, seed);
      for (let at = 0; at < TURNS.length; at += 2) {
        const [call, answer] = TURNS.slice(at, at + 2);
        if (!call || !answer) throw new Error("A call has its answer.");
        const said = judgeExchange(hits, played(call, answer), { aim, ...HOW });
        expect(said.met).toBe(aim === "answer" ? null : true);
        expect(said.answered === null).toBe(aim === "echo" || aim === "move-one");
        expect(said.finish === null).toBe(aim !== "finish");
        // The first comes early, the second a little late: that is their character.
        expect(said.call.leanMs).toBeLessThan(-8);
        expect(said.answer.leanMs).toBeGreaterThan(2);
        expect(said.handOverMs).toBeGreaterThan(8);
      }
    }
  });
});

test("a character plays for as long as its turn, in any length", () => {
  const chance = seededChance(3);
  for (const character of CHARACTERS)
    for (const turn of turnsOf("shrinking", { groove: false, calls: 0 })) {
      const played = turnOn(turn, PULSE);
      const { from, until } = played;
      const { phrase } = turnHits(
        traded(playedBy({ character, turn, pulse: PULSE, called: null, aim: "answer", chance }), turn.side),
        played,
      );
      expect(phrase.length).toBeGreaterThanOrEqual(turn.bars ?? 0);
      expect(phrase.every(({ time }) => time > from - 0.1 && time < until)).toBe(true);
    }
});

describe("a silent answer", () => {
  const [call, answer] = TURNS;
  if (!call || !answer) throw new Error("A call has its answer.");
  test("is told as that", () => {
    const hits = wholeForm("echo", 1).filter(({ side }) => side === 0);
    expect(judgeExchange(hits, played(call, answer), { aim: "echo", ...HOW })).toMatchObject({
      met: false,
      handOverMs: null,
      says: ["No answer was heard."],
    });
    expect(judgeExchange(hits, played(call, answer), { aim: "answer", ...HOW }).says).toEqual([
      "Silence: the whole turn was left empty.",
    ]);
  });
});

describe("a pulse without a click", () => {
  const [call] = TURNS;
  if (!call) throw new Error("There is a first turn.");
  test.each([0.97, 1, 1.03])("follows a player whose beats are %f as long", (stretch) => {
    const beat = 0.6;
    const hits = Array.from({ length: 32 }, (_, at) => ({
      time: 10 + (at / 2) * beat * stretch,
      voice: "snare" as const,
      velocity: 0.6,
      side: 0 as const,
    }));
    const next = followedPulse(hits, turnOn(call, PULSE));
    expect(next.tempoBpm).toBeCloseTo(100 / stretch, 0);
    // The next line stands where the player has it, within what a beat can be off.
    const line = next.from + (16 * 60) / next.tempoBpm;
    expect(line).toBeCloseTo(10 + 16 * beat * stretch, 2);
  });

  test("a turn of a stroke or two moves it nowhere", () => {
    const hit = { time: 10.02, voice: "snare" as const, velocity: 0.6, side: 0 as const };
    expect(followedPulse([hit], turnOn(call, PULSE))).toBe(PULSE);
  });
});

describe("the whole form", () => {
  test("what each used, where each stands, in words", () => {
    const hits = wholeForm("answer", 5);
    const told = tellForm(
      hits,
      TURNS.map((turn) => turnOn(turn, PULSE)),
    );
    const [early, sparse] = told.players;
    expect(early.strokes).toBeGreaterThan(sparse.strokes);
    expect(early.leanMs).toBeLessThan(-10);
    expect(sparse.leanMs).toBeGreaterThan(3);
    const says = wholeFormWords(told, ["Early", "Sparse"]);
    expect(says[0]).toMatch(/^Early: \d+ strokes on snare, .*, \d+ ms ahead, spread \d+ ms\.$/);
    expect(says[1]).toMatch(/^Sparse: \d+ strokes on /);
  });

  test("who follows: the one who makes good what the other left", () => {
    // Both begin 30 ms off where the other left the pulse; the second makes 0.6 of it good at every beat, the first a tenth.
    const chance = seededChance(8);
    const turns = Array.from({ length: 12 }, () => turnsOf("fours", { groove: false, calls: 0 }))
      .flat()
      .map((turn, at) => ({ ...turn, fromBar: at * 4 }));
    const hits: TradedHit[] = [];
    const pulses: Pulse[] = [];
    let left = 0;
    let metronome = 0;
    for (const [at, turn] of turns.entries()) {
      const from = PULSE.from + at * 16 * 0.6;
      const share = turn.side === 1 ? 0.6 : 0.1;
      metronome += left;
      pulses.push({ ...PULSE, from: PULSE.from + metronome });
      let apart = 0.03 * (chance() < 0.5 ? -1 : 1);
      const offsets = Array.from({ length: 16 }, () => {
        const offset = apart;
        apart = (1 - share) * apart + 0.006 * normal(chance);
        return offset;
      });
      for (const [beat, offset] of offsets.entries())
        hits.push({
          time: from + metronome + beat * 0.6 + offset,
          voice: "snare",
          velocity: 0.6,
          side: turn.side,
        });
      left = offsets.reduce((sum, offset) => sum + offset, 0) / offsets.length;
    }
    const told = tellForm(
      hits,
      turns.map((turn, at) => turnOn(turn, pulses[at] ?? PULSE)),
    );
    expect(told.follows).toBe(1);
    expect(wholeFormWords(told, ["Ottilie", "Bram"]).at(-1)).toBe("Bram follows the time of Ottilie.");
    expect(told.players[1].correction?.share).toBeGreaterThan(0.4);
    expect(told.players[0].correction?.share).toBeLessThan(0.3);
  });
});
