/**
 * Grooves at random: several bars, each bar of each voice on a grid of its own, hands, ornaments, metres, feels.
 * They come as grid text, with what it says worked out beside it and not by the parser.
 */
import * as fc from "fast-check";
import { VOICES, type Voice } from "../../../engine/kit/index.ts";
import type { Dynamic, Feel, Hand, Metre, Note, Ornament } from "../../../engine/score/index.ts";
import { fraction } from "../../../engine/units/index.ts";

interface WrittenMark {
  readonly mark: string;
  readonly dynamic: Dynamic;
  readonly ornament?: Ornament;
}

export const MARKS: readonly WrittenMark[] = [
  { mark: "x", dynamic: "plain" },
  { mark: "X", dynamic: "accent" },
  { mark: "g", dynamic: "ghost" },
  { mark: "f", dynamic: "plain", ornament: "flam" },
  { mark: "F", dynamic: "accent", ornament: "flam" },
  { mark: "h", dynamic: "ghost", ornament: "flam" },
  { mark: "d", dynamic: "plain", ornament: "drag" },
  { mark: "D", dynamic: "accent", ornament: "drag" },
  { mark: "e", dynamic: "ghost", ornament: "drag" },
];

/** Felt beats of a bar, said here and not computed. */
export const METRES: readonly { readonly metre: Metre; readonly beats: number }[] = [
  { metre: { numerator: 2, denominator: 4 }, beats: 2 },
  { metre: { numerator: 3, denominator: 4 }, beats: 3 },
  { metre: { numerator: 4, denominator: 4 }, beats: 4 },
  { metre: { numerator: 6, denominator: 8 }, beats: 2 },
  { metre: { numerator: 12, denominator: 8 }, beats: 4 },
  { metre: { numerator: 7, denominator: 8 }, beats: 7 },
];

interface Place {
  readonly stroke: WrittenMark | undefined;
  readonly hand: Hand | undefined;
}

export interface WrittenGroove {
  readonly text: string;
  readonly metre: Metre;
  readonly feel: Feel;
  readonly bars: number;
  readonly voices: readonly Voice[];
  /** In no particular order. */
  readonly notes: readonly Note[];
}

const place: fc.Arbitrary<Place> = fc.record({
  stroke: fc.option(fc.constantFrom(...MARKS), { nil: undefined, freq: 2 }),
  hand: fc.option(fc.constantFrom<Hand>("R", "L"), { nil: undefined }),
});

/** Grids of one mark, of beats, of sixteenths, of triplets, and odd ones that whole beats do not fit. */
const bar = fc
  .constantFrom(1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 15, 16, 24, 32, 48)
  .chain((size) => fc.array(place, { minLength: size, maxLength: size }));

const feel: fc.Arbitrary<{ said: string; feel: Feel }> = fc.oneof(
  fc.constant({ said: "straight", feel: { kind: "straight" as const } }),
  fc
    .tuple(
      fc.constantFrom(1, 1.2, 1.333, 1.5, 2, 2.5, 3.5, 4),
      fc.constantFrom("eighths" as const, "triplets" as const, "sixteenths" as const),
    )
    .map(([ratio, written]) => ({
      said: `swung ${ratio} ${written}`,
      feel: { kind: "swung" as const, ratio, written },
    })),
);

const lines = fc
  .tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 4 }))
  .chain(([bars, count]) =>
    fc.record({
      bars: fc.constant(bars),
      voices: fc.shuffledSubarray([...VOICES], { minLength: count, maxLength: count }),
      lines: fc.array(fc.array(bar, { minLength: bars, maxLength: bars }), {
        minLength: count,
        maxLength: count,
      }),
    }),
  );

export const writtenGroove: fc.Arbitrary<WrittenGroove> = fc
  .record({ metre: fc.constantFrom(...METRES), feel, body: lines })
  .map(({ metre: { metre, beats }, feel, body }) => {
    const notes = body.lines.flatMap((line, row) =>
      line.flatMap((places, barIndex) =>
        places.flatMap(({ stroke, hand }, step): Note[] => {
          const voice = body.voices[row];
          if (stroke === undefined || voice === undefined) return [];
          const { mark: _, ...how } = stroke;
          const position = fraction(beats * (barIndex * places.length + step), places.length);
          return [{ position, voice, ...how, ...(hand === undefined ? {} : { hand }) }];
        }),
      ),
    );
    const barText = (marks: readonly string[]) => `${marks.join("")}|`;
    const text = [
      "groove: made-up",
      "name: Made up | here: twice",
      `metre: ${metre.numerator}/${metre.denominator}`,
      `feel: ${feel.said}`,
      "tempo: 60-200",
      ...body.lines.flatMap((line, row) => [
        `${body.voices[row]} |${line.map((places) => barText(places.map(({ stroke }) => stroke?.mark ?? "."))).join("")}`,
        `hands |${line.map((places) => barText(places.map(({ stroke, hand }) => (stroke && hand) ?? "."))).join("")}`,
      ]),
    ].join("\n");
    return { text, metre, feel: feel.feel, bars: body.bars, voices: body.voices, notes };
  });
