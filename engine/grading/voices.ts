/**
 * Question: was each voice played as written, in sound and in touch?
 */
import type { Hit, Voice } from "../kit/index.ts";
import { DYNAMIC_VELOCITY } from "../score/index.ts";
import { median, type Velocity } from "../units/index.ts";
import { leanAndSpread } from "./figures.ts";
import { grouped } from "./grouped.ts";
import type { Matched, Stroke } from "./matching.ts";
import type { TouchFigures, VoiceFigures } from "./report.ts";
import type { TargetNote } from "./target.ts";

/**
 * Limits of touch, as shares of the player's own plain stroke on that voice. A plain performance has ghost notes
 * at 0.4 and accents at 1.43 of it (`DYNAMIC_VELOCITY`); the limits lie nearer to the wrong touch than to the
 * written one, so that ordinary unevenness passes. Our choice.
 */
export const GHOSTED_BELOW = 0.55;
export const GHOST_HEAVY_ABOVE = 0.75;
export const PLAIN_HEAVY_ABOVE = 1.35;

/** One row for every voice that is written or was added: written ones first, in the order they appear. */
export function voiceFigures(matched: Matched, counted: readonly TargetNote[]): readonly VoiceFigures[] {
  const added = matched.hits.flatMap((judged) =>
    judged.state === "extra" && !judged.surplus ? [judged.hit.voice] : [],
  );
  const written = grouped(counted, ({ voice }) => voice);
  const answered = grouped(matched.strokes, ({ note }) => note.voice);
  const voices = new Set<Voice>([...written.keys(), ...added]);
  return [...voices].map((voice) => {
    const strokes = answered.get(voice) ?? [];
    const asWritten = strokes.filter(({ hit }) => hit.voice === voice);
    const count = written.get(voice)?.length ?? 0;
    return {
      voice,
      ...leanAndSpread(strokes.map(({ offsetMs }) => offsetMs)),
      written: count,
      asWritten: asWritten.length,
      otherSound: otherSounds(strokes),
      leftOut: count - strokes.length,
      added: added.filter((heard) => heard === voice).length,
      touch: touchFigures(asWritten),
    };
  });
}

/** Most frequent first. */
function otherSounds(strokes: readonly Stroke[]): VoiceFigures["otherSound"] {
  const others = strokes.filter(({ note, hit }) => hit.voice !== note.voice);
  return [...grouped(others, ({ hit }) => hit.voice)]
    .map(([voice, those]) => ({ voice, count: those.length }))
    .sort((a, b) => b.count - a.count);
}

/**
 * Touch of strokes played on their own voice, against the player's plain stroke. With neither plain strokes nor
 * accents written there is nothing to compare with, and all three counts are 0.
 */
export function touchFigures(asWritten: readonly Stroke[]): TouchFigures {
  const counts = { asWritten: 0, ghosted: 0, heavy: 0 };
  const plain = plainStroke(asWritten);
  if (plain === undefined) return counts;
  for (const { note, hit } of asWritten) counts[touchOf(note, hit, plain)] += 1;
  return counts;
}

/** The median of strokes written plain; where none are, what the accents let expect of one. */
export function plainStroke(strokes: readonly Stroke[]): Velocity | undefined {
  for (const dynamic of ["plain", "accent"] as const) {
    const those = strokes.filter(({ note }) => note.dynamic === dynamic);
    const share = DYNAMIC_VELOCITY.plain / DYNAMIC_VELOCITY[dynamic];
    if (those.length > 0) return median(those.map(({ hit }) => hit.velocity)) * share;
  }
  return undefined;
}

function touchOf(note: TargetNote, hit: Hit, plain: Velocity): keyof TouchFigures {
  const share = hit.velocity / plain;
  if (note.dynamic === "ghost") return share > GHOST_HEAVY_ABOVE ? "heavy" : "asWritten";
  if (share < GHOSTED_BELOW) return "ghosted";
  return note.dynamic === "plain" && share > PLAIN_HEAVY_ABOVE ? "heavy" : "asWritten";
}
