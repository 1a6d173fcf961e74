import { expect, test } from "vitest";
import { grooveById } from "../../../../engine/catalogue/index.ts";
import { grooveTarget } from "../../../../engine/grading/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import { barSeconds, besideGroove } from "../../../../engine/rounds/index.ts";
import type { Groove } from "../../../../engine/score/index.ts";
import type { Seconds } from "../../../../engine/units/index.ts";
import { strike } from "../../grading/takes.ts";

const TEMPO_BPM = 100;

function groove(id: string): Groove {
  const found = grooveById(id);
  if (!found) throw new Error(`There is no groove called ${id}.`);
  return found;
}

/** Whole bars as written, every stroke `late` seconds behind. */
function played(id: string, bars: number, late: Seconds): readonly Hit[] {
  return grooveTarget(groove(id), { tempoBpm: TEMPO_BPM, bars }).notes.map(({ time, voice }) =>
    strike(time + late, voice),
  );
}

const beside = (hits: readonly Hit[], id: string, click: "click" | "no click") =>
  besideGroove(hits, groove(id), {
    tempoBpm: TEMPO_BPM,
    click: click === "click" ? { tempoBpm: TEMPO_BPM, from: 0 } : null,
  });

test.each([
  { id: "rock-sixteenths", lateMs: 50 },
  { id: "rock-sixteenths", lateMs: -20 },
  { id: "samba", lateMs: 40 },
  { id: "swing", lateMs: 50 },
  { id: "jazz-waltz", lateMs: 0 },
])("$id, four bars $lateMs ms behind the click: no fifth bar is left out", ({ id, lateMs }) => {
  const report = beside(played(id, 4, lateMs / 1000), id, "click");
  expect(report.missed).toEqual([]);
  expect(report.hits.every(({ state }) => state === "matched")).toBe(true);
  expect(report.leanMs).toBeCloseTo(lateMs, 6);
});

test.each([-25, 0, 25])("a stroke on the one, %s ms behind, closes the take", (lateMs) => {
  const bars = played("rock-eighths", 4, 0);
  const close = strike(4 * barSeconds(groove("rock-eighths"), TEMPO_BPM) + lateMs / 1000, "kick");
  const { hits, missed } = beside([...bars, close], "rock-eighths", "click");
  expect(hits.at(-1)).toMatchObject({ state: "matched", targetVoice: "kick" });
  // Whatever else is written on that one is missed; the rest of its bar is not.
  expect(missed.map(({ voice }) => voice)).toEqual(["hi-hat-closed"]);
});

test("a bar begun and broken off is left out to its end", () => {
  const bars = played("rock-eighths", 4, 0);
  const { missed } = beside(bars.slice(0, -3), "rock-eighths", "click");
  expect(missed.length).toBe(3);
});

test.each(["rock-eighths", "swing", "half-time-shuffle-2"])(
  "%s without a click, begun in the middle of the groove: all of it is found",
  (id) => {
    const beat = 60 / TEMPO_BPM;
    for (const from of [1.9, 2.9, 4.9, 5.9]) {
      const hits = played(id, 12, 0).filter(({ time }) => time > from * beat);
      const { hits: judged, missed } = beside(hits, id, "no click");
      expect(
        judged.filter(({ state }) => state !== "matched"),
        `from ${from}`,
      ).toEqual([]);
      expect(missed).toEqual([]);
    }
  },
);
