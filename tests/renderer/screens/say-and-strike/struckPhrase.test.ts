import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { SaidStroke } from "../../../../engine/rounds/index.ts";
import { StruckPhrase, silenceMs } from "../../../../renderer/screens/say-and-strike/struckPhrase.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import { strike } from "../../../broker/joined.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

function struck(log: KitLog, time: number): void {
  log.append([{ source: "kit", live: true, event: { kind: "hit", hit: strike(time) } }]);
}

test("a silence ends it, and it is given once, from its first stroke on", () => {
  const log = new KitLog();
  struck(log, 1);
  const counts: number[] = [];
  const given: (readonly SaidStroke[])[] = [];
  new StruckPhrase(
    log,
    1000,
    (count) => counts.push(count),
    (strokes) => given.push(strokes),
  );
  vi.advanceTimersByTime(5000);
  struck(log, 20);
  vi.advanceTimersByTime(900);
  struck(log, 20.9);
  vi.advanceTimersByTime(900);
  expect(given).toEqual([]);
  vi.advanceTimersByTime(200);
  struck(log, 30);
  vi.advanceTimersByTime(5000);
  expect(counts).toEqual([1, 2]);
  expect(given.map((strokes) => strokes.map(({ time }) => Math.round(time * 10)))).toEqual([[0, 9]]);
});

test("stopped, it gives nothing", () => {
  const log = new KitLog();
  const over = vi.fn();
  const phrase = new StruckPhrase(log, 1000, () => {}, over);
  struck(log, 1);
  phrase.stop();
  vi.advanceTimersByTime(5000);
  expect(over).not.toHaveBeenCalled();
});

test("the silence that ends an answer is longer than any within its call", () => {
  const call = (times: readonly number[]) => ({
    tempoBpm: 60,
    strokes: times.map((time) => ({ time, voice: "snare" as const })),
  });
  expect(silenceMs(null)).toBe(1300);
  expect(silenceMs(call([0, 1]))).toBe(2000);
  expect(silenceMs(call([0, 4]))).toBe(5000);
});
