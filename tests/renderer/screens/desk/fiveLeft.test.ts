import { describe, expect, test } from "vitest";
import type { Deal } from "../../../../engine/memory/index.ts";
import { FiveLeft, minutesLeft } from "../../../../renderer/screens/desk/fiveLeft.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";
import { TestClock } from "../../session/lessonPlace.ts";

const DEAL: Deal = {
  of: "due",
  minutes: 5,
  rounds: [
    {
      round: "call-a-style",
      minutes: 2,
      items: [{ item: "style:samba", why: "chance it is gone: one in two" }],
    },
    { round: "back-turned", minutes: 3, items: [{ item: "sound:floor-tom", why: "new" }] },
  ],
};

/** A lesson that is on; what Five Left does, in order; time that goes by in steps of half a second. */
function started(deal = DEAL) {
  const clock = new TestClock();
  const log = new LessonLog(clock);
  log.begin({
    lessonId: "l",
    studentIds: ["bram"],
    lanes: [{ studentId: "bram", source: "kit" }],
    zone: "UTC",
  });
  let look: (() => void) | undefined;
  const fiveLeft = new FiveLeft(log, (each) => {
    look = each;
    return () => {
      look = undefined;
    };
  });
  const done: string[] = [];
  const playing = { isTaking: false };
  fiveLeft.begin(deal, {
    begin: ({ round }) => done.push(`begin ${round}`),
    end: ({ round }) => done.push(`end ${round}`),
    isTaking: () => playing.isTaking,
    over: () => done.push("over"),
  });
  const pass = (seconds: number): void => {
    for (let half = 0; half < 2 * seconds; half += 1) {
      clock.pass(0.5);
      look?.();
    }
  };
  return { fiveLeft, done, pass, playing, log, isLooking: () => look !== undefined };
}

describe("Five Left", () => {
  test("each round has its minutes, and it ends on time", () => {
    const { done, pass, fiveLeft, isLooking } = started();
    expect(done).toEqual(["begin call-a-style"]);
    pass(119);
    expect(done).toHaveLength(1);
    pass(1);
    expect(done).toEqual(["begin call-a-style", "end call-a-style", "begin back-turned"]);
    pass(179);
    expect(done).toHaveLength(3);
    pass(1);
    expect(done.slice(3)).toEqual(["end back-turned", "over"]);
    expect(fiveLeft.get()).toEqual({ stage: "over", deal: DEAL });
    expect(isLooking()).toBe(false);
  });

  test("a take goes on into the next round's minutes, and not past the end", () => {
    const { done, pass, playing } = started();
    playing.isTaking = true;
    pass(200);
    expect(done).toEqual(["begin call-a-style"]);
    playing.isTaking = false;
    pass(1);
    expect(done.at(-1)).toBe("begin back-turned");
    playing.isTaking = true;
    pass(99);
    expect(done.slice(-2)).toEqual(["end back-turned", "over"]);
  });

  test("a take that never ends is ended on time", () => {
    const { done, pass, playing } = started();
    playing.isTaking = true;
    pass(300);
    expect(done).toEqual(["begin call-a-style", "end call-a-style", "over"]);
  });

  test("the teacher goes on before the time, and it is over sooner", () => {
    const { fiveLeft, done, pass } = started();
    pass(30);
    fiveLeft.next();
    expect(fiveLeft.get()).toMatchObject({ stage: "on", at: 1, roundEnds: 210, ends: 300 });
    fiveLeft.next();
    expect(done.slice(-2)).toEqual(["end back-turned", "over"]);
    fiveLeft.next();
    expect(done).toHaveLength(5);
  });

  test("the end of the lesson ends it; without a lesson, and without a round, nothing begins", () => {
    const { fiveLeft, done, pass, log, isLooking } = started();
    log.end();
    expect(fiveLeft.get()).toEqual({ stage: "none" });
    expect(isLooking()).toBe(false);
    pass(400);
    expect(done).toEqual(["begin call-a-style"]);
    fiveLeft.begin(DEAL, {
      begin: () => done.push("again"),
      end: () => {},
      isTaking: () => false,
      over: () => {},
    });
    expect(done).toHaveLength(1);
    expect(started({ of: "due", rounds: [], minutes: 0 }).fiveLeft.get()).toEqual({ stage: "none" });
  });
});

const at = (hours: number, minutes: number, seconds = 0): number => hours * 3600 + minutes * 60 + seconds;

test.each([
  ["a lesson without an end", undefined, at(15, 0), 5],
  ["long before it", at(15, 45), at(15, 20), 5],
  ["three and a half minutes before it", at(15, 45), at(15, 41, 30), 3],
  ["just before it", at(15, 45), at(15, 44, 30), 2],
  ["over midnight", at(0, 2), at(23, 58), 4],
  ["past it", at(15, 45), at(15, 50), 5],
])("minutes left: %s", (_, endsAt, now, minutes) => {
  expect(minutesLeft(endsAt, now)).toBe(minutes);
});
