/**
 * Question: do the limbs fall together where they are written together?
 *
 * Method: for every pair of limbs with strokes written at one moment, the signed gap between the two strokes played;
 * mean and standard deviation of the gaps, mistakes left out. Against the gap from which a listener hears one stroke
 * after the other, about 20 ms (Hirsh, J. Acoust. Soc. Am. 31 (1959) 759–767, figure from memory). For
 * comparison: fifteen professionals had kick and snare some 8 to 12 ms before the hi-hat at 60 and 120 beats a
 * minute (derived from Fujii et al., Music Perception 28 (2011) 491–503).
 */
import { type Milliseconds, robustSpread } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import { limbOf, timeKeeping } from "./limb.ts";
import type { Stroke } from "./matching.ts";
import type { UnisonFigures } from "./report.ts";

/** Gaps longer than this are heard as two strokes (Hirsh 1959). */
export const HEARD_APART_MS: Milliseconds = 20;
/** Written at one moment: within this much of a beat is rounding. */
const SAME_BEAT = 0.005;
/** Fewer pairs are not told. Our choice. */
const FEWEST_PAIRS = 3;

/** Pairs of limbs, the most frequent first. */
export function unisonFigures(strokes: readonly Stroke[]): readonly UnisonFigures[] {
  const together = [...grouped(strokes, ({ note }) => Math.round(note.beat / SAME_BEAT)).values()];
  const gaps = grouped(together.flatMap(pairsOf), ({ limb, against }) => `${limb} ${against}`);
  return [...gaps.values()]
    .flatMap((those): UnisonFigures[] => {
      const [first] = those;
      if (!first || those.length < FEWEST_PAIRS) return [];
      const { mean, sd } = robustSpread(those.map(({ gapMs }) => gapMs));
      return [
        {
          limb: first.limb,
          against: first.against,
          count: those.length,
          gapMs: mean,
          spreadMs: sd,
          heardApart: those.filter(({ gapMs }) => Math.abs(gapMs) > HEARD_APART_MS).length,
        },
      ];
    })
    .sort((a, b) => b.count - a.count);
}

type Gap = Pick<UnisonFigures, "limb" | "against" | "gapMs">;

/** All pairs of different limbs among strokes written together. */
function pairsOf(strokes: readonly Stroke[]): readonly Gap[] {
  const byLimb = [...grouped(strokes, ({ note }) => limbOf(note.voice))]
    .flatMap(([limb, [stroke]]) => (stroke ? [{ limb, stroke }] : []))
    .sort((a, b) => timeKeeping(a.limb) - timeKeeping(b.limb));
  return byLimb.flatMap((keeper, at) =>
    byLimb.slice(at + 1).map(({ limb, stroke }) => ({
      limb,
      against: keeper.limb,
      gapMs: stroke.offsetMs - keeper.stroke.offsetMs,
    })),
  );
}
