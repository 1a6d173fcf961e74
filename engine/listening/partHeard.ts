/**
 * Question: is the take a drum part that is known, or a passage of one?
 * Method: each beat of the take is as likely as each written beat makes it (`strokeRow.ts`). The likeliest walk along a part is
 * weighed against the likeliest walk through all known grooves and fills (`chain.ts`): what is played alone as well is no
 * part, so that it takes changes of groove, fills or strokes which only the part has at these places.
 */

import type { Background } from "./background.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import { type TakenBeats, walkLog } from "./chain.ts";
import { FILL_LENGTH_SHARES, FILLS_A_BAR, KNOWN_SHARE } from "./fillHabits.ts";
import { FILL_RATES } from "./fillLikelihood.ts";
import type { HeardPart } from "./hearing.ts";
import type { KnownParts } from "./knownParts.ts";
import { laidStrokes, nearPlaces } from "./laidStrokes.ts";
import { logAdd, logSum } from "./logSum.ts";
import type { PulseHypothesis } from "./pulse.ts";
import { rowLog } from "./strokeRow.ts";
import { beatOf, ratesLogs, usualBeat } from "./usualBar.ts";
import { tempoPrior } from "./weighing.ts";

/** A take as it may be read: the pulse, and where on it a beat is. */
export interface PartReading {
  readonly pulse: PulseHypothesis;
  readonly turn: number;
}

/** Who has parts on the Shelf plays one of them so often. Our choice. */
const A_PART = 0.2;
/** Beats are not independent of one another: so much of what they say together counts. Our choice. */
const COUNTS = 0.5;
/** A part is told from this chance on. */
const SURE = 0.5;
/** A fill begins on a beat in how many: bars of four beats. */
const FILLS_A_BEAT = FILLS_A_BAR / 4;

/** The part of the Shelf that was played; `undefined` where it is none, or cannot be told from what is played anyhow. */
export function partHeard(
  readings: readonly PartReading[],
  known: KnownParts,
  general: Background,
): HeardPart | undefined {
  if (known.parts.length === 0) return undefined;
  const felts = [...new Set(known.parts.flatMap(({ feltPerPulse }) => feltPerPulse))];
  const logs = new Float64Array(known.parts.length).fill(Number.NEGATIVE_INFINITY);
  let freely = Number.NEGATIVE_INFINITY;
  for (const reading of distinct(readings))
    for (const felt of felts) {
      const beats = takenBeats(reading, felt, known, general);
      freely = Math.max(freely, walkLog(known.freely, beats));
      const tempo = (60 * felt) / reading.pulse.beatSeconds;
      known.parts.forEach((part, index) => {
        if (!part.feltPerPulse.includes(felt)) return;
        logs[index] = Math.max(logs[index] ?? 0, walkLog(part.chain, beats) + tempoPrior(part, tempo));
      });
    }
  const weighed = [...logs].map((log) => COUNTS * (log + Math.log(A_PART / logs.length)));
  const all = logSum([...weighed, COUNTS * (freely + Math.log(1 - A_PART))]);
  const best = weighed.reduce((most, log, index) => (log > (weighed[most] ?? 0) ? index : most), 0);
  const confidence = Math.min(1, Math.exp((weighed[best] ?? 0) - all));
  const part = known.parts[best];
  return part && confidence > SURE ? { id: part.id, name: part.name, confidence } : undefined;
}

/** Readings on other pulses, or on other places of the beat. */
function distinct(readings: readonly PartReading[]): readonly PartReading[] {
  const phase = ({ turn }: PartReading): number =>
    ((turn % PLACES_PER_BEAT) + PLACES_PER_BEAT) % PLACES_PER_BEAT;
  return readings.filter(
    (one, index) =>
      readings.findIndex((other) => other.pulse === one.pulse && phase(other) === phase(one)) === index,
  );
}

function takenBeats(
  { pulse, turn }: PartReading,
  feltPerPulse: number,
  { rows, fills }: KnownParts,
  general: Background,
): TakenBeats {
  const beat = PLACES_PER_BEAT / feltPerPulse;
  const laid = laidStrokes(pulse, turn);
  const start = beatOf(laid[0]?.place ?? 0, { beat }) * beat;
  const strokes = laid.map((stroke) => ({ ...stroke, place: stroke.place - start }));
  const [first, last] = [strokes[0]?.place ?? 0, strokes.at(-1)?.place ?? 0];
  const count = beatOf(last, { beat }) + 1;
  const ofBeat = Array.from({ length: count }, (): (typeof strokes)[number][] => []);
  for (const stroke of strokes) ofBeat[beatOf(stroke.place, { beat })]?.push(stroke);
  const near = nearPlaces(pulse);
  const byRow = new Float64Array(rows.length * count);
  rows.forEach((row, index) => {
    ofBeat.forEach((struck, at) => {
      const isEnd = at === 0 || at === count - 1;
      const place = { from: at * beat, beat, near, ...(isEnd ? { heard: { from: first, to: last } } : {}) };
      byRow[index * count + at] = rowLog(row, struck, place);
    });
  });
  const bars = { beat, bar: beat, repeat: beat, repeatsFrom: 0, first, last, near, beats: count };
  const asFill = ratesLogs(strokes, bars, FILL_RATES);
  const anything = ratesLogs(strokes, bars, usualBeat(general)).map(
    (usual, at) => Math.log(0.5) + logAdd(usual, asFill[at] ?? 0),
  );
  return { count, byRow, anything, else: elsewhere({ count, byRow, anything }, fills) };
}

/** Something else over so many beats: a known fill, or any. */
function elsewhere(
  { count, byRow, anything }: Omit<TakenBeats, "else">,
  fills: KnownParts["fills"],
): readonly Float64Array[] {
  return FILL_LENGTH_SHARES.map((share, index) => {
    const length = index + 1;
    const ofLength = fills.filter((rows) => rows.length === length);
    const price = Math.log(FILLS_A_BEAT * share);
    return Float64Array.from({ length: count }, (_, end) => {
      const from = end - length + 1;
      if (from < 0) return Number.NEGATIVE_INFINITY;
      let any = 0;
      for (let at = from; at <= end; at += 1) any += anything[at] ?? 0;
      let log = Math.log(1 - KNOWN_SHARE) + any;
      for (const rows of ofLength) {
        let sum = Math.log(KNOWN_SHARE / ofLength.length);
        rows.forEach((row, at) => {
          sum += byRow[row * count + from + at] ?? 0;
        });
        if (sum > log) log = sum;
      }
      return price + log;
    });
  });
}
