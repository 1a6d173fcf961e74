/**
 * Where things lie on the bar ring: a place in the bar becomes an angle, a voice becomes a radius.
 * Source: the necklace notation of Toussaint, "A Mathematical Analysis of African, Brazilian, and Cuban Clave
 * Rhythms", BRIDGES 2002, and *The Geometry of Musical Rhythm*, 2013: the cycle is a circle, its beginning at
 * the top, time runs clockwise. The lengths below are our choice: a drawing 300 wide that is read at 300
 * pixels at the desk and at 640 on the wall.
 *
 * Lengths are in units of the drawing, places in shares of the ring (0 included to 1 excluded).
 */
import { familyOf, VOICES, type Voice, type VoiceFamily } from "../../engine/kit/index.ts";
import { beatsPerBar, type Dynamic, type Groove, grooveBeats, playedBeat } from "../../engine/score/index.ts";
import { toNumber } from "../../engine/units/index.ts";

/** Width and height of the drawing. */
export const RING_SIZE = 300;
const CENTRE = RING_SIZE / 2;
const OUTERMOST_RADIUS = 116;
const INNERMOST_RADIUS = 44;
/** Where the beats are numbered. */
export const BEAT_LABEL_RADIUS = 142;
/** Where the outermost voice is named when its own ring is full. */
export const OUTSIDE_LABEL_RADIUS = 136;
/** Beat lines and the hand run between these. */
export const SPOKE = { from: 28, to: 131 } as const;
/** Two or three rings keep together at the outside instead of filling the middle. */
const WIDEST_GAP = 28;

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Anything that recurs is folded into one turn: 1.25 and −0.75 are both a quarter of the way round. */
export function foldedPlace(place: number): number {
  const folded = place - Math.floor(place);
  return folded === 1 ? 0 : folded;
}

/**
 * The angle of a place, in radians, clockwise from the top.
 *
 * @example
 * angleOf(0.25) // => Math.PI / 2, a quarter past
 */
export function angleOf(place: number): number {
  return 2 * Math.PI * foldedPlace(place);
}

/** The point of a place at a radius. The y axis of a screen points down. */
export function pointAt(place: number, radius: number): Point {
  const angle = angleOf(place);
  return { x: CENTRE + radius * Math.sin(angle), y: CENTRE - radius * Math.cos(angle) };
}

/**
 * The path of an arc on a ring, clockwise from one place to a later one; more than a whole turn is a whole turn.
 *
 * @example
 * arcPath({ from: 0, to: 0.25, radius: 100 }) // => "M150 50A100 100 0 0 1 250 150"
 */
export function arcPath({
  from,
  to,
  radius,
}: {
  readonly from: number;
  readonly to: number;
  readonly radius: number;
}): string {
  const start = pointAt(from, radius);
  // An arc that ends where it begins is not drawn at all.
  const turn = Math.min(to - from, 0.9999);
  const end = pointAt(from + turn, radius);
  return `M${start.x} ${start.y}A${radius} ${radius} 0 ${turn > 0.5 ? 1 : 0} 1 ${end.x} ${end.y}`;
}

/** How much music one turn of the ring holds. */
export interface RingSpan {
  readonly bars: number;
  readonly beats: number;
}

/** A groove of two bars goes round once in two bars; of any other groove the ring shows the first bar. */
export function ringSpan(groove: Pick<Groove, "bars" | "metre">): RingSpan {
  return groove.bars === 2
    ? { bars: 2, beats: grooveBeats(groove) }
    : { bars: 1, beats: beatsPerBar(groove.metre) };
}

/** One written stroke on the ring, at the place where its feel has it played. */
export interface WrittenMark {
  readonly voice: Voice;
  readonly place: number;
  readonly dynamic: Dynamic;
}

/** The written strokes within the span of the ring. */
export function writtenMarks(groove: Groove): readonly WrittenMark[] {
  const { beats } = ringSpan(groove);
  return groove.notes
    .filter((note) => toNumber(note.position) < beats)
    .map(({ position, voice, dynamic }) => ({
      voice,
      dynamic,
      place: foldedPlace(playedBeat(groove.feel, toNumber(position)) / beats),
    }));
}

/** From what rings above to what the feet play: the order of the lines on a stave, from the top. */
const HEIGHT: Readonly<Record<VoiceFamily, number>> = {
  cymbals: 0,
  hats: 1,
  percussion: 2,
  toms: 3,
  snare: 4,
  pedal: 5,
  kick: 6,
};

/** Voices from the outermost ring to the innermost, each once: hands outside, kick in the middle. */
export function inRingOrder(voices: Iterable<Voice>): readonly Voice[] {
  return [...new Set(voices)].sort(
    (a, b) => HEIGHT[familyOf(a)] - HEIGHT[familyOf(b)] || VOICES.indexOf(a) - VOICES.indexOf(b),
  );
}

/**
 * The ring a played voice is drawn on: its own; else the ring of the voice it could be meant for (a cross-stick
 * where the snare is written); else none, and it needs a new one.
 */
export function ringOf(voice: Voice, rings: readonly Voice[]): Voice | undefined {
  return rings.find((ring) => ring === voice) ?? rings.find((ring) => familyOf(ring) === familyOf(voice));
}

/** The rings of a groove and of what was played beside it, outermost first. */
export function ringsFor(written: readonly Voice[], played: Iterable<Voice>): readonly Voice[] {
  const rings = new Set(written);
  for (const voice of played) {
    if (written.length === 0 || ringOf(voice, [...rings]) === undefined) rings.add(voice);
  }
  return inRingOrder(rings);
}

/** Sizes that follow from how many rings share the drawing. */
export interface RingLayout {
  /** One radius a ring, outermost first. */
  readonly radii: readonly number[];
  readonly gap: number;
  readonly markRadius: number;
  readonly ghostRadius: number;
  readonly accentRadius: number;
  /** A played tick reaches so far to either side of its ring. */
  readonly tickReach: number;
  /** The dot of a differing tick: so far outside its ring, and so large. */
  readonly dotReach: number;
  readonly dotRadius: number;
  readonly labelSize: number;
}

/** Spreads `count` rings over the drawing. */
export function ringLayout(count: number): RingLayout {
  const gap =
    count < 2 ? WIDEST_GAP : Math.min(WIDEST_GAP, (OUTERMOST_RADIUS - INNERMOST_RADIUS) / (count - 1));
  const markRadius = Math.min(6.5, gap * 0.33);
  const tickReach = Math.min(8, gap * 0.4);
  return {
    radii: Array.from({ length: count }, (_, ring) => OUTERMOST_RADIUS - ring * gap),
    gap,
    markRadius,
    ghostRadius: markRadius * 0.6,
    accentRadius: markRadius * 0.45,
    tickReach,
    dotReach: tickReach + Math.min(5, gap * 0.2),
    dotRadius: Math.min(2.6, gap * 0.12),
    labelSize: Math.min(13.2, Math.max(10, gap * 0.85)),
  };
}
