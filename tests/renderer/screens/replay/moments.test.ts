import fc from "fast-check";
import { expect, test } from "vitest";
import { lessonAfter, NEW_LESSON } from "../../../../engine/session/index.ts";
import { countUpTo, Moments } from "../../../../renderer/screens/replay/moments.ts";
import { lawfulLesson } from "../../../engine/session/lawfulLessons.ts";
import { anyLesson } from "../../../engine/session/lessons.ts";
import { LESSON } from "./playedLesson.ts";

const lessons = fc.oneof(
  anyLesson,
  lawfulLesson.map(({ events }) => events),
);

test("at each event the lesson in replay is what it was live, whichever way one comes there", () => {
  fc.assert(
    fc.property(lessons, fc.array(fc.nat(), { maxLength: 8 }), (events, jumps) => {
      const moments = new Moments(events);
      let live = NEW_LESSON;
      let reached = 0;
      const states = events.map((event) => {
        live = lessonAfter(live, event);
        reached = Math.max(reached, event.time);
        return { reached, live };
      });
      const at = (index: number): void => {
        const moment = states[index]?.reached ?? 0;
        // Of several events at one moment, all have happened.
        const last = states.findLast((state) => state.reached <= moment);
        expect(moments.stateAt(moment)).toEqual(last?.live);
      };
      states.forEach((_, index) => {
        at(index);
      });
      for (const jump of jumps) at(jump % states.length);
      expect(moments.whole).toEqual(live);
    }),
    { numRuns: 60 },
  );
});

test("between kept states a long lesson is folded from the one before, forwards and back", () => {
  const hits = Array.from({ length: 9000 }, (_, index) => ({
    kind: "hit" as const,
    seq: index + 2,
    time: index / 100,
    lane: 0,
    hit: { time: index / 100, voice: "snare" as const, zone: "whole" as const, velocity: 0.5, pad: 0 },
  }));
  const [began] = LESSON;
  if (!began) throw new Error("The lesson has no beginning.");
  const moments = new Moments([began, ...hits]);
  for (const time of [80, 20.475, 20.48, 0, 40.95, 40.96, 89.99, 3])
    expect(moments.stateAt(time).hitCount).toBe(Math.floor(time * 100 + 1e-6) + 1);
});

test("a remark written later does not make the lesson longer, and is known at every moment's whole", () => {
  const long = new Moments(LESSON);
  const later = new Moments([
    ...LESSON,
    {
      kind: "remark",
      seq: LESSON.length + 1,
      time: 9000,
      lane: 0,
      remarkId: "late",
      text: "x",
      flagged: false,
      about: 3,
    },
  ]);
  expect(later.seconds).toBe(long.seconds);
  expect(later.whole.remarks.map(({ remarkId }) => remarkId)).toEqual(["late", "m1"]);
});

test("before the first event there is no lesson", () => {
  expect(new Moments([]).stateAt(5)).toEqual(NEW_LESSON);
  expect(new Moments([]).seconds).toBe(0);
});

test("counting in rising numbers takes the equal ones in", () => {
  const rising = Float64Array.from([1, 2, 2, 5]);
  expect([0, 1, 2, 4.9, 5, 9].map((most) => countUpTo(rising, most))).toEqual([0, 1, 3, 3, 4, 4]);
});
