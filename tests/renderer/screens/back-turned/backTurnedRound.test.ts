import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { type Moments, RUNGS } from "../../../../engine/ear/index.ts";
import type { Hit, Voice } from "../../../../engine/kit/index.ts";
import { isOpen } from "../../../../engine/rounds/index.ts";
import type { RoundKind } from "../../../../engine/session/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import type { HeardBefore } from "../../../../renderer/app/heardEarlier.ts";
import type { Planned } from "../../../../renderer/audio/strokePlayer.ts";
import { BackTurnedRound } from "../../../../renderer/screens/back-turned/backTurnedRound.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";
import { endRound } from "../../../../renderer/session/recordRounds.ts";
import { SteppedRound } from "../../../../renderer/session/steppedRound.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

/** A round with a kit that answers and one that asks, the lesson's log, and all that was sounded. */
function sitDown({
  students = [],
  isOfTwo = true,
  earlier = {},
}: {
  readonly students?: readonly string[];
  readonly isOfTwo?: boolean;
  readonly earlier?: Readonly<Record<string, HeardBefore>>;
} = {}) {
  const log = new LessonLog();
  if (students.length > 0)
    log.begin({
      lessonId: "lesson",
      studentIds: students,
      lanes: [{ studentId: students.length === 1 ? (students[0] ?? null) : null, source: "kit" }],
      zone: "UTC",
    });
  const book = {
    log,
    beginRound: (round: RoundKind, studentIds: readonly string[], lane: number): string => {
      log.add({ kind: "round-began", lane, roundId: "round", round, studentIds });
      return "round";
    },
    endRound: async (): Promise<void> => endRound(log, () => false, "round"),
  };
  const answering = new KitLog();
  const asking = isOfTwo ? new KitLog() : answering;
  const sounded: (readonly Planned[])[] = [];
  const stopped = vi.fn();
  const round = new BackTurnedRound(new SteppedRound("back-turned", book, () => 0), {
    sound: {
      playStrokes: (strokes) => {
        sounded.push(strokes);
        return { from: performance.now() / 1000, stop: stopped };
      },
    },
    book,
    kits: { answering: () => answering, asking: () => asking },
    earlier: (by) => earlier[by ?? ""] ?? { answers: [], heard: [] },
    chance: seededChance(4),
  });
  return { round, log, answering, asking, sounded, stopped };
}

let clock = 0;
function strike(kit: KitLog, voice: Voice, velocity = 0.7): void {
  clock += 0.5;
  const hit: Hit = { time: clock, voice, zone: voice === "snare" ? "head" : "whole", velocity, pad: 40 };
  kit.append([{ source: "kit", event: { kind: "hit", hit }, live: true }]);
}

function asked(round: BackTurnedRound): Moments {
  const { question } = round.get().own;
  if (!question) throw new Error("Nothing was asked.");
  return question.moments;
}

describe("the program asks", () => {
  test("first each is heard once, by name, in the order of the kit; then what is asked sounds as it is kept", () => {
    const { round, sounded } = sitDown();
    round.begin();
    expect(sounded).toHaveLength(1);
    const names = round.refresher();
    expect(sounded[0]).toHaveLength(names.length);
    vi.advanceTimersByTime(100);
    expect(round.refreshing.get()).toBe(names[0]);
    vi.advanceTimersByTime(names.length * 700 + 100);
    expect(round.refreshing.get()).toBeNull();
    expect(round.get().own.refreshed).toEqual(names);
    round.next();
    expect(sounded[1]).toHaveLength(asked(round).flat().length);
    expect(round.names()).toEqual(
      expect.arrayContaining(
        asked(round)
          .flat()
          .map(({ surface }) => surface),
      ),
    );
  });

  test("a round begins low, rises while all is heard, and stays within the rungs", () => {
    const { round } = sitDown();
    round.begin();
    const rungs: number[] = [];
    for (let question = 0; question < 30; question += 1) {
      round.next();
      rungs.push(round.get().own.question?.rung ?? 0);
      round.answer(asked(round), "named");
    }
    expect(rungs[0]).toBeLessThanOrEqual(2);
    expect(Math.max(...rungs.slice(0, 3))).toBeLessThanOrEqual(6);
    expect(rungs.at(-1)).toBeGreaterThan(RUNGS.length - 4);
  });

  test("who was heard in earlier lessons does not begin at the bottom", () => {
    const answers = Array.from({ length: 30 }, (_, at) => ({ rung: 8 + (at % 4), right: at % 4 < 2 }));
    const { round } = sitDown({ students: ["noor"], earlier: { noor: { answers, heard: [] } } });
    round.begin();
    round.next();
    expect(round.get().own.question?.rung).toBeGreaterThan(4);
  });

  test("a miss is laid beside what it was: the two sounded one after the other; a right answer is not", () => {
    const { round, sounded } = sitDown();
    round.begin();
    round.next();
    round.answer(asked(round), "named");
    const before = sounded.length;
    round.next();
    expect(sounded).toHaveLength(before + 1);
    round.answer([[{ surface: "bell" }]], "named");
    const contrast = sounded.at(-1) ?? [];
    expect(sounded).toHaveLength(before + 2);
    expect(contrast).toHaveLength(asked(round).flat().length + 1);
    expect(contrast.at(-1)).toMatchObject({ voice: "bell" });
    expect(contrast.at(-1)?.time).toBeGreaterThan(0.7);
  });

  test("strikes are shown at once, and are the answer as soon as there are as many as were sounded", () => {
    const { round, answering } = sitDown();
    round.begin();
    round.next();
    const [first] = asked(round).flat();
    strike(answering, first?.surface as Voice);
    expect(round.collecting.get().moments).toHaveLength(1);
    expect(round.get().own.past).toHaveLength(0);
    vi.advanceTimersByTime(100);
    expect(round.get().own.past).toMatchObject([{ answers: [{ way: "struck", right: true }] }]);
    // What is struck between questions is playing.
    strike(answering, "kick");
    expect(round.collecting.get().moments).toEqual([]);
  });

  test("simpler takes it back and asks lower; again sounds the same; a pause sounds nothing and takes nothing", () => {
    const { round, answering, sounded, stopped } = sitDown();
    round.begin();
    for (let question = 0; question < 6; question += 1) {
      round.next();
      round.answer(asked(round), "named");
    }
    round.next();
    const rung = round.get().own.question?.rung ?? 0;
    round.again();
    expect(sounded.at(-1)).toEqual(sounded.at(-2));
    round.simpler();
    expect(round.get().own.question?.rung).toBe(Math.max(1, rung - 2));
    expect(round.get().own.past).toHaveLength(6);
    round.pause();
    expect(stopped).toHaveBeenCalled();
    strike(answering, "kick");
    vi.advanceTimersByTime(1000);
    expect(round.get().own.past).toHaveLength(6);
    expect(Object.keys(round.commands())).toEqual(["stop"]);
    round.resume();
    expect(sounded.at(-1)).toHaveLength(asked(round).flat().length);
  });
});

