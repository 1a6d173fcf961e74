import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { RHYTHMS, type Rhythm, rhythmById } from "../../../../engine/catalogue/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import { judgeRhythm } from "../../../../engine/rounds/index.ts";
import { beatsPerBar } from "../../../../engine/score/index.ts";
import { normal, seededChance, toNumber } from "../../../../engine/units/index.ts";

const VOICES = ["snare", "floor-tom", "kick"] as const;

/** A bar as it is struck, on any surface, with a spread. */
function struck(
  { groove }: Rhythm,
  how: { bpm: number; from?: number; spreadMs?: number; closes?: boolean; seed?: number },
): Hit[] {
  const { bpm, from = 3, spreadMs = 0, closes = false, seed = 1 } = how;
  const chance = seededChance(seed);
  const places = groove.notes.map(({ position }) => toNumber(position));
  if (closes) places.push(beatsPerBar(groove.metre));
  return places.map((place, at) => ({
    time: from + (place * 60) / bpm + (spreadMs / 1000) * normal(chance),
    voice: VOICES[at % VOICES.length] ?? "snare",
    zone: "head",
    velocity: 0.6,
    pad: 38,
  }));
}

/** With its stroke on the next one, a rhythm may be another one that is left without it. */
function isAlikeButForTempo(rhythm: Rhythm, other: Rhythm): boolean {
  const shape = (hits: readonly Hit[]): string => {
    const [first, last] = [hits[0]?.time ?? 0, hits.at(-1)?.time ?? 1];
    return hits.map(({ time }) => ((time - first) / (last - first)).toFixed(3)).join(" ");
  };
  const played = shape(struck(rhythm, { bpm: 60, closes: true }));
  return [true, false].some((closes) => shape(struck(other, { bpm: 60, closes })) === played);
}

function found(id: string): Rhythm {
  const rhythm = rhythmById(id);
  if (!rhythm) throw new Error(`There is no rhythm ${id}.`);
  return rhythm;
}

describe("free of tempo", () => {
  test.each(RHYTHMS.map((rhythm) => [rhythm.id, rhythm] as const))(
    "%s holds at any tempo in its range",
    (_, rhythm) => {
      fc.assert(
        fc.property(fc.integer({ min: 55, max: 125 }), fc.boolean(), (bpm, closes) => {
          expect(judgeRhythm(struck(rhythm, { bpm, closes }), rhythm, "working")).toMatchObject({
            held: true,
          });
        }),
        { numRuns: 12 },
      );
    },
  );

  test("with a spread of 15 ms it holds at its level nearly always, and none is taken for another in the widest band", () => {
    const tries = 5;
    let held = 0;
    const wrong: string[] = [];
    for (const rhythm of RHYTHMS) {
      for (let seed = 0; seed < tries; seed += 1) {
        const hits = struck(rhythm, { bpm: 72, spreadMs: 15, seed: seed * 31 + held, closes: true });
        if (judgeRhythm(hits, rhythm, rhythm.level).held) held += 1;
      }
      const hits = struck(rhythm, { bpm: 72, spreadMs: 15, closes: true });
      for (const other of RHYTHMS)
        if (!isAlikeButForTempo(rhythm, other) && judgeRhythm(hits, other, "first-year").held)
          wrong.push(`${rhythm.id} as ${other.id}`);
    }
    expect(wrong).toEqual([]);
    // Of 150, 15 ms of spread against bands of 20 to 70 ms and a third of a thirty-second.
    process.stdout.write(
      `rhythms held at their level with 15 ms of spread: ${held} of ${RHYTHMS.length * tries}\n`,
    );
    expect(held).toBeGreaterThanOrEqual(RHYTHMS.length * tries * 0.8);
  });

  test("a stroke left out or added is told", () => {
    const rhythm = found("rhythm-triplet-on-two");
    const hits = struck(rhythm, { bpm: 80, closes: true });
    expect(judgeRhythm(hits.toSpliced(2, 1), rhythm, "steady")).toMatchObject({
      held: false,
      words: "One stroke left out.",
    });
    const between = { ...(hits[4] as Hit), time: ((hits[4]?.time ?? 0) + (hits[5]?.time ?? 0)) / 2 };
    expect(judgeRhythm(hits.toSpliced(5, 0, between), rhythm, "steady")).toMatchObject({
      held: false,
      words: "One stroke added.",
    });
  });

  test("a stroke out of its place is told with its beat", () => {
    const rhythm = found("rhythm-eighths-on-two");
    const hits = struck(rhythm, { bpm: 80, closes: true }).map((hit, at) =>
      at === 3 ? { ...hit, time: hit.time + 0.1 } : hit,
    );
    expect(judgeRhythm(hits, rhythm, "steady")).toMatchObject({
      held: false,
      words: "The stroke at beat 3 came late.",
    });
  });

  test("nothing, or one stroke, is no rhythm", () => {
    const rhythm = found("rhythm-eighths-on-two");
    expect(judgeRhythm([], rhythm, "steady").words).toBe("Nothing was struck.");
    expect(judgeRhythm(struck(rhythm, { bpm: 80 }).slice(0, 1), rhythm, "steady").words).toBe(
      "Only one stroke was struck.",
    );
  });

  test("the tempo that was played is told", () => {
    fc.assert(
      fc.property(fc.constantFrom(...RHYTHMS), fc.integer({ min: 60, max: 110 }), (rhythm, bpm) => {
        const { tempoBpm } = judgeRhythm(struck(rhythm, { bpm, closes: true }), rhythm, "steady");
        expect(tempoBpm).toBeCloseTo(bpm, 1);
      }),
      { numRuns: 40 },
    );
  });
});

describe("to a click", () => {
  test("the click's tempo and beginning hold: played at another tempo it is not as written", () => {
    const rhythm = found("rhythm-dotted-quarter-twice");
    const click = { tempoBpm: 80, from: 3 };
    expect(judgeRhythm(struck(rhythm, { bpm: 80 }), rhythm, "steady", click).held).toBe(true);
    expect(judgeRhythm(struck(rhythm, { bpm: 92 }), rhythm, "steady", click).held).toBe(false);
    expect(judgeRhythm([], rhythm, "steady", click)).toMatchObject({ held: false });
  });
});
