import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type EventOf,
  hitsOfTake,
  lessonAfter,
  lessonState,
  NEW_LESSON,
  type SessionEvent,
  sessionEventSchema,
} from "../../../engine/session/index.ts";
import { anyLesson, summaryOf } from "./lessons.ts";

const AT = "2026-03-02T22:50:00.000Z";

/** Events in their order, a second apart, on the first kit unless said. */
function log(
  ...happenings: readonly (Record<string, unknown> & { readonly kind: string })[]
): SessionEvent[] {
  return happenings.map((each, index) =>
    sessionEventSchema.parse({ seq: index + 1, time: index, lane: 0, ...each }),
  );
}
const began = {
  kind: "lesson-began",
  lessonId: "l1",
  at: AT,
  zone: "Europe/Vienna",
  studentIds: ["bram", "noor"],
  lanes: [
    { studentId: "bram", source: "kit" },
    { studentId: "noor", source: "kit" },
  ],
};
const roundBegan = (roundId: string, lane = 0) => ({
  kind: "round-began",
  roundId,
  round: "call-a-style",
  studentIds: ["bram"],
  lane,
});
const takeBegan = (takeId: string, roundId: string, lane = 0, from = 0) => ({
  kind: "take-began",
  roundId,
  takeId,
  studentId: "bram",
  called: null,
  click: null,
  lane,
  from,
});
const hit = (time: number, lane = 0) => ({
  kind: "hit",
  time,
  lane,
  hit: { time, voice: "snare", zone: "head", velocity: 0.5, pad: 38 },
});

describe("laws of the fold", () => {
  test("going through the log in one go or event by event is the same, from any point on", () => {
    fc.assert(
      fc.property(anyLesson, fc.nat(), (events, cut) => {
        const at = cut % (events.length + 1);
        const before = lessonState(events.slice(0, at));
        expect(lessonState(events.slice(at), before)).toEqual(lessonState(events));
      }),
    );
  });

  test("an event that comes again changes nothing", () => {
    fc.assert(
      fc.property(anyLesson, fc.nat(), (events, which) => {
        const state = lessonState(events);
        const again = events[which % events.length];
        expect(again && lessonAfter(state, again)).toBe(state);
      }),
    );
  });

  test("a take's count is that of its strikes, the lesson's that of all", () => {
    fc.assert(
      fc.property(anyLesson, (events) => {
        const { rounds, hitCount } = lessonState(events);
        expect(hitCount).toBe(events.filter(({ kind }) => kind === "hit").length);
        for (const { takes } of rounds)
          for (const take of takes) expect(hitsOfTake(events, take)).toHaveLength(take.hitCount);
      }),
    );
  });

  test("all events of such lessons fit the schema", () => {
    fc.assert(
      fc.property(anyLesson, (events) => {
        expect(events.map((event) => sessionEventSchema.parse(event))).toEqual(events);
      }),
      { numRuns: 30 },
    );
  });
});

test("a take has the strikes of its own kit, from the first that counts until it ends", () => {
  const events = log(
    began,
    hit(1),
    roundBegan("r1"),
    roundBegan("r2", 1),
    takeBegan("t1", "r1", 0, 6),
    takeBegan("t2", "r2", 1, 0),
    hit(5.5),
    hit(6),
    hit(6.2, 1),
    hit(7),
    { kind: "take-ended", takeId: "t1" },
    hit(11),
    hit(12, 1),
  );
  const [first, second] = lessonState(events).rounds;
  expect(first?.takes[0] && hitsOfTake(events, first.takes[0]).map(({ time }) => time)).toEqual([6, 7]);
  expect(second?.takes[0] && hitsOfTake(events, second.takes[0]).map(({ time }) => time)).toEqual([6.2, 12]);
  expect(first?.takes[0]).toMatchObject({ hitCount: 2, from: 4, to: 10 });
  expect(second?.takes[0]).toMatchObject({ hitCount: 2, to: null });
});

test("a judgement stays with its take, a tally with its round", () => {
  const tally = [
    {
      item: "style:shuffle",
      outcome: "known",
      studentId: "bram",
      at: AT,
      evidence: { words: "held", roundId: "r1", takeId: "t1" },
    },
  ];
  const events = log(
    began,
    roundBegan("r1"),
    takeBegan("t1", "r1"),
    { kind: "take-ended", takeId: "t1" },
    { kind: "judgement", summary: summaryOf("t1"), comparedGrid: null },
    { kind: "round-ended", roundId: "r1", tally },
  );
  const [round] = lessonState(events).rounds;
  expect(round).toMatchObject({ to: 5, tally });
  expect(round?.takes[0]?.judgement?.summary).toEqual(summaryOf("t1"));
});

test("what was being played when the program fell is over where it was last heard", () => {
  const events = log(began, roundBegan("r1"), takeBegan("t1", "r1"), hit(3), {
    kind: "taken-up-again",
    at: AT,
    time: 90,
  });
  const state = lessonState(events);
  expect(state.stage).toBe("running");
  expect(state.rounds[0]).toMatchObject({ to: null, takes: [{ to: 3, toSeq: 5, hitCount: 1 }] });
});

test("pauses are kept; the end of the lesson ends what is open, and only remarks come after it", () => {
  const events = log(
    began,
    roundBegan("r1"),
    { kind: "paused", at: AT },
    { kind: "resumed", at: AT },
    { kind: "paused", at: AT },
    { kind: "lesson-ended", at: AT },
    roundBegan("r2"),
    { kind: "remark", remarkId: "m1", text: "the left hand", flagged: true, about: 1.5 },
    { kind: "remark", remarkId: "m2", text: "earlier", flagged: false, about: 0.5 },
  );
  const state = lessonState(events);
  expect(state).toMatchObject({ stage: "ended", endedAt: AT });
  expect(state.pauses).toEqual([
    { from: 2, to: 3 },
    { from: 4, to: 5 },
  ]);
  expect(state.rounds).toHaveLength(1);
  expect(state.rounds[0]?.to).toBe(5);
  expect(state.remarks.map(({ text }) => text)).toEqual(["earlier", "the left hand"]);
  const withdrawn = lessonAfter(state, {
    kind: "remark-withdrawn",
    remarkId: "m2",
    seq: 10,
    time: 9,
    lane: 0,
  });
  expect(withdrawn.remarks.map(({ remarkId }) => remarkId)).toEqual(["m1"]);
});

test("before the first event nothing has begun", () => {
  expect(lessonState([])).toBe(NEW_LESSON);
  const begin: EventOf<"lesson-began"> | null = lessonState(log(began)).began;
  expect(begin?.studentIds).toEqual(["bram", "noor"]);
});
