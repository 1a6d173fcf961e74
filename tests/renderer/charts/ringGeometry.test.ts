import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { VOICES, type Voice } from "../../../engine/kit/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import {
  angleOf,
  arcPath,
  foldedPlace,
  inRingOrder,
  pointAt,
  RING_SIZE,
  ringLayout,
  ringOf,
  ringSpan,
  ringsFor,
  writtenMarks,
} from "../../../renderer/charts/ringGeometry.ts";

const TWO_PI = 2 * Math.PI;

/** One bar, or two, of one voice. */
function timeline(steps: string, bars = 1, feel = "straight") {
  const length = steps.length / bars;
  const cells = Array.from({ length: bars }, (_, bar) => steps.slice(bar * length, (bar + 1) * length)).join(
    " | ",
  );
  return parseGrid(
    `groove: line\nname: Line\nmetre: 4/4\nfeel: ${feel}\ntempo: 80-120\n\nclave | ${cells} |`,
  );
}

describe("places of timelines", () => {
  // Toussaint, BRIDGES 2002: onsets of sixteen.
  test.each([
    { name: "son", steps: "x..x..x...x.x...", onsets: [0, 3, 6, 10, 12] },
    { name: "bossa nova", steps: "x..x..x...x..x..", onsets: [0, 3, 6, 10, 13] },
    { name: "rumba", steps: "x..x...x..x.x...", onsets: [0, 3, 7, 10, 12] },
    { name: "gahu", steps: "x..x..x...x...x.", onsets: [0, 3, 6, 10, 14] },
  ])("$name: the onsets stand at their sixteenths of the circle", ({ steps, onsets }) => {
    const marks = writtenMarks(timeline(steps));
    expect(marks.map(({ place }) => place * 16)).toEqual(onsets);
    for (const [index, { place }] of marks.entries()) {
      expect(angleOf(place)).toBeCloseTo(((onsets[index] ?? Number.NaN) * TWO_PI) / 16, 12);
    }
  });

  test("the same timeline written over two bars of eighths goes round once in two bars", () => {
    const groove = timeline("x..x..x...x.x...", 2);
    expect(ringSpan(groove)).toEqual({ bars: 2, beats: 8 });
    expect(writtenMarks(groove).map(({ place }) => place * 16)).toEqual([0, 3, 6, 10, 12]);
  });

  test("of four bars the ring shows the first", () => {
    const groove = timeline("x.x.x...x...x...", 4);
    expect(ringSpan(groove)).toEqual({ bars: 1, beats: 4 });
    expect(writtenMarks(groove).map(({ place }) => place)).toEqual([0, 0.5]);
  });

  test("swung strokes stand where they are played: 2 : 1 puts the second eighth at two thirds of the beat", () => {
    const places = writtenMarks(timeline("xxxxxxxx", 1, "swung 2 eighths")).map(({ place }) => place * 4);
    expect(places[1]).toBeCloseTo(2 / 3, 12);
    expect(places[2]).toBe(1);
    expect(places[7]).toBeCloseTo(3 + 2 / 3, 12);
  });
});

