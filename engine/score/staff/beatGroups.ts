/** How a bar is divided for reading: the spans that beams join and that no note or rest is written across. */
import { add, type Fraction, floor, fraction, multiply, toNumber } from "../../units/index.ts";
import type { Note } from "../groove.ts";
import { beatsPerBar, isCompound, type Metre } from "../metre.ts";

/** A span of the bar, in whole notes from its start. A ternary one is counted in three: a dotted value long. */
export interface BeatGroup {
  readonly start: Fraction;
  readonly length: Fraction;
  readonly ternary: boolean;
}

/** Length of a felt beat in whole notes: 1/4 in 4/4, 3/8 in 12/8, 1/8 in 7/8. */
export function beatLength(metre: Metre): Fraction {
  return fraction(isCompound(metre) ? 3 : 1, metre.denominator);
}

/** Length of a bar in whole notes: 1 in 4/4, 7/8 in 7/8. */
export function barLength(metre: Metre): Fraction {
  return fraction(metre.numerator, metre.denominator);
}

/**
 * The groups of every bar. In metres of halves and quarters, and in compound ones, each beat is a group (common
 * practice). In the others (7/8, 5/16) the beats are joined in twos and threes, so that groups begin where the
 * strong strokes are: kick, snare and accents of `notes`. Where that leaves a choice, twos come first: 2+2+3.
 */
export function beatGroups(metre: Metre, notes: readonly Note[]): readonly BeatGroup[] {
  const beats = beatsPerBar(metre);
  const joined = metre.denominator >= 8 && !isCompound(metre);
  const counts = joined ? twosAndThrees(strengthOfBeats(beats, notes)) : new Array<number>(beats).fill(1);
  const unit = beatLength(metre);
  let start = fraction(0);
  return counts.map((count) => {
    const length = multiply(unit, fraction(count));
    const group = { start, length, ternary: count === 3 || isCompound(metre) };
    start = add(start, length);
    return group;
  });
}

/** Strong strokes on each beat of the bar, over all bars. */
function strengthOfBeats(beats: number, notes: readonly Note[]): readonly number[] {
  const strength = new Array<number>(beats).fill(0);
  for (const { position, voice, dynamic } of notes) {
    const strong = dynamic === "accent" || ((voice === "kick" || voice === "snare") && dynamic !== "ghost");
    if (!strong || position.den !== 1) continue;
    const beat = floor(position) % beats;
    strength[beat] = (strength[beat] ?? 0) + 1;
  }
  return strength;
}

/** The split of the beats into twos and threes (a lone beat where there is but one) that starts on the strongest beats. */
function twosAndThrees(strength: readonly number[]): readonly number[] {
  const beats = strength.length;
  if (beats < 4) return [beats];
  const mean = strength.reduce((sum, each) => sum + each, 0) / beats;
  // Best split of the beats from each place on; filled from the end. The weight of a start is taken over the mean,
  // or else more groups would always be better.
  const best: ({ readonly score: number; readonly counts: readonly number[] } | undefined)[] = [];
  best[beats] = { score: 0, counts: [] };
  for (let place = beats - 2; place >= 0; place -= 1) {
    for (const count of [2, 3]) {
      const rest = best[place + count];
      if (!rest) continue;
      const score = (strength[place] ?? 0) - mean + rest.score;
      if (score > (best[place]?.score ?? Number.NEGATIVE_INFINITY) + 1e-9) {
        best[place] = { score, counts: [count, ...rest.counts] };
      }
    }
  }
  return best[0]?.counts ?? [beats];
}

/** The lengths of the groups as a teacher counts them, in beats of the metre's denominator: "2+2+3". */
export function groupingName(metre: Metre, groups: readonly BeatGroup[]): string {
  return groups.map(({ length }) => toNumber(multiply(length, fraction(metre.denominator)))).join("+");
}
