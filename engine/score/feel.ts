/**
 * Feel: where the written off-beat is played.
 * Source: Friberg & Sundström, Music Perception 19 (2002): the swing ratio is long : short inside a beat, and
 * is not fixed; 2 : 1 is one value among many. With ratio r the off-beat stands at r / (r + 1) of its span.
 */

/**
 * Straight, or swung by `ratio` (long : short). `written` says which note is moved: the second of two eighths,
 * the last of three triplet eighths (already written at two thirds), or the second of two sixteenths.
 */
export type Feel =
  | { readonly kind: "straight" }
  | {
      readonly kind: "swung";
      readonly ratio: number;
      readonly written: "eighths" | "triplets" | "sixteenths";
    };

export const STRAIGHT: Feel = { kind: "straight" };

/** Share of its span at which a swung off-beat is played: r / (r + 1). */
export function offBeatPlace(ratio: number): number {
  return ratio / (ratio + 1);
}

/** Span in beats inside which the off-beat moves, and its written place in that span. */
export function swungSpan(written: "eighths" | "triplets" | "sixteenths"): {
  readonly span: number;
  readonly place: number;
} {
  switch (written) {
    case "eighths":
      return { span: 1, place: 1 / 2 };
    case "triplets":
      return { span: 1, place: 2 / 3 };
    case "sixteenths":
      return { span: 1 / 2, place: 1 / 2 };
  }
}

/**
 * The beat at which a written beat is played. Places between are moved in proportion, so that order is kept.
 *
 * @param position beats, as written.
 * @returns beats, as played.
 * @example
 * playedBeat({ kind: "swung", ratio: 3, written: "eighths" }, 1.5) // => 1.75
 */
export function playedBeat(feel: Feel, position: number): number {
  if (feel.kind === "straight") return position;
  const { span, place } = swungSpan(feel.written);
  const spanStart = Math.floor(position / span + 1e-9) * span;
  const within = (position - spanStart) / span;
  const moved = offBeatPlace(feel.ratio);
  const played =
    within < place ? (within / place) * moved : moved + ((within - place) / (1 - place)) * (1 - moved);
  return spanStart + played * span;
}
