import { expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";
import { ringLayout, ringSpan, ringsFor, writtenMarks } from "../../../renderer/charts/ringGeometry.ts";
import { ringLabels } from "../../../renderer/charts/ringLabels.ts";

const grooves = STYLES.flatMap((style) => style.variants);

test.each(grooves.map((groove) => ({ id: groove.id, groove })))(
  "$id: every ring is named once, clear of its own strokes",
  ({ groove }) => {
    const rings = ringsFor(groove.voices, []);
    const layout = ringLayout(rings.length);
    const marks = writtenMarks(groove);
    const strokes = (voice: Voice) => marks.filter((mark) => mark.voice === voice).map((mark) => mark.place);
    const { beats } = ringSpan(groove);
    const labels = ringLabels(
      rings,
      layout,
      strokes,
      Array.from({ length: beats }, (_, beat) => beat / beats),
    );
    expect(labels.map((label) => label.voice)).toEqual(rings);
    for (const [ring, label] of labels.entries()) {
      if (label.radius !== layout.radii[ring]) continue;
      // Half the word and the stroke's own circle, along the ring.
      const clear = (label.text.length * layout.labelSize * 0.5) / 2 + layout.markRadius;
      for (const place of strokes(label.voice)) {
        const apart = Math.abs(place - label.place);
        expect(Math.min(apart, 1 - apart) * 2 * Math.PI * label.radius).toBeGreaterThanOrEqual(clear);
      }
    }
  },
);

test("a full outermost ring is named outside, a full inner one beside", () => {
  const full = Array.from({ length: 16 }, (_, step) => step / 16);
  const layout = ringLayout(3);
  const [outer, inner] = ringLabels(
    ["hi-hat-closed", "snare", "kick"],
    layout,
    () => full,
    [0, 0.25, 0.5, 0.75],
  );
  expect(outer?.radius).toBeGreaterThan(layout.radii[0] ?? Number.NaN);
  expect(inner?.radius).toBeLessThan(layout.radii[1] ?? Number.NaN);
  expect(inner?.radius).toBeGreaterThan(layout.radii[2] ?? Number.NaN);
});

test("a name in the lower half is not upside down", () => {
  const strokes = Array.from({ length: 16 }, (_, step) => step / 16).filter((place) => place !== 0.5);
  const [label] = ringLabels(["snare"], ringLayout(1), () => strokes, []);
  expect(label).toMatchObject({ clockwise: false });
  expect(label?.place).toBeGreaterThan(0.4);
  expect(label?.place).toBeLessThan(0.6);
});
