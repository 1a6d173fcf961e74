import { expect, test } from "vitest";
import type { Hit } from "../../../../engine/kit/index.ts";
import { byHand, struckEarlier } from "../../../../renderer/screens/wall-chart/padsStruck.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";

const hit = (time: number, pad: number): Hit => ({ time, voice: "snare", zone: "head", velocity: 0.6, pad });

test("each hand has its pad, and other pads count for neither", () => {
  expect(byHand([hit(1, 38), hit(2, 43), hit(3, 40)], { L: 38, R: 43 })).toEqual([
    { time: 1, velocity: 0.6, hand: "L" },
    { time: 2, velocity: 0.6, hand: "R" },
  ]);
  expect(byHand([hit(1, 38)], { L: null, R: null })).toEqual([]);
});

test("before the program was opened again: what was struck at the round's kit since its last step", () => {
  const log = new LessonLog();
  expect(struckEarlier(log, "round")).toEqual([]);
  log.begin({
    lessonId: "lesson",
    studentIds: [],
    lanes: [
      { studentId: null, source: "kit" },
      { studentId: null, source: "kit" },
    ],
    zone: "UTC",
  });
  const strike = (lane: number, pad: number): void => {
    log.addHits([hit(pad, pad)], lane);
  };
  const step = { round: "wall-chart", event: { kind: "hidden" } } as const;
  strike(0, 1);
  log.add({ kind: "round-step", lane: 0, roundId: "round", step });
  strike(0, 2);
  strike(1, 3);
  strike(0, 4);
  expect(struckEarlier(log, "round").map(({ pad }) => pad)).toEqual([2, 4]);
  expect(struckEarlier(log, "another")).toEqual([]);
});
