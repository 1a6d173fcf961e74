import { describe, expect, test } from "vitest";
import { demonstrate, grooveById } from "../../../engine/catalogue/index.ts";
import { type GradeOptions, gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { type Groove, parseGrid } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { writtenMarks } from "../../../renderer/charts/ringGeometry.ts";
import {
  foldedMarks,
  MOST_STRAYS,
  marksByPulse,
  strayMarks,
} from "../../../renderer/screens/call-a-style/report/foldedMarks.ts";

const TEMPO_BPM = 100;
const BAND_MS = 30;

function strike(time: number, voice: Voice): Hit {
  return { time, voice, zone: "whole", velocity: 0.63, pad: 38 };
}

function catalogued(id: string): Groove {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The catalogue has no groove "${id}".`);
  return groove;
}

function played(
  groove: Groove,
  how: { bars: number; leanMs: number; spreadMs: number; from?: number },
): Hit[] {
  const from = how.from ?? 0;
  return demonstrate(groove, {
    tempoBpm: TEMPO_BPM,
    leftOut: 0,
    added: 0,
    chance: seededChance(3),
    ...how,
  }).map(({ time, voice }) => strike(time + from, voice));
}

function marksOf(
  groove: Groove,
  hits: readonly Hit[],
  bars: number,
  start: GradeOptions["start"] = "shared",
) {
  const report = gradeTake(hits, grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars }), { start });
  return foldedMarks(report, groove, BAND_MS);
}

/** Apart on the circle, the short way. */
function apart(a: number, b: number): number {
  const turns = Math.abs(a - b) % 1;
  return Math.min(turns, 1 - turns);
}

describe.each(["rock-eighths", "shuffle", "bossa-nova", "jazz-waltz", "merengue"])(
  "%s, exactly as written",
  (id) => {
    const groove = catalogued(id);
    const bars = 8;

    test.each(["shared", "free"] as const)(
      "every tick stands on a written circle of its voice (%s start)",
      (start) => {
        const hits = played(groove, { bars, leanMs: 0, spreadMs: 0, from: start === "free" ? 3.7 : 0 });
        const marks = marksOf(groove, hits, bars, start);
        expect(marks).toHaveLength(hits.length);
        expect(marks.filter(({ differs }) => differs)).toEqual([]);
        const written = writtenMarks(groove);
        for (const mark of marks) {
          const nearest = Math.min(
            ...written
              .filter(({ voice }) => voice === mark.voice)
              .map(({ place }) => apart(place, mark.place)),
          );
          expect(nearest).toBeLessThan(1e-3);
        }
      },
    );
  },
);

test("a constant lean turns all ticks by its share of the bar, and none differs", () => {
  const groove = catalogued("rock-eighths");
  const marks = marksOf(groove, played(groove, { bars: 4, leanMs: 24, spreadMs: 0 }), 4);
  // 24 ms of a bar of 2.4 seconds is a hundredth of the circle.
  const turns = marks.map(({ place }) => (place * 8 - Math.round(place * 8)) / 8);
  expect(turns).toHaveLength(4 * groove.notes.length);
  for (const turn of turns) expect(turn).toBeCloseTo(0.01, 6);
  expect(marks.some(({ differs }) => differs)).toBe(false);
});

describe("what differs", () => {
  const groove = catalogued("rock-eighths");
  const exact = played(groove, { bars: 4, leanMs: 0, spreadMs: 0 });
  const change = (from: Voice, nth: number, changed: (hit: Hit) => Hit): readonly Hit[] => {
    let seen = 0;
    return exact.map((hit) => {
      if (hit.voice !== from) return hit;
      seen += 1;
      return seen === nth ? changed(hit) : hit;
    });
  };
  const differing = (hits: readonly Hit[]) => marksOf(groove, hits, 4).filter(({ differs }) => differs);

  test("a stroke outside the band, at its own angle", () => {
    const late = differing(change("snare", 3, (hit) => ({ ...hit, time: hit.time + 0.06 })));
    expect(late).toHaveLength(1);
    expect(late[0]?.voice).toBe("snare");
    expect(late[0]?.place).toBeCloseTo(0.25 + 0.06 / 2.4, 3);
  });

  test("another sound, on the ring it was written for", () => {
    const moved = differing(change("snare", 3, (hit) => ({ ...hit, voice: "cross-stick" })));
    expect(moved).toHaveLength(1);
    expect(moved[0]).toMatchObject({ voice: "snare" });
  });

  test("an added stroke, where it was struck", () => {
    // Bar 3 begins at 4.8 seconds; three beats and a half later.
    const hits = [...exact, strike(4.8 + 3.5 * 0.6, "cowbell")].sort((a, b) => a.time - b.time);
    const added = differing(hits);
    expect(added).toHaveLength(1);
    expect(added[0]?.voice).toBe("cowbell");
    expect(added[0]?.place).toBeCloseTo(3.5 / 4, 6);
  });
});

test("strokes of a bar that was played twice are told as a slip of the form, and not drawn", () => {
  const groove = catalogued("rock-eighths");
  const target = grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars: 2 });
  const hits = played(groove, { bars: 2, leanMs: 0, spreadMs: 0 });
  const report = gradeTake(hits, target, { start: "shared" });
  const struck = strike(1.1, "cowbell");
  const drawnWith = (extra: { readonly surplus?: true }) =>
    foldedMarks(
      { ...report, hits: [...report.hits, { state: "extra", hit: struck, ...extra }] },
      groove,
      BAND_MS,
    );
  expect(drawnWith({}).length).toBe(hits.length + 1);
  expect(drawnWith({ surplus: true }).length).toBe(hits.length);
});

describe("strays, drawn one by one beside the means", () => {
  const groove = catalogued("rock-eighths");
  const reportOf = (bars: number, lateMs: number) => {
    // Every third stroke late, and one added.
    const hits = played(groove, { bars, leanMs: 0, spreadMs: 0 }).map((hit, index) =>
      index % 3 === 0 ? { ...hit, time: hit.time + lateMs / 1000 } : hit,
    );
    const withAdded = [...hits, strike(1.1, "cowbell")].sort((a, b) => a.time - b.time);
    const target = grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars });
    return gradeTake(withAdded, target, { start: "shared" });
  };

  test("of a short take, all that differ and nothing else", () => {
    const strays = strayMarks(reportOf(2, 58), groove, BAND_MS);
    expect(strays.length).toBeGreaterThan(5);
    expect(strays.every(({ differs }) => differs)).toBe(true);
  });

  test("of a long take whose strokes often leave the band, only what was added or sounded otherwise", () => {
    const report = reportOf(40, 58);
    const outside = foldedMarks(report, groove, BAND_MS).filter(({ differs }) => differs);
    expect(outside.length).toBeGreaterThan(MOST_STRAYS);
    expect(strayMarks(report, groove, BAND_MS).map(({ voice }) => voice)).toEqual(["cowbell"]);
  });
});

test("an early first beat is drawn before the top, not at the end of another bar's ring", () => {
  const groove = parseGrid(
    "groove: four\nname: Four\nmetre: 4/4\nfeel: straight\ntempo: 80-120\n\nkick | x... .... | x... x... | x.x. .... | x... .... |",
  );
  // Early by 40 ms: the first stroke of the second bar, and the first of the second round.
  const hits = played(groove, { bars: 8, leanMs: 0, spreadMs: 0 }).map((hit, index) =>
    index === 1 || index === 6 ? { ...hit, time: hit.time - 0.04 } : hit,
  );
  const places = marksOf(groove, hits, 8).map(({ place }) => place);
  // The ring is the first of four bars: its one stroke, in both rounds.
  expect(places).toHaveLength(2);
  expect(places[0]).toBeCloseTo(0, 9);
  expect(places[1]).toBeCloseTo(-0.04 / 2.4, 9);
});

test("nothing matched, nothing drawn", () => {
  const groove = catalogued("rock-eighths");
  expect(marksOf(groove, [], 4)).toEqual([]);
});

test("free playing is laid over itself by the bars that were heard", () => {
  const beats = Array.from({ length: 9 }, (_, beat) => 10 + beat * 0.5);
  const pulse = {
    tempoBpm: 120,
    metre: { numerator: 3, denominator: 4 },
    beats,
    downbeats: beats.filter((_, beat) => beat % 3 === 1),
    confidence: 0.9,
  };
  const marks = marksByPulse(
    [strike(10, "kick"), strike(10.5, "kick"), strike(11.25, "snare"), strike(14.5, "ride")],
    pulse,
  );
  expect(marks.map(({ voice }) => voice)).toEqual(["kick", "kick", "snare", "ride"]);
  const places = marks.map(({ place }) => place);
  expect(places[0]).toBeCloseTo(-1 / 3, 9);
  expect(places[1]).toBeCloseTo(0, 9);
  expect(places[2]).toBeCloseTo(1.5 / 3, 9);
  expect(places[3]).toBeCloseTo(8 / 3, 9);
});