describe("a kit asks", () => {
  test("what was heard is the key, a silence ends it; the other kit answers", () => {
    const { round, asking, answering } = sitDown();
    round.wanted.dispatch({ source: "kit" });
    round.begin();
    round.next();
    expect(round.collecting.get().what).toBe("question");
    strike(answering, "ride");
    strike(asking, "kick");
    strike(asking, "snare");
    vi.advanceTimersByTime(1000);
    expect(round.get().own.question).toBeNull();
    vi.advanceTimersByTime(1000);
    expect(asked(round)).toEqual([[{ surface: "kick" }], [{ surface: "snare" }]]);
    expect(round.get().own.question?.rung).toBeNull();
    strike(answering, "kick");
    strike(answering, "floor-tom");
    vi.advanceTimersByTime(100);
    expect(round.get().own.past).toMatchObject([{ answers: [{ right: false }] }]);
  });

  test("where one kit asks and answers, its strikes after the question are no answer", () => {
    const { round, asking } = sitDown({ isOfTwo: false });
    round.wanted.dispatch({ source: "kit" });
    round.begin();
    round.next();
    strike(asking, "ride");
    vi.advanceTimersByTime(2000);
    strike(asking, "ride");
    vi.advanceTimersByTime(2000);
    expect(round.get().own.past).toEqual([]);
    round.answer([[{ surface: "ride" }]], "named");
    expect(round.get().own.past).toHaveLength(1);
  });

  test("turned round, the student's kit asks and the teacher names: nothing is kept of the student", () => {
    const { round, answering, log } = sitDown({ students: ["bram"] });
    round.begin();
    round.turnRound();
    round.next();
    strike(answering, "snare");
    vi.advanceTimersByTime(2000);
    expect(round.get().own.question).toMatchObject({ of: [null], roles: "teacher-names" });
    round.answer([[{ surface: "snare" }]], "named");
    round.stop();
    expect(log.get().rounds[0]?.tally).toEqual([]);
  });
});

describe("a group", () => {
  test("in turn: each question is for the next, each with a rung of their own", () => {
    const { round } = sitDown({ students: ["bram", "noor", "casimir"] });
    round.begin();
    const who: unknown[] = [];
    for (let question = 0; question < 6; question += 1) {
      round.next();
      who.push(round.answerer());
      round.answer(asked(round), "named");
    }
    expect(who).toEqual(["bram", "noor", "casimir", "bram", "noor", "casimir"]);
  });

  test("all at once: whoever is chosen answers, the answer is due when all have; each is tallied", () => {
    const { round, log } = sitDown({ students: ["bram", "noor"] });
    round.wanted.dispatch({ answering: "all-at-once" });
    round.begin();
    round.next();
    round.chosen.dispatch("noor");
    expect(round.answerer()).toBe("noor");
    round.answer([[{ surface: "cross-stick" }]], "named");
    const { question } = round.get().own;
    expect(question && isOpen(question)).toBe(true);
    expect(JSON.stringify(round.onWall())).not.toContain("Taken");
    expect(round.answerer()).toBe("bram");
    round.answer(asked(round), "named");
    round.stop();
    const tally = log.get().rounds[0]?.tally ?? [];
    expect(tally.map(({ studentId, outcome }) => [studentId, outcome])).toEqual([
      ["noor", "new"],
      ["bram", "known"],
    ]);
  });
});

test("no word on the wall tells an open question from another of its rung", () => {
  const { round } = sitDown();
  round.begin();
  const seen = new Map<string, Set<string>>();
  for (let question = 0; question < 60; question += 1) {
    round.next();
    const rung = round.get().own.question?.rung ?? 0;
    const words = seen.get(String(rung)) ?? new Set<string>();
    words.add(JSON.stringify(round.onWall()));
    seen.set(String(rung), words);
    round.answer(question % 3 === 0 ? [[{ surface: "cross-stick" }]] : asked(round), "named");
  }
  for (const words of seen.values()) expect(words.size).toBe(1);
});
