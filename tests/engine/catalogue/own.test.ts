/** What a style says is its own is in every one of its variants. */
import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Groove, type Note } from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";
import { PARTS } from "./apart.ts";

/** A stroke that keeps time may be on any cymbal, a back-beat on the snare's head or across its rim. */
function mayStandFor(written: Voice, own: Voice): boolean {
  const part = PARTS[own];
  if (part === "time-keeper" || part === "back-beat") return PARTS[written] === part;
  return written === own;
}

/** Own strokes that a variant has not, when the own figure begins at its bar `turn`. */
function missing(own: Groove, variant: Groove, turn: number): readonly Note[] {
  const bar = beatsPerBar(own.metre);
  return own.notes.filter(({ position, voice }) => {
    const places = repeats(own, variant).map(
      (start) => (start + toNumber(position) + turn * bar) % (variant.bars * bar),
    );
    return !places.every((place) =>
      variant.notes.some(
        (note) => Math.abs(toNumber(note.position) - place) < 1e-9 && mayStandFor(note.voice, voice),
      ),
    );
  });
}

/** Where the own figure begins within a variant: in each of its two bars where the figure has one. */
function repeats(own: Groove, variant: Groove): readonly number[] {
  return Array.from({ length: variant.bars / own.bars }, (_, index) => index * grooveBars(own));
}

function grooveBars(own: Groove): number {
  return own.bars * beatsPerBar(own.metre);
}

describe.each(STYLES)("$id", (style) => {
  const { own } = style;

  test("its own figure is a groove of its own metre, feel and tempo", () => {
    const [plainest] = style.variants;
    expect({ id: own.id, name: own.name }).toEqual({ id: style.id, name: style.name });
    expect({ metre: own.metre, feel: own.feel, tempoBpm: own.tempoBpm }).toEqual({
      metre: plainest?.metre,
      feel: plainest?.feel,
      tempoBpm: plainest?.tempoBpm,
    });
    expect(own.notes.length).toBeGreaterThan(0);
  });

  test.each(style.variants)("is in $id", (variant) => {
    expect(variant.bars % own.bars, "a figure of two bars in a variant of one").toBe(0);
    const turns = Array.from({ length: own.bars }, (_, turn) => missing(own, variant, turn));
    const [least] = [...turns].sort((a, b) => a.length - b.length);
    expect(least?.map(({ voice, position }) => `${voice} at beat ${toNumber(position) + 1}`)).toEqual([]);
  });
});

test("a stroke that is missing is noticed", () => {
  const style = STYLES.find(({ id }) => id === "swing");
  const other = STYLES.find(({ id }) => id === "rock-eighths")?.variants[0];
  if (!style || !other) throw new Error("The stock has no swing or no rock eighths.");
  expect(missing(style.own, other, 0).some(({ voice }) => voice === "hi-hat-pedal")).toBe(true);
});