describe("from place to point", () => {
  const middle = RING_SIZE / 2;

  test.each([
    { place: 0, x: middle, y: middle - 100, where: "the top" },
    { place: 0.25, x: middle + 100, y: middle, where: "the right" },
    { place: 0.5, x: middle, y: middle + 100, where: "the bottom" },
    { place: 0.75, x: middle - 100, y: middle, where: "the left" },
  ])("$place of the ring is $where: clockwise from beat 1", ({ place, x, y }) => {
    const point = pointAt(place, 100);
    expect(point.x).toBeCloseTo(x, 9);
    expect(point.y).toBeCloseTo(y, 9);
  });

  test("every point lies on its ring, and later is further clockwise", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.98, noNaN: true }),
        fc.double({ min: 1, max: 140, noNaN: true }),
        (place, radius) => {
          const { x, y } = pointAt(place, radius);
          expect(Math.hypot(x - middle, y - middle)).toBeCloseTo(radius, 6);
          expect(angleOf(place + 0.01)).toBeGreaterThan(angleOf(place));
        },
      ),
    );
  });

  test("whole turns change nothing, and a folded place stays below one", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.integer({ min: -5, max: 5 }),
        (place, turns) => {
          const folded = foldedPlace(place + turns);
          expect(folded).toBeGreaterThanOrEqual(0);
          expect(folded).toBeLessThan(1);
          const apart = Math.abs(folded - foldedPlace(place));
          expect(Math.min(apart, 1 - apart)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  test("a stroke just before beat 1 is drawn just left of the top", () => {
    expect(pointAt(-0.01, 100).x).toBeLessThan(middle);
    expect(pointAt(-0.01, 100).y).toBeLessThan(middle - 99);
  });
});

describe("arcs", () => {
  const ends = (path: string): readonly number[] => (path.match(/-?[\d.]+(e-\d+)?/g) ?? []).map(Number);

  test("an arc begins and ends at its places, clockwise", () => {
    const [x1, y1, , , , large, clockwise, x2, y2] = ends(arcPath({ from: 0, to: 0.25, radius: 100 }));
    for (const [actual, expected] of [
      [x1, 150],
      [y1, 50],
      [x2, 250],
      [y2, 150],
    ]) {
      expect(actual).toBeCloseTo(expected ?? Number.NaN, 9);
    }
    expect([large, clockwise]).toEqual([0, 1]);
  });

  test("it goes over the top, takes the long way where it is long, and never more than round", () => {
    const [x1, , , , , , , x2] = ends(arcPath({ from: -0.01, to: 0.01, radius: 100 }));
    expect((x1 ?? 0) + (x2 ?? 0)).toBeCloseTo(300, 9);
    expect(x1).toBeLessThan(x2 ?? 0);
    expect(ends(arcPath({ from: 0, to: 0.6, radius: 100 }))[5]).toBe(1);
    expect(arcPath({ from: 0, to: 3, radius: 100 })).toBe(arcPath({ from: 0, to: 0.9999, radius: 100 }));
  });
});

describe("rings", () => {
  test("hands outside, kick inside, whatever the order they are written in", () => {
    const scrambled: readonly Voice[] = [
      "kick",
      "snare",
      "hi-hat-pedal",
      "floor-tom",
      "ride",
      "hi-hat-closed",
      "high-tom",
    ];
    expect(inRingOrder(scrambled)).toEqual([
      "ride",
      "hi-hat-closed",
      "high-tom",
      "floor-tom",
      "snare",
      "hi-hat-pedal",
      "kick",
    ]);
  });

  test("a voice that could be meant for a written one is drawn on its ring, another gets its own", () => {
    const written: readonly Voice[] = ["hi-hat-closed", "snare", "kick"];
    expect(ringOf("cross-stick", written)).toBe("snare");
    expect(ringOf("cowbell", written)).toBeUndefined();
    expect(ringsFor(written, ["cross-stick", "hi-hat-open", "kick"])).toEqual(written);
    expect(ringsFor(written, ["cowbell"])).toEqual(["hi-hat-closed", "cowbell", "snare", "kick"]);
  });

  test("in free play every voice has its own ring", () => {
    expect(ringsFor([], ["cross-stick", "snare", "snare", "kick"])).toEqual(["snare", "cross-stick", "kick"]);
  });

  test("any number of rings lies between the beat numbers and the middle, and no mark touches the next ring's", () => {
    for (let count = 1; count <= VOICES.length; count += 1) {
      const layout = ringLayout(count);
      expect(layout.radii).toHaveLength(count);
      expect(Math.max(...layout.radii)).toBeLessThanOrEqual(116);
      expect(Math.min(...layout.radii)).toBeGreaterThanOrEqual(44 - 1e-9);
      expect(2 * layout.markRadius).toBeLessThan(layout.gap);
      expect(layout.dotReach + layout.dotRadius).toBeLessThan(layout.gap);
      expect(layout.ghostRadius).toBeLessThan(layout.markRadius);
    }
  });
});
