/**
 * Question: how long is a beat around each strike, when the tempo rises and falls?
 * Methods: for the figures, the line through the main strokes around (`robustLine`), sharp where all are matched rightly.
 * While they are still being matched, the median of the intervals around: where the strokes after a gap are taken for
 * others, a line through both sides is bent, but only the few intervals over the gap are wrong.
 */
import { median, robustLine, type Seconds } from "../../units/index.ts";
import type { Contacts } from "./contacts.ts";
import type { PlaceOfStroke, PlayedStroke } from "./playedStroke.ts";

/** Main strokes on each side. Our choice: two cycles of a short rudiment, so that a ramp is hardly bent in them. */
const AROUND = 8;

/** Seconds a felt beat, by strike. */
export class BeatLengths {
  readonly #seconds: readonly Seconds[];

  constructor(seconds: readonly Seconds[]) {
    this.#seconds = seconds;
  }

  at(strike: number): Seconds {
    return this.#seconds[strike] ?? Number.NaN;
  }
}

/** Intervals are taken over this many main strokes: their spread is then shared by so many. */
const OVER = 3;

interface MainStroke {
  readonly strike: number;
  readonly time: Seconds;
  readonly beat: number;
}

/** For the figures; `undefined` where too little was matched to tell any. */
export function beatLengths(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  places: readonly PlaceOfStroke[],
): BeatLengths | undefined {
  return lengthsBy(
    mainStrokes(contacts, played, places),
    played.length,
    (around) =>
      robustLine(
        around.map(({ beat }) => beat),
        around.map(({ time }) => time),
      ).slope,
  );
}

/** For matching; `undefined` where too little was matched to tell any. */
export function roughBeatLengths(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  places: readonly PlaceOfStroke[],
): BeatLengths | undefined {
  return lengthsBy(mainStrokes(contacts, played, places), played.length, (around) => {
    const over = Math.min(OVER, around.length - 1);
    return median(
      around.flatMap(({ time, beat }, at) => {
        const before = around[at - over];
        return before && beat > before.beat ? [(time - before.time) / (beat - before.beat)] : [];
      }),
    );
  });
}

function mainStrokes(
  contacts: Contacts,
  played: readonly PlayedStroke[],
  places: readonly PlaceOfStroke[],
): readonly MainStroke[] {
  return played.flatMap(({ time }, strike) => {
    const place = places[strike];
    if (typeof place !== "number" || contacts.isGrace(place)) return [];
    return [{ strike, time, beat: contacts.at(place).beat }];
  });
}

function lengthsBy(
  mains: readonly MainStroke[],
  strikes: number,
  lengthOf: (around: readonly MainStroke[]) => Seconds,
): BeatLengths | undefined {
  if (mains.length < 3) return undefined;
  const ofMains = mains.map((_, at) => {
    const from = Math.max(0, Math.min(at - AROUND, mains.length - 2 * AROUND - 1));
    return lengthOf(mains.slice(from, Math.max(at + AROUND, 2 * AROUND) + 1));
  });
  let next = 0;
  return new BeatLengths(
    Array.from({ length: strikes }, (_, strike) => {
      while (next < mains.length - 1 && (mains[next]?.strike ?? 0) < strike) next += 1;
      return ofMains[next] ?? Number.NaN;
    }),
  );
}
