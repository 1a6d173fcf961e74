import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Hit, Voice } from "../../../../engine/kit/index.ts";
import { isCalled, stillToStrike } from "../../../../engine/rounds/index.ts";
import type { RoundKind } from "../../../../engine/session/index.ts";
import { LONG_AGO_DAYS, OUR_SYLLABLES } from "../../../../engine/speech/index.ts";
import { comparisonWords } from "../../../../engine/trading/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import type { PhrasesBefore } from "../../../../renderer/app/phrasesEarlier.ts";
import type { ReadState } from "../../../../renderer/app/readForLesson.ts";
import { SyllableEar } from "../../../../renderer/microphone/syllableEar.ts";
import { SyllableThinking } from "../../../../renderer/microphone/syllableThinking.ts";
import { SayAndStrikeRound } from "../../../../renderer/screens/say-and-strike/sayAndStrikeRound.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";
import { endRound } from "../../../../renderer/session/recordRounds.ts";
import { SteppedRound } from "../../../../renderer/session/steppedRound.ts";
import { Store } from "../../../../renderer/session/store.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const NAMES: Readonly<Record<string, string>> = { ottilie: "Ottilie", bram: "Bram", noor: "Noor" };
const DAY_MS = 24 * 3600 * 1000;
/** Longer than any silence that ends a phrase here. */
const SILENCE_MS = 5000;

/** A round with two kits. `isSeated`: each of the first two students has one. */
function sitDown({
  students = [],
  isSeated = false,
  earlier = {},
}: {
  readonly students?: readonly string[];
  readonly isSeated?: boolean;
  readonly earlier?: Readonly<Record<string, PhrasesBefore>>;
} = {}) {
  const log = new LessonLog();
  const kits = [new KitLog(), new KitLog()] as const;
  if (students.length > 0)
    log.begin({
      lessonId: "lesson",
      studentIds: students,
      lanes: isSeated
        ? students.map((studentId) => ({ studentId, source: "kit" }))
        : [{ studentId: null, source: "kit" }],
      zone: "UTC",
    });
  let rounds = 0;
  const book = {
    log,
    beginRound: (round: RoundKind, studentIds: readonly string[], lane: number): string => {
      rounds += 1;
      log.add({ kind: "round-began", lane, roundId: `round-${rounds}`, round, studentIds });
      return `round-${rounds}`;
    },
    endRound: async (): Promise<void> => endRound(log, () => false, `round-${rounds}`),
  };
  const state: ReadState<PhrasesBefore | null> = { of: new Map(Object.entries(earlier)), trouble: null };
  const quiet = { from: 0, stop: () => {} };
  const round = new SayAndStrikeRound(new SteppedRound("say-and-strike", book, () => 0), {
    sound: { playSaid: () => quiet, playStrokes: () => quiet },
    book,
    kits: {
      answering: () => kits[0],
      asking: () => kits[1],
      seatOf: (player) => (isSeated ? (kits[students.indexOf(player)] ?? null) : null),
    },
    ear: new SyllableEar(async () => undefined, new SyllableThinking()),
    levelOf: () => "first-year",
    phrases: new Store(state, () => state),
    nicknameOf: (player) => NAMES[player],
    syllables: { get: () => OUR_SYLLABLES },
    chance: seededChance(4),
  });
  return { round, log, kits };
}

let clock = 0;
function strikeAt(kit: KitLog, time: number, voice: Voice): void {
  const hit: Hit = { time, voice, zone: voice === "snare" ? "head" : "whole", velocity: 0.7, pad: 40 };
  kit.append([{ source: "kit", event: { kind: "hit", hit }, live: true }]);
}

/** Strikes the call as it is, or with another last sound. */
function answer(round: SayAndStrikeRound, kit: KitLog, last?: Voice): void {
  clock += 100;
  const strokes = round.get().own.call?.strokes ?? [];
  strokes.forEach(({ time, voice }, at) => {
    strikeAt(kit, clock + time, at === strokes.length - 1 ? (last ?? voice) : voice);
  });
}

