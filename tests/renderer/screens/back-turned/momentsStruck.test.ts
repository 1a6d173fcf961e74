import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { momentsWords } from "../../../../engine/ear/index.ts";
import type { Voice } from "../../../../engine/kit/index.ts";
import { MomentsStruck } from "../../../../renderer/screens/back-turned/momentsStruck.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

/** Hears one kit; `count` moments are asked. */
function listening(count: number) {
  const log = new KitLog();
  const told: string[] = [];
  const struck = new MomentsStruck({
    asked: () => ({ count, rung: null }),
    question: (moments) => void told.push(`asked: ${momentsWords(moments)}`),
    answer: (moments) => void told.push(`answered: ${momentsWords(moments)}`),
  });
  let time = 0;
  const strike = (voice: Voice, later = 0.5): void => {
    time += later;
    log.append([
      {
        source: "kit",
        live: true,
        event: { kind: "hit", hit: { time, voice, zone: "whole", velocity: 0.7, pad: 40 } },
      },
    ]);
  };
  return { log, struck, told, strike };
}

test("a question is all that was struck until a silence, and no strike counts after it", () => {
  const { log, struck, told, strike } = listening(0);
  struck.collect("question", log);
  strike("kick");
  vi.advanceTimersByTime(1000);
  strike("ride");
  vi.advanceTimersByTime(1000);
  expect(told).toEqual([]);
  vi.advanceTimersByTime(500);
  expect(told).toEqual(["asked: kick, then ride"]);
  expect(struck.collecting.get()).toEqual({ what: null, moments: [] });
  strike("kick");
  expect(struck.collecting.get().moments).toEqual([]);
});

test("an answer is whole with as many moments as were asked; another hand may come with the last", () => {
  const { log, struck, told, strike } = listening(2);
  struck.collect("answer", log);
  strike("kick");
  vi.advanceTimersByTime(3000);
  expect(told).toEqual([]);
  strike("ride");
  strike("floor-tom", 0.02);
  vi.advanceTimersByTime(100);
  expect(told).toHaveLength(1);
  expect(told[0]).toContain("floor tom");
});

test("without a kit it is only named; what was struck before a name is no part of it", () => {
  const { log, struck, told, strike } = listening(2);
  struck.collect("answer", null);
  strike("kick");
  expect(struck.collecting.get()).toEqual({ what: "answer", moments: [] });
  struck.collect("answer", log);
  strike("kick");
  struck.name([[{ surface: "ride" }]]);
  strike("snare");
  vi.advanceTimersByTime(3000);
  expect(told).toEqual([]);
  struck.stop();
  expect(struck.collecting.get()).toEqual({ what: null, moments: [] });
});
