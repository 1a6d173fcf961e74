import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { seededChance } from "../../../engine/units/index.ts";
import { ComingStrokes } from "../../../renderer/audio/comingStrokes.ts";
import type { PlannedStroke } from "../../../renderer/audio/strokePlayer.ts";

/** The audio clock is so far ahead of the session's. */
const AHEAD = 1000;
const now = () => performance.now() / 1000;

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function stroke(time: number): PlannedStroke {
  return { time, voice: "snare", zone: "head", velocity: 0.5 };
}

function desk({ isSteady = true, isOpen = true } = {}) {
  const sounded: { readonly time: number; readonly at: number; readonly handedAt: number }[] = [];
  const silenced: number[] = [];
  const looks = new Set<() => void>();
  const coming = new ComingStrokes(now);
  const open = (): void =>
    coming.open({
      sampler: {
        strike: (struck, at) => sounded.push({ time: (struck as PlannedStroke).time, at, handedAt: now() }),
        silence: (at) => silenced.push(at),
      },
      clock: { look: () => {}, audioTimeAt: (time) => time + AHEAD, isSteady },
      context: {
        get currentTime() {
          return now() + AHEAD;
        },
      },
      wake: (look) => {
        looks.add(look);
        return () => looks.delete(look);
      },
    });
  if (isOpen) open();
  const look = (): void => {
    for (const each of looks) each();
  };
  return { coming, open, sounded, silenced, look, looks };
}

describe("strokes that become known one after another", () => {
  test("are handed to the audio clock at once where they are due soon, each for its own moment", () => {
    const { coming, sounded } = desk();
    const from = now();
    coming.add([stroke(from + 0.8), stroke(from + 0.5)]);
    expect(sounded).toEqual(
      [0.5, 0.8].map((at) => ({ time: from + at, at: from + at + AHEAD, handedAt: from })),
    );
  });

  test("a page that stands still for up to a second between two looks smears none of them", () => {
    const { coming, sounded, look } = desk();
    const chance = seededChance(9);
    const from = now();
    const due = Array.from({ length: 200 }, (_, at) => from + 1.2 + at * 0.137);
    let sent = 0;
    while (sent < due.length) {
      // Each comes 1.2 s before its moment, but the page takes it, and looks, only when it can.
      vi.advanceTimersByTime(1000 * chance());
      const known = due.slice(sent).filter((time) => time <= now() + 1.2);
      sent += known.length;
      coming.add(known.map(stroke));
      look();
    }
    expect(sounded.map(({ time }) => time)).toEqual(due);
    expect(Math.max(...sounded.map(({ time, at }) => Math.abs(at - time - AHEAD)))).toBeLessThan(1e-9);
    // Ahead, all of them: a page's own timer would have sounded each at the next moment it had.
    expect(Math.min(...sounded.map(({ time, handedAt }) => time - handedAt))).toBeGreaterThan(0.15);
  });

  test("no further ahead than need be while the clocks are not joined well yet", () => {
    const { coming, sounded, look } = desk({ isSteady: false });
    const from = now();
    coming.add([stroke(from + 0.2), stroke(from + 1)]);
    expect(sounded.length).toBe(1);
    vi.advanceTimersByTime(600);
    look();
    expect(sounded.length).toBe(1);
    vi.advanceTimersByTime(150);
    look();
    expect(sounded.at(-1)).toMatchObject({ at: from + 1 + AHEAD, handedAt: from + 0.75 });
  });

  test("that come a little late, as within one room, sound at once; a lost one that comes again is left out", () => {
    const { coming, sounded } = desk();
    const from = now();
    coming.add([stroke(from - 0.06), stroke(from - 0.5)]);
    expect(sounded.map(({ time }) => time)).toEqual([from - 0.06]);
  });

  test("wait until the device is open", () => {
    const { coming, open, sounded } = desk({ isOpen: false });
    const from = now();
    coming.add([stroke(from + 0.3), stroke(from + 0.6)]);
    vi.advanceTimersByTime(450);
    open();
    expect(sounded.map(({ time }) => time)).toEqual([from + 0.6]);
  });

  test("are silenced when the room is left, before the device is open as well", () => {
    const { coming, silenced, sounded, looks } = desk();
    coming.add([stroke(now() + 5)]);
    coming.stop();
    expect(silenced).toEqual([now() + AHEAD]);
    expect(looks.size).toBe(0);
    coming.add([stroke(now() + 0.1)]);
    expect(sounded).toEqual([]);
    const early = desk({ isOpen: false });
    early.coming.stop();
    early.open();
    expect(early.looks.size).toBe(0);
  });
});
