/**
 * Where the name of a voice stands on its ring: in a stretch without strokes (and beat lines, where that can be
 * had), as near to the top as there is room, so that the names read level and stand in a column. On a ring without room (a hi-hat in
 * sixteenths) the name goes outside when it is the outermost ring, and close inside it otherwise.
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

/** Mean width of a letter of the text face, as a share of its size; a little wide, for letters on a bend. */
const LETTER_WIDTH = 0.55;
/** Air on both sides of a name together. */
const AIR = 6;

/** A ring has room for one word; there is only one pedal that sounds. */
const SHORT_NAMES: Partial<Readonly<Record<Voice, string>>> = { "hi-hat-pedal": "pedal" };

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
    const text = SHORT_NAMES[voice] ?? voiceName(voice);
    const width = text.length * layout.labelSize * LETTER_WIDTH + AIR;
    const room = (radius: number, taken: readonly number[]): number | undefined =>
      roomNearTop(taken, (width + 2 * layout.markRadius) / (2 * Math.PI * radius));
    const radius = layout.radii[ring] ?? 0;
    const beside = ring === 0 ? OUTSIDE_LABEL_RADIUS : radius - layout.gap / 2;
    const onRing = room(radius, [...strokes(voice), ...beatPlaces]) ?? room(radius, strokes(voice));
    if (onRing !== undefined) return label(voice, text, onRing, radius);
    return label(voice, text, room(beside, beatPlaces) ?? AFTER_TOP, beside);
  });
}

/** Where a name goes that fits nowhere: just after the first beat. */
const AFTER_TOP = 1 / 16;

function label(voice: Voice, text: string, place: number, radius: number): RingLabel {
  return { voice, text, place, radius, clockwise: place <= 0.25 || place >= 0.75 };
}

/** The place nearest the top round which `need` of the ring is free; where nothing is taken, just after the top. */
function roomNearTop(taken: readonly number[], need: number): number | undefined {
  const places = [...new Set(taken.map(foldedPlace))].sort((a, b) => a - b);
  const first = places[0];
  if (first === undefined) return need / 2;
  const centres = places.flatMap((from, index) => {
    const to = places[index + 1] ?? first + 1;
    if (to - from < need) return [];
    return [from + need / 2, to - need / 2].map(foldedPlace);
  });
  const fromTop = (place: number): number => Math.min(place, 1 - place);
  return centres.reduce<number | undefined>(
    (best, next) => (best === undefined || fromTop(next) < fromTop(best) - 1e-9 ? next : best),
    undefined,
  );
}
