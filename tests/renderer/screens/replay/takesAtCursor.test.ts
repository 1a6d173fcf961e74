import { describe, expect, test } from "vitest";
import type { SessionEvent } from "../../../../engine/session/index.ts";
import { Moments } from "../../../../renderer/screens/replay/moments.ts";
import type { OpenLesson } from "../../../../renderer/screens/replay/replayDesk.ts";
import { LEAD_IN, takesOf } from "../../../../renderer/screens/replay/takesOfLesson.ts";
import { laneOfFirst } from "../../../../renderer/screens/replay/useTakesAtCursor.ts";
import { playedLesson, playedOnTwoKits } from "./playedLesson.ts";

const AT = "2026-03-02T15:30:00.000Z";
const FIRST = { takes: [{ styleId: "rock-eighths", seed: 1, bars: 4 }] };
const SECOND = {
  studentId: "noor",
  takes: [
    { styleId: "samba", seed: 2, bars: 8 },
    { styleId: "samba", seed: 3, bars: 4 },
  ],
};

function opened(events: readonly SessionEvent[]): OpenLesson {
  return { moments: new Moments(events) } as OpenLesson;
}

describe("the kit that is looked at first, of two that were played", () => {
  const lesson = opened(playedOnTwoKits(AT, FIRST, SECOND));
  const takes = takesOf(lesson.moments.whole);
  const onFirst = takes.find(({ lane }) => lane === 0);
  const onSecond = takes.filter(({ lane }) => lane === 1);
  const endOf = (take: (typeof takes)[number] | undefined): number => take?.to ?? Number.NaN;

  test("is the first where a take goes on at both, and where the lesson is opened at its beginning", () => {
    expect(laneOfFirst(lesson, onFirst?.from ?? Number.NaN)).toBe(0);
    expect(laneOfFirst(lesson, null)).toBe(0);
  });

  test("is the one at which a take still goes on", () => {
    expect(endOf(onFirst)).toBeLessThan(endOf(onSecond[0]));
    expect(laneOfFirst(lesson, (endOf(onFirst) + endOf(onSecond[0])) / 2)).toBe(1);
  });

  test("is the one of the take on whose threshold the cursor stands", () => {
    const from = onSecond[1]?.from ?? Number.NaN;
    expect(laneOfFirst(lesson, from - LEAD_IN)).toBe(1);
  });

  test("is the one of the last take where none goes on", () => {
    expect(laneOfFirst(lesson, endOf(onSecond[1]) + 10)).toBe(1);
  });
});

test("a lesson in which nothing was played is looked at at its first kit", () => {
  expect(laneOfFirst(opened(playedLesson({ at: AT, takes: [] })), 3)).toBe(0);
});
