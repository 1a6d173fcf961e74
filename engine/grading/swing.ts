/**
 * Question: how long is the long one?
 * Source: Friberg & Sundström, Music Perception 19 (2002) 333–349: the off-beat stands at p = r/(r + 1) of its
 * span, so r = p/(1 − p).
 */
import { isCompound, swungSpan } from "../score/index.ts";
import { type Bpm, beatSeconds, robustSpread } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import { limbOf, timeKeeping } from "./limb.ts";
import type { Stroke } from "./matching.ts";
import type { LimbSwing } from "./report.ts";
import type { Target } from "./target.ts";

/** Written places are sums of fractions; this much, in spans, is rounding. */
const SAME_PLACE = 0.01;

interface SwungPlace {
  /** In felt beats. */
  readonly span: number;
  /** Written place of the off-beat in its span. */
  readonly place: number;
  /** Whether a voice on every third has neither long nor short: so unless the feel says which one moves. */
  readonly fullHasNone: boolean;
}

/** An on-beat and an off-beat stroke of one span. */
interface Pair {
  readonly on: Stroke;
  readonly off: Stroke;
}

/**
 * The swing ratio, long to short, from spans where a stroke was played both on the beat and on the off-beat.
 * Both are taken from one voice where the target has one that plays both, so that a late snare does not pass
 * for swing; otherwise from any voices of the span. `null` where no span has both.
 *
 * @param tempoBpm as played: against a clock left behind, the beat itself is longer or shorter than written.
 */
export function swingRatio(strokes: readonly Stroke[], target: Target, tempoBpm: Bpm | null): number | null {
  const where = swungPlace(strokes, target);
  const pairs = pairsPlayed(strokes, where);
  const sameVoice = pairs.filter(({ on, off }) => on.note.voice === off.note.voice);
  return ratioOf(sameVoice.length > 0 ? sameVoice : pairs, where, target, tempoBpm);
}

/** Fewer pairs of one limb are not told. Our choice. */
const FEWEST_PAIRS = 3;

/**
 * The swing of each limb that plays off-beats, so that a hand that swings over a foot that does not is heard. A
 * limb's off-beats are measured from its own beats, or from those of the others where it plays none.
 */
export function swingByLimb(
  strokes: readonly Stroke[],
  target: Target,
  tempoBpm: Bpm | null,
): readonly LimbSwing[] {
  const where = swungPlace(strokes, target);
  const byLimb = grouped(pairsPlayed(strokes, where), ({ off }) => limbOf(off.note.voice));
  return [...byLimb].map(([limb, all]) => {
    const own = all.filter(({ on }) => limbOf(on.note.voice) === limb);
    const ownBeats = own.length >= FEWEST_PAIRS;
    const pairs = oneForEach(ownBeats ? own : all);
    const ratio = pairs.length < FEWEST_PAIRS ? null : ratioOf(pairs, where, target, tempoBpm);
    return { limb, ratio, pairs: pairs.length, ownBeats };
  });
}

/** For each off-beat one beat: that of the limb that keeps the time best. */
function oneForEach(pairs: readonly Pair[]): readonly Pair[] {
  const keeping = ({ on }: Pair) => timeKeeping(limbOf(on.note.voice));
  return [...grouped(pairs, ({ off }) => off.note.index).values()].flatMap((those) =>
    those.reduce<readonly Pair[]>(
      ([best], pair) => [best && keeping(best) <= keeping(pair) ? best : pair],
      [],
    ),
  );
}

function ratioOf(
  pairs: readonly Pair[],
  where: SwungPlace,
  target: Target,
  tempoBpm: Bpm | null,
): number | null {
  if (pairs.length === 0) return null;
  const stretch = target.tempoBpm / (tempoBpm ?? target.tempoBpm);
  const places = pairs.map(
    (pair) =>
      (pair.off.hit.time - pair.on.hit.time) / (stretch * where.span * writtenBeatSeconds(pair, target)),
  );
  const place = robustSpread(places).mean;
  return place > 0 && place < 1 ? place / (1 - place) : null;
}

/**
 * How long a beat is where a pair is written. The tempo of a straight target may change on the way, and its strokes
 * tell; those of a swung one are not where they are written, but its tempo is one.
 */
function writtenBeatSeconds({ on, off }: Pair, { feel, tempoBpm }: Target): number {
  if (feel.kind === "swung") return beatSeconds(tempoBpm);
  return (off.note.time - on.note.time) / (off.note.beat - on.note.beat);
}

/**
 * Where the off-beat is written. A straight target may write shuffle as triplets: then, and in compound metres,
 * it is the third of three.
 */
function swungPlace(strokes: readonly Stroke[], { feel, metre }: Pick<Target, "feel" | "metre">): SwungPlace {
  if (feel.kind === "swung") return { ...swungSpan(feel.written), fullHasNone: false };
  const eighths = { ...swungSpan("eighths"), fullHasNone: false };
  const hasEighths = strokes.some(({ note }) => isAt(note.beat, eighths, eighths.place));
  return isCompound(metre) || !hasEighths ? { ...swungSpan("triplets"), fullHasNone: true } : eighths;
}

function isAt(beat: number, { span }: Pick<SwungPlace, "span">, place: number): boolean {
  const within = beat / span - Math.floor(beat / span + SAME_PLACE);
  return Math.abs(within - place) < SAME_PLACE;
}

/**
 * All pairs of an on-beat and an off-beat stroke that share a span. A voice that plays all three of a straight
 * triplet has no long and short.
 */
function pairsPlayed(strokes: readonly Stroke[], where: SwungPlace): readonly Pair[] {
  const bySpan = grouped(strokes, ({ note }) => Math.floor(note.beat / where.span + SAME_PLACE));
  const pairs: Pair[] = [];
  for (const span of bySpan.values()) {
    const ons = span.filter(({ note }) => isAt(note.beat, where, 0));
    const offs = span.filter(({ note }) => isAt(note.beat, where, where.place));
    const middles = new Set(
      span.filter(({ note }) => isAt(note.beat, where, 1 / 3)).map(({ note }) => note.voice),
    );
    for (const off of offs) {
      for (const on of ons) {
        if (!where.fullHasNone || !(middles.has(on.note.voice) || middles.has(off.note.voice)))
          pairs.push({ on, off });
      }
    }
  }
  return pairs;
}
