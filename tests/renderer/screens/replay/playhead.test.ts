import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  goesAlong,
  newPlayhead,
  type PlayheadEvent,
  playheadAfter,
} from "../../../../renderer/screens/replay/playhead.ts";

const done = (...events: readonly PlayheadEvent[]) => events.reduce(playheadAfter, newPlayhead(600, 100));

test("whatever is done, the cursor lies in the lesson and in what is seen, and a loop has a length", () => {
  const time = fc.double({ min: -50, max: 700, noNaN: true });
  const event: fc.Arbitrary<PlayheadEvent> = fc.oneof(
    time.map((at) => ({ kind: "put" as const, at })),
    time.map((at) => ({ kind: "reached" as const, at })),
    fc.constantFrom<PlayheadEvent>(
      { kind: "loop-from" },
      { kind: "loop-to" },
      { kind: "nearer" },
      { kind: "further" },
      { kind: "faster" },
      { kind: "slower" },
      { kind: "grew", seconds: 4100, goesOn: true },
    ),
  );
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 4000, noNaN: true }),
      fc.array(event, { maxLength: 40 }),
      (length, events) => {
        const { cursor, view, loop, rate, seconds } = events.reduce(playheadAfter, newPlayhead(length));
        expect(cursor).toBeGreaterThanOrEqual(0);
        expect(cursor).toBeLessThanOrEqual(seconds);
        expect(cursor).toBeGreaterThanOrEqual(view.from - 1e-9);
        expect(cursor).toBeLessThanOrEqual(view.to + 1e-9);
        expect(view.to - view.from).toBeGreaterThanOrEqual(0.25 - 1e-9);
        expect(rate).toBeGreaterThanOrEqual(0.25);
        expect(rate).toBeLessThanOrEqual(2);
        if (loop) expect(loop.to - loop.from).toBeGreaterThanOrEqual(0.1 - 1e-9);
      },
    ),
  );
});

describe("zooming", () => {
  test("goes to a single strike and to the whole lesson, with the cursor in the middle where there is room", () => {
    const near = done(...Array.from({ length: 20 }, () => ({ kind: "nearer" }) as const));
    expect(near.view.to - near.view.from).toBeCloseTo(0.25, 9);
    expect((near.view.from + near.view.to) / 2).toBeCloseTo(100, 9);
    const far = done(...Array.from({ length: 20 }, () => ({ kind: "further" }) as const));
    expect(far.view).toEqual({ from: 0, to: 600 });
  });
});

test("the page is turned when the cursor leaves it, and stands still within it", () => {
  const { view } = done();
  expect(done({ kind: "reached", at: view.to - 0.01 }).view).toEqual(view);
  const turned = done({ kind: "reached", at: view.to + 0.01 }).view;
  expect(turned.to - turned.from).toBeCloseTo(view.to - view.from, 9);
  expect(turned.from).toBeGreaterThan(view.from);
});

describe("a lesson that is on", () => {
  const grew = (seconds: number, goesOn = true): PlayheadEvent => ({ kind: "grew", seconds, goesOn });

  test("one who stands where it has come to goes along, and sees it", () => {
    const along = [30, 31.5, 80].map((to) => grew(to)).reduce(playheadAfter, newPlayhead(20, 20, true));
    expect(along).toMatchObject({ seconds: 80, cursor: 80 });
    expect(goesAlong(along)).toBe(true);
    expect(along.view.to).toBeGreaterThanOrEqual(80);
  });

  test("one who has gone back, or plays, stays there; the end leads along again", () => {
    const back = [{ kind: "put" as const, at: 5 }, grew(60)].reduce(playheadAfter, newPlayhead(20, 20, true));
    expect(back).toMatchObject({ seconds: 60, cursor: 5 });
    expect(goesAlong(back)).toBe(false);
    const playing = [{ kind: "played" as const }, grew(60)].reduce(playheadAfter, newPlayhead(20, 20, true));
    expect(playing).toMatchObject({ cursor: 20, isPlaying: true });
    const again = [{ kind: "put" as const, at: 60 }, grew(61)].reduce(playheadAfter, back);
    expect([again.cursor, goesAlong(again)]).toEqual([61, true]);
  });

  test("of one that had hardly begun as much is seen as of any, once it is there", () => {
    const { view } = [grew(3), grew(40)].reduce(playheadAfter, newPlayhead(0, 0, true));
    expect(view.to - view.from).toBeCloseTo(12, 9);
  });

  test("when it has ended nobody goes along any more", () => {
    expect(goesAlong(playheadAfter(newPlayhead(20, 20, true), grew(22, false)))).toBe(false);
  });
});

describe("a loop", () => {
  test("goes from bracket to bracket, whichever comes first", () => {
    const forth = done({ kind: "loop-from" }, { kind: "put", at: 104 }, { kind: "loop-to" });
    expect(forth.loop).toEqual({ from: 100, to: 104 });
    const back = done({ kind: "loop-to" }, { kind: "put", at: 96 }, { kind: "loop-from" });
    expect(back.loop).toEqual({ from: 96, to: 100 });
  });

  test("that would end before it begins ends where what is seen ends", () => {
    const { loop, view } = done(
      { kind: "loop", span: { from: 10, to: 20 } },
      { kind: "put", at: 100 },
      { kind: "loop-from" },
    );
    expect(loop).toEqual({ from: 100, to: view.to });
  });
});

test.each([
  [[{ kind: "slower" }, { kind: "slower" }, { kind: "slower" }, { kind: "slower" }], 0.25],
  [[{ kind: "faster" }], 1.25],
  [[{ kind: "rate", rate: 9 }], 2],
] as const)("speeds go step by step and no further: %j", (events, rate) => {
  expect(done(...events).rate).toBe(rate);
});
