/**
 * The pitches of the studio's own toms: in rounds for the ear the recordings sound as these do. Kept on this computer.
 */
import { z } from "zod";
import type { NoteNumber } from "../../engine/units/index.ts";
import type { KeepingPlace } from "../session/keepingPlace.ts";
import { Store } from "../session/store.ts";

export const TOMS = ["high-tom", "mid-tom", "floor-tom"] as const;
export type Tom = (typeof TOMS)[number];

/** Piano key numbers (60 is middle C) from the lowest floor tom to the highest small one: G1 to C4. Common practice, no source. */
export const LOWEST_TOM: NoteNumber = 31;
export const HIGHEST_TOM: NoteNumber = 60;

/** Pitches of the toms, as piano key numbers. */
export type TomPitchesOf = Readonly<Record<Tom, NoteNumber>>;

/** Those of the recordings: E3, A♯2, E2. */
export const FIRST_TOMS: TomPitchesOf = { "high-tom": 52, "mid-tom": 46, "floor-tom": 40 };

/** The recordings of toms by their pitch: piano key number to percussion key. Of `kit/kit.json`. */
const RECORDED: readonly (readonly [pitch: NoteNumber, key: NoteNumber])[] = [
  [36, 41],
  [40, 43],
  [43, 45],
  [46, 47],
  [49, 48],
  [52, 50],
];

/** The recording a pitch is played from, the nearest, and how far it is moved, in semitones. */
export function tomSound(pitch: NoteNumber): { readonly key: NoteNumber; readonly semitones: number } {
  const [recorded, key] = RECORDED.reduce((best, each) =>
    Math.abs(each[0] - pitch) < Math.abs(best[0] - pitch) ? each : best,
  );
  return { key, semitones: pitch - recorded };
}

const LETTERS = ["C", "C♯", "D", "D♯", "E", "F", "F♯", "G", "G♯", "A", "A♯", "B"] as const;

/**
 * The name of a pitch, middle C being C4.
 *
 * @example
 * pitchName(46) // => "A♯2"
 */
export function pitchName(pitch: NoteNumber): string {
  return `${LETTERS[pitch % 12]}${Math.floor(pitch / 12) - 1}`;
}

const KEPT_AS = "throneside.toms";
const pitch = z.int().min(LOWEST_TOM).max(HIGHEST_TOM);
const keptSchema = z.strictObject({
  version: z.literal(1),
  pitches: z.strictObject({ "high-tom": pitch, "mid-tom": pitch, "floor-tom": pitch }),
});

function readPitches(place: KeepingPlace | undefined): TomPitchesOf {
  try {
    const kept = keptSchema.safeParse(JSON.parse(place?.getItem(KEPT_AS) ?? "null"));
    return kept.success ? kept.data.pitches : FIRST_TOMS;
  } catch {
    // Damaged text, or a browser that keeps nothing: the recordings sound as they are, and can be set again.
    return FIRST_TOMS;
  }
}

const NAMES: Readonly<Record<Tom, string>> = {
  "high-tom": "high tom",
  "mid-tom": "mid tom",
  "floor-tom": "floor tom",
};

/**
 * What is wrong with pitches that two toms share, in a sentence; `null` where each has its own. They are not refused: a kit may be
 * tuned so.
 *
 * @example
 * onePitchWords({ "high-tom": 50, "mid-tom": 50, "floor-tom": 41 })
 * // => "High tom and mid tom have one pitch, D3: nobody can tell them apart in Back Turned. Give one of them another."
 */
export function onePitchWords(pitches: TomPitchesOf): string | null {
  for (const tom of TOMS) {
    const alike = TOMS.filter((other) => pitches[other] === pitches[tom]).map((each) => NAMES[each]);
    if (alike.length < 2) continue;
    const all = alike.length === TOMS.length;
    const who = all ? "All three toms" : alike.join(" and ");
    const what = `have one pitch, ${pitchName(pitches[tom])}: nobody can tell them apart in Back Turned.`;
    const words = `${who} ${what} Give ${all ? "each its own" : "one of them another"}.`;
    return words.charAt(0).toUpperCase() + words.slice(1);
  }
  return null;
}

export class TomPitches extends Store<TomPitchesOf, TomPitchesOf> {
  readonly #place: KeepingPlace | undefined;

  constructor(place?: KeepingPlace) {
    super(readPitches(place), (_, next) => next);
    this.#place = place;
  }

  set(tom: Tom, to: NoteNumber): void {
    const pitches = { ...this.get(), [tom]: Math.min(HIGHEST_TOM, Math.max(LOWEST_TOM, Math.round(to))) };
    this.dispatch(pitches);
    try {
      this.#place?.setItem(KEPT_AS, JSON.stringify({ version: 1, pitches }));
    } catch {
      // They hold while the program is open; after that they are set again.
    }
  }
}
