/**
 * Where the name of a voice stands on its ring: in a stretch without strokes or beat lines, as near to the top
 * as there is one, so that the names read level and stand together. A ring without room (a hi-hat in
 * sixteenths) has its name outside when it is the outermost, and under its marks otherwise.
 */
import type { Voice } from "../../engine/kit/index.ts";
import { voiceName } from "../../engine/kit/index.ts";
import { foldedPlace, OUTSIDE_LABEL_RADIUS, type RingLayout } from "./ringGeometry.ts";

/** A name on a circle: centred on `place`, at `radius`, read clockwise or (in the lower half) anticlockwise. */
export interface RingLabel {
  readonly voice: Voice;
  readonly text: string;
  readonly place: number;
  readonly radius: number;
  readonly clockwise: boolean;
}

/** Mean width of a letter of the text face, as a share of its size. Measured on the names of the voices. */
const LETTER_WIDTH = 0.53;
/** Air on both sides of a name together. */
const AIR = 6;

/** The free stretch between two neighbours on a ring. */
interface Stretch {
  readonly middle: number;
  readonly length: number;
}

/**
 * One label a ring.
 *
 * @param rings the voices, outermost first; as many as `layout.radii`.
 * @param strokes places with strokes on each ring.
 * @param beatPlaces places of the beat lines.
 */
export function ringLabels(
  rings: readonly Voice[],
  layout: RingLayout,
  strokes: (voice: Voice) => readonly number[],
  beatPlaces: readonly number[],
): readonly RingLabel[] {
  return rings.map((voice, ring) => {
    const text = voiceName(voice);
    const width = text.length * layout.labelSize * LETTER_WIDTH + AIR;
    const radius = layout.radii[ring] ?? 0;
    const need = (width + 2 * layout.markRadius) / (2 * Math.PI * radius);
    const onRing = nearestToTop(stretches([...strokes(voice), ...beatPlaces]), need);
    if (onRing) return label(voice, text, onRing.middle, radius);
    if (ring === 0) {
      const outside = nearestToTop(stretches(beatPlaces), width / (2 * Math.PI * OUTSIDE_LABEL_RADIUS));
      if (outside) return label(voice, text, outside.middle, OUTSIDE_LABEL_RADIUS);
    }
    return label(voice, text, widest(stretches(strokes(voice))).middle, radius);
  });
}

function label(voice: Voice, text: string, place: number, radius: number): RingLabel {
  return { voice, text, place, radius, clockwise: place <= 0.25 || place >= 0.75 };
}

function stretches(taken: readonly number[]): readonly Stretch[] {
  const places = [...new Set(taken.map(foldedPlace))].sort((a, b) => a - b);
  const first = places[0];
  if (first === undefined) return [{ middle: 0, length: 1 }];
  return places.map((place, index) => {
    const next = places[index + 1] ?? first + 1;
    return { middle: foldedPlace((place + next) / 2), length: next - place };
  });
}

function nearestToTop(free: readonly Stretch[], need: number): Stretch | undefined {
  const fromTop = ({ middle }: Stretch): number => Math.min(middle, 1 - middle);
  return free
    .filter(({ length }) => length >= need)
    .reduce<Stretch | undefined>(
      (best, next) => (best === undefined || fromTop(next) < fromTop(best) - 1e-9 ? next : best),
      undefined,
    );
}

function widest(free: readonly Stretch[]): Stretch {
  return free.reduce((best, next) => (next.length > best.length + 1e-9 ? next : best));
}