function told(round: SayAndStrikeRound): readonly string[] {
  const { call } = round.get().own;
  return (call?.answers ?? []).map(({ by, comparison }) => `${by}: ${comparisonWords(comparison)}`);
}

test("in turn: one answers, and the next call is the next one's", () => {
  const { round, kits } = sitDown({ students: ["ottilie", "bram"] });
  round.begin();
  round.sayTyped("doo ka");
  answer(round, kits[0]);
  vi.advanceTimersByTime(SILENCE_MS);
  expect(told(round)).toEqual(["ottilie: Rhythm holds; sound holds."]);
  round.sayTyped("doo ka");
  expect(round.get().own.call?.of).toEqual(["bram"]);
  answer(round, kits[0], "high-tom");
  vi.advanceTimersByTime(SILENCE_MS);
  expect(told(round)).toEqual(["bram: Rhythm holds; the second sound moved from snare to high tom."]);
});

test("in turn, each at a kit of their own: the one whose turn it is is heard there, and the other is not", () => {
  const { round, kits } = sitDown({ students: ["ottilie", "bram"], isSeated: true });
  round.begin();
  round.sayTyped("doo ka");
  answer(round, kits[0]);
  vi.advanceTimersByTime(SILENCE_MS);
  round.sayTyped("ka doo");
  answer(round, kits[0]);
  vi.advanceTimersByTime(SILENCE_MS);
  expect(told(round)).toEqual([]);
  answer(round, kits[1]);
  vi.advanceTimersByTime(SILENCE_MS);
  expect(told(round)).toEqual(["bram: Rhythm holds; sound holds."]);
});

describe("all at once", () => {
  test("at two kits at the same time: each judged apart, a line for each", () => {
    const { round, kits } = sitDown({ students: ["ottilie", "bram"], isSeated: true });
    round.answering.dispatch("all-at-once");
    round.begin();
    round.sayTyped("doo ka doo ka");
    expect(round.isSeated()).toBe(true);
    expect([...round.doing.get().answering]).toEqual([
      ["ottilie", 0],
      ["bram", 0],
    ]);
    // Bram begins while Ottilie plays, in a slower tempo, and moves the last sound.
    const strokes = round.get().own.call?.strokes ?? [];
    const times: readonly (readonly [number, KitLog, Voice])[] = strokes.flatMap(({ time, voice }, at) => [
      [time, kits[0], voice] as const,
      [0.4 + 1.3 * time, kits[1], at === strokes.length - 1 ? ("high-tom" as const) : voice] as const,
    ]);
    for (const [time, kit, voice] of [...times].sort(([a], [b]) => a - b)) strikeAt(kit, 1000 + time, voice);
    expect(round.doing.get().answering.get("bram")).toBe(4);
    vi.advanceTimersByTime(SILENCE_MS);
    expect([...told(round)].sort()).toEqual([
      "bram: Rhythm holds; the fourth sound moved from snare to high tom.",
      "ottilie: Rhythm holds; sound holds.",
    ]);
    expect(round.onWall().says).toEqual([
      "Ottilie: Rhythm holds; sound holds.",
      "Bram: Rhythm holds; the fourth sound moved from snare to high tom.",
    ]);
  });

  test("one has answered, the other is still waited for; to hear it again is for who is left", () => {
    const { round, kits } = sitDown({ students: ["ottilie", "bram"], isSeated: true });
    round.answering.dispatch("all-at-once");
    round.begin();
    round.sayTyped("doo ka");
    answer(round, kits[1]);
    vi.advanceTimersByTime(SILENCE_MS);
    const { call } = round.get().own;
    expect(call && isCalled(call)).toBe(true);
    expect([...round.doing.get().answering.keys()]).toEqual(["ottilie"]);
    strikeAt(kits[0], 5000, "snare");
    expect(round.doing.get().answering.get("ottilie")).toBe(1);
    round.again();
    expect([...round.doing.get().answering]).toEqual([["ottilie", 0]]);
    vi.advanceTimersByTime(SILENCE_MS);
    expect(told(round).length).toBe(1);
    answer(round, kits[0]);
    vi.advanceTimersByTime(SILENCE_MS);
    expect(told(round)).toEqual(["bram: Rhythm holds; sound holds.", "ottilie: Rhythm holds; sound holds."]);
  });

  test("on one kit one after the other, in any order; the next call is for all again", () => {
    const { round, kits } = sitDown({ students: ["ottilie", "bram", "noor"] });
    round.answering.dispatch("all-at-once");
    round.begin();
    round.sayTyped("doo ka");
    expect(round.isSeated()).toBe(false);
    round.choose("noor");
    answer(round, kits[0]);
    vi.advanceTimersByTime(SILENCE_MS);
    expect(round.answerer()).toBe("ottilie");
    for (const _ of ["ottilie", "bram"]) {
      answer(round, kits[0]);
      vi.advanceTimersByTime(SILENCE_MS);
    }
    expect(round.get().own.past[0]?.answers.map(({ by }) => by)).toEqual(["noor", "ottilie", "bram"]);
    round.next();
    const { call } = round.get().own;
    expect(call && stillToStrike(call)).toEqual(["ottilie", "bram", "noor"]);
  });

  test("what is struck is typed back by each, whoever is chosen first", () => {
    const { round, kits } = sitDown({ students: ["ottilie", "bram"], isSeated: true });
    round.answering.dispatch("all-at-once");
    round.begin();
    round.turnRound();
    round.strikeCall();
    strikeAt(kits[1], 9000, "kick");
    strikeAt(kits[1], 9001, "snare");
    vi.advanceTimersByTime(SILENCE_MS);
    expect(round.isSeated()).toBe(false);
    round.choose("bram");
    expect(round.speaker()).toBe("bram");
    round.typeBack("doo ka");
    round.typeBack("doo doo");
    expect(told(round)).toEqual([
      "bram: Rhythm holds; sound holds.",
      "ottilie: Rhythm holds; the second sound moved from snare to kick.",
    ]);
  });
});

