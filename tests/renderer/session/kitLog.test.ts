import { expect, test, vi } from "vitest";
import type { KitEvent, Voice } from "../../../engine/kit/index.ts";
import { KitLog, type LogEntry } from "../../../renderer/session/kitLog.ts";

function entry(event: KitEvent): LogEntry {
  return { source: "kit", live: true, event };
}

function hit(voice: Voice, time: number): LogEntry {
  return entry({ kind: "hit", hit: { time, voice, zone: "whole", velocity: 0.5, pad: 38 } });
}

function retrigger(time: number): LogEntry {
  return entry({ kind: "retrigger", hit: { time, voice: "snare", zone: "whole", velocity: 0.1, pad: 38 } });
}

test("ten thousand strikes at once are one change", () => {
  const log = new KitLog();
  const listener = vi.fn();
  log.subscribe(listener);
  log.append(Array.from({ length: 10_000 }, (_, index) => hit("snare", index / 10)));
  expect(log.get()).toBe(10_000);
  expect(listener).toHaveBeenCalledTimes(1);
});

test("no strikes are no change", () => {
  const log = new KitLog();
  const listener = vi.fn();
  log.subscribe(listener);
  log.append([]);
  expect(listener).not.toHaveBeenCalled();
});

test("the hits since an entry leave out double triggers and what came before", () => {
  const log = new KitLog();
  log.append([hit("kick", 1), hit("snare", 2), retrigger(2.005), hit("ride", 3)]);
  expect(log.hitsSince(1).map(({ voice }) => voice)).toEqual(["snare", "ride"]);
  expect(log.retriggers).toBe(1);
});

test("a file that was read at once is told from what was played", () => {
  const log = new KitLog();
  log.append([{ ...hit("kick", 1), live: false }, hit("snare", 2)]);
  expect(log.isLiveSince(0)).toBe(false);
  expect(log.isLiveSince(1)).toBe(true);
});

test("the latest strike of each voice is known with its place", () => {
  const log = new KitLog();
  log.append([hit("kick", 1), hit("snare", 2), hit("kick", 3)]);
  expect(log.latestOfVoice.get("kick")).toMatchObject({ index: 2, hit: { time: 3 } });
  expect(log.latestOfVoice.get("snare")).toMatchObject({ index: 1 });
});

test("the latest entries come newest first, of the kinds asked for only", () => {
  const log = new KitLog();
  log.append([hit("kick", 1), entry({ kind: "hi-hat", time: 2, openness: 0.5 }), hit("snare", 3)]);
  expect(log.latest(5, new Set(["hit"])).map(({ index }) => index)).toEqual([2, 0]);
  expect(log.latest(1, new Set(["hit"]))).toHaveLength(1);
  expect(log.openness).toBe(0.5);
});

test("who hears is told of true strikes from then on, until they stop", () => {
  const log = new KitLog();
  log.append([hit("kick", 1)]);
  const heard: (readonly Voice[])[] = [];
  const stop = log.hear((fresh) => heard.push(fresh.map(({ voice }) => voice)));
  log.append([hit("snare", 2), retrigger(2.005), hit("ride", 3)]);
  log.append([entry({ kind: "hi-hat", time: 4, openness: 1 })]);
  log.append([hit("kick", 5)]);
  stop();
  log.append([hit("snare", 6)]);
  expect(heard).toEqual([["snare", "ride"], ["kick"]]);
});
