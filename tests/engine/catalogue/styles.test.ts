import { describe, expect, test } from "vitest";
import { grooveById, STYLES, styleById } from "../../../engine/catalogue/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Groove, isCompound, metreName } from "../../../engine/score/index.ts";
import { fraction, multiply, toNumber } from "../../../engine/units/index.ts";

const variants = STYLES.flatMap((style) =>
  style.variants.map((groove) => ({ style, groove, id: groove.id })),
);

/** The same tempo counted in quarters: in 7/8 the felt beat is an eighth. */
function inQuarters(groove: Groove, beatsPerMinute: number): number {
  return isCompound(groove.metre) ? beatsPerMinute : (beatsPerMinute * 4) / groove.metre.denominator;
}

describe("the stock", () => {
  test("has the styles of a working week, in every metre they are in", () => {
    expect(STYLES.length).toBeGreaterThanOrEqual(48);
    const metres = new Set(variants.map(({ groove }) => metreName(groove.metre)));
    expect([...metres].sort()).toEqual(["12/8", "2/4", "3/4", "4/4", "5/4", "6/8", "7/8"]);
    for (const { id } of STYLES) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(STYLES.filter((style) => style.variants.length < 2)).toEqual([]);
  });

  test("no id is given twice, and each finds its own", () => {
    const ids = variants.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(new Set(STYLES.map(({ name }) => name)).size).toBe(STYLES.length);
    for (const { id, groove } of variants) expect(grooveById(id)).toBe(groove);
    for (const style of STYLES) {
      expect(styleById(style.id)).toBe(style);
      expect(grooveById(style.id)).toBe(style.variants[0]);
    }
    expect(styleById("nothing")).toBeUndefined();
    expect(grooveById("nothing")).toBeUndefined();
  });

  test.each(STYLES)("$id: a sentence for what it is, where it comes from, and few variants", (style) => {
    expect(style.itself).toMatch(/^[A-Z].*\.$/);
    expect(style.source).toMatch(/common practice, no source|Groove MIDI Dataset|Toussaint/);
    expect(style.variants.length).toBeGreaterThanOrEqual(1);
    expect(style.variants.length).toBeLessThanOrEqual(4);
    style.variants.forEach(({ id, name, metre, feel, tempoBpm }, index) => {
      expect(id).toBe(index === 0 ? style.id : `${style.id}-${index + 1}`);
      expect({ name, metre, feel, tempoBpm }).toEqual({
        name: style.name,
        metre: style.variants[0]?.metre,
        feel: style.variants[0]?.feel,
        tempoBpm: style.variants[0]?.tempoBpm,
      });
    });
    const written = style.variants.map(({ notes }) =>
      JSON.stringify(notes.map(({ position, voice, dynamic }) => [toNumber(position), voice, dynamic])),
    );
    expect(new Set(written).size).toBe(written.length);
  });

  test.each(variants)(
    "$id: playable tempos, every voice struck, no voice twice at one place",
    ({ groove }) => {
      const { low, high } = groove.tempoBpm;
      expect(inQuarters(groove, low)).toBeGreaterThanOrEqual(50);
      expect(inQuarters(groove, high)).toBeLessThanOrEqual(260);
      expect(high / low).toBeGreaterThan(1.1);
      expect(high / low).toBeLessThan(2.5);
      expect(groove.bars).toBeLessThanOrEqual(2);
      const places = groove.notes.map(({ position, voice }) => `${voice} ${position.num}/${position.den}`);
      expect(new Set(places).size).toBe(places.length);
      for (const voice of groove.voices) expect(groove.notes.some((note) => note.voice === voice)).toBe(true);
      // Two hands: not more than two strokes by hand at one place, and one by each foot.
      const feet = new Set<Voice>(["kick", "hi-hat-pedal"]);
      for (const { position } of groove.notes) {
        const together = groove.notes.filter((note) => toNumber(note.position) === toNumber(position));
        expect(together.filter(({ voice }) => !feet.has(voice)).length).toBeLessThanOrEqual(2);
      }
    },
  );
});

/** The whole groove as one line of `steps` places: x struck, . not. A stroke between two places fails. */
function line(
  groove: Groove,
  voice: Voice,
  steps: number,
  struck: (dynamic: string) => boolean = () => true,
) {
  const beats = groove.bars * beatsPerBar(groove.metre);
  const marks = new Array<string>(steps).fill(".");
  for (const note of groove.notes) {
    if (note.voice !== voice || !struck(note.dynamic)) continue;
    const place = multiply(note.position, fraction(steps, beats));
    expect(place.den, `${groove.id}, ${voice}: a stroke between two of ${steps} places`).toBe(1);
    marks[place.num] = "x";
  }
  return marks.join("");
}

