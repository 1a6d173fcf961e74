/**
 * Where a click falls silent: for some bars out of every few, or by chance. The player keeps the time alone, and
 * hears at the click's return how far the two have moved apart.
 */
import { z } from "zod";
import { seededChance } from "../units/index.ts";

/** A longer gap is a take without a click. Our choice. */
export const LONGEST_GAP_BARS = 16;

export const clickGapsSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("none") }).readonly(),
  /** So many bars sound, then so many are silent, over and over. */
  z
    .strictObject({
      kind: z.literal("regular"),
      sounding: z.int().min(1).max(LONGEST_GAP_BARS),
      silent: z.int().min(1).max(LONGEST_GAP_BARS),
    })
    .readonly(),
  /** After each bar that sounds, a gap begins with the chance `share`, and lasts up to `longest` bars. */
  z
    .strictObject({
      kind: z.literal("chance"),
      share: z.number().min(0).max(1),
      longest: z.int().min(1).max(LONGEST_GAP_BARS),
      /** The same seed gives the same gaps, so that what was heard can be told afterwards. */
      seed: z.int().min(0).max(0xffff_ffff),
    })
    .readonly(),
]);

export type ClickGaps = z.infer<typeof clickGapsSchema>;

/**
 * For each bar in turn, without end, whether the click sounds in it. The first always does, and so does the bar
 * after a gap: a return that is not heard for a bar would teach nothing.
 *
 * @example
 * const bars = soundingBars({ kind: "regular", sounding: 2, silent: 1 });
 * [1, 2, 3, 4].map(() => bars.next().value) // => [true, true, false, true]
 */
export function* soundingBars(gaps: ClickGaps): Generator<boolean, never> {
  const silentAfterEach = gapLengths(gaps);
  for (;;) {
    yield true;
    const silent = silentAfterEach();
    for (let bar = 0; bar < silent; bar += 1) yield false;
  }
}

/** How many silent bars follow the next sounding bar. */
function gapLengths(gaps: ClickGaps): () => number {
  switch (gaps.kind) {
    case "none":
      return () => 0;
    case "regular": {
      let sounded = 0;
      return () => {
        sounded = (sounded + 1) % gaps.sounding;
        return sounded === 0 ? gaps.silent : 0;
      };
    }
    case "chance": {
      const chance = seededChance(gaps.seed);
      return () => (chance() < gaps.share ? 1 + Math.floor(chance() * gaps.longest) : 0);
    }
  }
}
