/**
 * Standard MIDI Files in: types 0 and 1, any division, tempo and metre maps.
 * Source: Standard MIDI Files 1.0, RP-001 (MIDI Manufacturers Association 1996).
 */
import type { MidiMessage } from "../kit/index.ts";
import { FOUR_FOUR, type Metre } from "../score/index.ts";
import type { Bpm, Seconds } from "../units/index.ts";
import { chunksOf, type Division, SmfError } from "./smfChunks.ts";
import { type TrackEvent, trackEvents } from "./smfTrack.ts";

export type { Division };
export { SmfError };

/** A message with its moment, tempo changes applied. */
export interface TimedMessage {
  readonly time: Seconds;
  readonly message: MidiMessage;
}

export interface SmfFile {
  readonly format: 0 | 1;
  readonly division: Division;
  /** All tracks together, in order of time; at one moment in order of track and of place in it. */
  readonly events: readonly TimedMessage[];
  /** Every tempo the file says, in quarters a minute, from time 0; 120 where it says none. */
  readonly tempos: readonly { readonly time: Seconds; readonly tempoBpm: Bpm }[];
  /** Every time signature the file says, from time 0; 4/4 where it says none. */
  readonly metres: readonly { readonly time: Seconds; readonly metre: Metre }[];
}

const DEFAULT_TEMPO_MICROSECONDS = 500_000;
/** The whole human data set has a third of a million strikes. Our choice, so that memory stays bounded. */
const MOST_EVENTS = 1_500_000;
/** A week. Our choice: longer is a broken file, and its empty bars would still have to be counted. */
const LONGEST: Seconds = 7 * 86_400;

/**
 * Reads a file of type 0 or 1 with any division, ticks per quarter note or SMPTE.
 *
 * @throws SmfError with a sentence that says what is wrong with the file.
 */
export function readSmf(bytes: Uint8Array): SmfFile {
  const { format, division, tracks } = chunksOf(bytes);
  const merged: TrackEvent[] = [];
  for (const track of tracks) {
    for (const event of trackEvents(track, MOST_EVENTS - merged.length)) merged.push(event);
  }
  merged.sort((a, b) => a.tick - b.tick);

  const events: TimedMessage[] = [];
  const tempos: { time: Seconds; tempoBpm: Bpm }[] = [];
  const metres: { time: Seconds; metre: Metre }[] = [];
  let tick = 0;
  let time = 0;
  let secondsPerTick = tickSeconds(division, DEFAULT_TEMPO_MICROSECONDS);
  for (const event of merged) {
    time += (event.tick - tick) * secondsPerTick;
    tick = event.tick;
    if (event.kind === "message") {
      events.push({ time, message: event.message });
    } else if (event.kind === "metre") {
      metres.push({ time, metre: event.metre });
    } else {
      secondsPerTick = tickSeconds(division, event.microsecondsPerQuarter);
      tempos.push({ time, tempoBpm: 60_000_000 / event.microsecondsPerQuarter });
    }
  }
  if (time > LONGEST)
    throw new SmfError(
      `The file lasts ${Math.round(time / 3600)} hours; a take lasts a week at most. Cut it into shorter files.`,
    );
  if (tempos[0]?.time !== 0) tempos.unshift({ time: 0, tempoBpm: 60_000_000 / DEFAULT_TEMPO_MICROSECONDS });
  if (metres[0]?.time !== 0) metres.unshift({ time: 0, metre: FOUR_FOUR });
  return { format, division, events, tempos, metres };
}

function tickSeconds(division: Division, microsecondsPerQuarter: number): Seconds {
  return division.of === "second" ? 1 / division.ticks : microsecondsPerQuarter / 1_000_000 / division.ticks;
}