/**
 * The voices that have a source: Toussaint, BRIDGES 2002 and 2005, and what most bars of the named take of the
 * Groove MIDI Dataset play. Voices of common practice are the studio's own choice and are not asserted.
 */
const PUBLISHED: readonly {
  readonly id: string;
  readonly metre: string;
  readonly bars: number;
  readonly steps: number;
  readonly source: string;
  readonly voices: Partial<Readonly<Record<Voice, string>>>;
}[] = [
  {
    id: "rock-eighths",
    metre: "4/4",
    bars: 1,
    steps: 16,
    source: "d1-s3-14",
    voices: { snare: "....x.......x...", kick: "x.......x.x....." },
  },
  {
    id: "half-time",
    metre: "4/4",
    bars: 1,
    steps: 16,
    source: "d1-s1-202",
    voices: { snare: "........x......." },
  },
  {
    id: "shuffle",
    metre: "4/4",
    bars: 1,
    steps: 12,
    source: "d1-s1-51",
    voices: { snare: "...x.....x..", "hi-hat-pedal": "...x.....x.." },
  },
  {
    id: "shuffle-2",
    metre: "4/4",
    bars: 1,
    steps: 12,
    source: "d1-s1-51",
    voices: { snare: "...x.....x..", "hi-hat-pedal": "...x.....x..", ride: "x..x.xx..x.x" },
  },
  ...["swing", "swing-2", "swing-3"].map((id) => ({
    id,
    metre: "4/4",
    bars: 1,
    steps: 12,
    source: "d1-s1-76 and d1-s1-77",
    voices: { ride: "x..x.xx..x.x", "hi-hat-pedal": "...x.....x.." },
  })),
  {
    id: "jazz-waltz",
    metre: "3/4",
    bars: 1,
    steps: 9,
    source: "d1-s2-4",
    voices: { ride: "x..x.xx..", "hi-hat-pedal": "...x....." },
  },
  {
    id: "bossa-nova",
    metre: "4/4",
    bars: 2,
    steps: 16,
    source: "Toussaint 2005, E(5,16) from its third onset; d5-s1-1",
    voices: { "cross-stick": "x..x..x...x..x..", "hi-hat-pedal": "..x...x...x...x." },
  },
  {
    id: "samba",
    metre: "2/4",
    bars: 2,
    steps: 16,
    source: "d5-s1-3 and d5-s1-4",
    voices: { "floor-tom": "....x.......x...", "hi-hat-pedal": "..x...x...x...x." },
  },
  {
    id: "samba-2",
    metre: "2/4",
    bars: 2,
    steps: 16,
    source: "Toussaint 2005, samba timeline",
    voices: { ride: "x.x..x.x.x..x.x." },
  },
  ...["merengue", "merengue-2"].map((id) => ({
    id,
    metre: "4/4",
    bars: 1,
    steps: 16,
    source: "d4-s1-9",
    voices: { kick: "x...x...x...x...", snare: "...xx.xxx.x.....", "high-tom": "............xxxx" },
  })),
  {
    id: "one-drop",
    metre: "4/4",
    bars: 1,
    steps: 16,
    source: "d1-s1-184",
    voices: {
      kick: "....x.......x...",
      "cross-stick": "....x.......x...",
      "hi-hat-closed": "..x...x...x...x.",
    },
  },
];

test.each(PUBLISHED)("$id is as published: $source", ({ id, metre, bars, steps, voices }) => {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The stock has no ${id}.`);
  expect({ metre: metreName(groove.metre), bars: groove.bars }).toEqual({ metre, bars });
  const found = Object.fromEntries(groove.voices.map((voice) => [voice, line(groove, voice, steps)]));
  expect(found).toMatchObject(voices);
});

test("half-time: the kick is on one, as in most bars of d1-s1-202", () => {
  for (const groove of styleById("half-time")?.variants ?? []) expect(line(groove, "kick", 16)).toMatch(/^x/);
  expect(styleById("half-time")?.variants.length).toBeGreaterThan(0);
});

test("samba: the accents of the hands are the timeline, over sixteenths", () => {
  const groove = grooveById("samba");
  if (!groove) throw new Error("The stock has no samba.");
  expect(line(groove, "snare", 16, (dynamic) => dynamic === "accent")).toBe("x.x..x.x.x..x.x.");
  expect(line(groove, "snare", 16)).toBe("xxxxxxxxxxxxxxxx");
});

test("bossa nova, second variant: the same figure with its bars exchanged", () => {
  const groove = grooveById("bossa-nova-2");
  if (!groove) throw new Error("The stock has no bossa-nova-2.");
  const figure = "x..x..x...x..x..";
  expect(line(groove, "cross-stick", 16)).toBe(figure.slice(8) + figure.slice(0, 8));
});
