import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Planned } from "../../../../renderer/audio/strokePlayer.ts";
import {
  placeAfter,
  plannedStrokes,
  ReplayPlayer,
} from "../../../../renderer/screens/replay/replayPlayer.ts";
import { strikesOf } from "../../../../renderer/screens/replay/strikes.ts";
import { LESSON } from "./playedLesson.ts";

const strikes = strikesOf(LESSON);
const SECONDS = LESSON.at(-1)?.time ?? 0;

/** A sound that notes what it is given, and a clock and frames that are turned by hand. */
function stage() {
  const played: { readonly strokes: readonly Planned[]; readonly loopSeconds: number | undefined }[] = [];
  let now = 50;
  let stopped = 0;
  let frame: (() => void) | undefined;
  const sound = {
    playStrokes: (strokes: readonly Planned[], { loopSeconds }: { readonly loopSeconds?: number } = {}) => {
      played.push({ strokes, loopSeconds });
      return {
        from: now + 0.4,
        stop: () => {
          stopped += 1;
        },
      };
    },
  };
  const player = new ReplayPlayer(
    sound,
    strikes,
    { seconds: SECONDS, cursor: 4 },
    {
      now: () => now,
      nextFrame: (draw) => {
        frame = draw;
        return () => {
          frame = undefined;
        };
      },
    },
  );
  const pass = (seconds: number): void => {
    now += seconds;
    const draw = frame;
    frame = undefined;
    draw?.();
  };
  return { player, played, pass, stopped: () => stopped, isDrawing: () => frame !== undefined };
}

describe("what is planned", () => {
  test("keeps voice, zone and strength at every speed, so that nothing changes its pitch", () => {
    const [whole, slow] = [1, 0.25].map((rate) => plannedStrokes(strikes, { cursor: 0, rate, loop: null }));
    expect(slow?.length).toBe(strikes.hits.length);
    slow?.forEach((stroke, index) => {
      const { time, ...sound } = stroke;
      const { time: asPlayed, ...soundAsPlayed } = whole?.[index] ?? { time: 0 };
      expect(sound).toEqual(soundAsPlayed);
      expect(sound).not.toHaveProperty("key");
      expect(time).toBeCloseTo(asPlayed * 4, 9);
    });
  });

  test("of a loop is each of its strikes once a round, wherever it is begun", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0.1, max: 15, noNaN: true }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (from, length, share) => {
          const loop = { from, to: from + length };
          const cursor = from + share * length;
          const planned = plannedStrokes(strikes, { cursor, rate: 0.5, loop });
          const inside = strikes.hits.filter(({ time }) => time >= loop.from && time < loop.to);
          expect(planned.length).toBe(inside.length);
          for (const { time } of planned) {
            expect(time).toBeGreaterThanOrEqual(-1e-6);
            expect(time).toBeLessThanOrEqual(length / 0.5 + 1e-6);
            const place = placeAfter({ cursor, loop }, time * 0.5);
            expect(
              inside.some(
                (hit) => Math.abs(hit.time - place) < 1e-6 || Math.abs(hit.time - place) > length - 1e-6,
              ),
            ).toBe(true);
          }
        },
      ),
    );
  });
});

describe("playing", () => {
  test("the cursor follows what is heard, at its speed, and waits while the sound is on its way", () => {
    const { player, pass } = stage();
    player.do({ kind: "rate", rate: 0.5 });
    player.toggle();
    pass(0.2);
    expect(player.get().cursor).toBe(4);
    pass(1.2);
    expect(player.get().cursor).toBeCloseTo(4.5, 9);
    player.toggle();
    expect(player.get()).toMatchObject({ isPlaying: false });
    pass(5);
    expect(player.get().cursor).toBeCloseTo(4.5, 9);
  });

  test("it stops at the end by itself, and begins anew from there", () => {
    const { player, pass, stopped, isDrawing } = stage();
    player.do({ kind: "put", at: SECONDS - 1 });
    player.play();
    pass(2);
    expect(player.get()).toMatchObject({ isPlaying: false, cursor: SECONDS });
    expect([stopped(), isDrawing()]).toEqual([1, false]);
    player.play();
    expect(player.get().cursor).toBe(0);
  });

  test("what is moved, looped or sped up while it plays is heard from there on", () => {
    const { player, played, stopped } = stage();
    player.play();
    player.do({ kind: "put", at: 10 });
    player.do({ kind: "faster" });
    player.do({ kind: "nearer" });
    expect([played.length, stopped()]).toEqual([3, 2]);
    player.do({ kind: "loop", span: { from: 9, to: 12 } });
    expect(played.at(-1)?.loopSeconds).toBeCloseTo(3 / 1.25, 9);
  });

  test("a loop goes round; one who goes out of it leaves it", () => {
    const { player, pass, played } = stage();
    player.do({ kind: "loop", span: { from: 5, to: 7 } });
    player.play();
    expect(player.get().cursor).toBe(5);
    pass(0.4 + 4.5);
    expect(player.get().cursor).toBeCloseTo(5.5, 9);
    player.do({ kind: "put", at: 20 });
    expect(player.get()).toMatchObject({ loop: null, cursor: 20, isPlaying: true });
    expect(played.at(-1)?.loopSeconds).toBeUndefined();
  });

  test("strikes that come while it plays do not disturb it, and are heard when it has come to them", () => {
    const { player, played, pass, stopped } = stage();
    player.do({ kind: "put", at: SECONDS - 1 });
    player.play();
    const first = strikes.hits[0];
    if (!first) throw new Error("The lesson has no strike.");
    const later = [...LESSON.filter(({ kind }) => kind !== "lesson-ended")];
    const hit = { ...first, time: SECONDS + 2 };
    later.push({ kind: "hit", seq: LESSON.length + 1, time: hit.time, lane: 0, hit });
    player.listenTo(strikesOf(later));
    player.do({ kind: "grew", seconds: SECONDS + 3, goesOn: true });
    expect([played.length, stopped()]).toEqual([1, 0]);
    // The sound is four tenths of a second on its way.
    pass(1.5);
    expect(player.get()).toMatchObject({ isPlaying: true });
    expect(player.get().cursor).toBeCloseTo(SECONDS + 0.1, 9);
    expect(played.at(-1)?.strokes.map(({ time }) => time)).toEqual([expect.closeTo(1.9, 9)]);
    // Other strikes, those of one kit, are heard at once.
    player.listenTo(strikesOf([]), "kit 2");
    expect(played.at(-1)?.strokes).toEqual([]);
  });
});