describe("how hard the phrases are", () => {
  const ago = (days: number): string => new Date(Date.now() - days * DAY_MS).toISOString().slice(0, 10);
  const heldTwice = (rung: number, days: number): PhrasesBefore => ({
    day: ago(days),
    results: [
      { rung, held: true },
      { rung, held: true },
    ],
  });

  test("as left off; one easier where that is long ago; by the level of somebody new", () => {
    const { round } = sitDown({
      students: ["ottilie", "bram", "noor"],
      earlier: { ottilie: heldTwice(5, 7), bram: heldTwice(5, LONG_AGO_DAYS + 9) },
    });
    const rungs: number[] = [];
    round.begin();
    for (let turn = 0; turn < 3; turn += 1) {
      round.next();
      rungs.push(round.get().own.call?.rung ?? 0);
      round.letBe();
      round.round.add({ kind: "passed-on" });
    }
    expect(rungs).toEqual([6, 5, 1]);
  });

  test("a second round of the same lesson goes on where the first left off", () => {
    const { round, kits } = sitDown({ students: ["ottilie"], earlier: { ottilie: heldTwice(5, 7) } });
    round.begin();
    for (let phrase = 0; phrase < 2; phrase += 1) {
      round.next();
      answer(round, kits[0]);
      vi.advanceTimersByTime(2 * SILENCE_MS);
    }
    expect(round.get().own.past.map(({ rung }) => rung)).toEqual([6, 6]);
    round.stop();
    round.anew();
    round.begin();
    expect(round.leftOff("ottilie")).toEqual({ rung: 7, daysAgo: 0 });
    expect(round.rung()).toBe(7);
  });

  test("for all at once as hard as suits who takes least; of nobody nothing is remembered", () => {
    const { round } = sitDown({
      students: ["ottilie", "bram"],
      earlier: { ottilie: heldTwice(9, 7), bram: heldTwice(3, 7) },
    });
    round.answering.dispatch("all-at-once");
    round.begin();
    expect(round.rung()).toBe(4);
    const alone = sitDown();
    alone.round.begin();
    expect(alone.round.leftOff(null)).toBeNull();
    expect(alone.round.rung()).toBe(1);
  });
});
