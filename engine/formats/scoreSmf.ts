/**
 * Written music out as a Standard MIDI File, type 0: a groove, a fill, a phrase, or a part with its tempo and metre map.
 * Source: Standard MIDI Files 1.0, RP-001; percussion on channel 10, General MIDI System Level 1.
 */
import { type MidiEvent, writeMidi } from "midi-file";
import { type KitMap, noteFor, voiceName } from "../kit/index.ts";
import {
  beatsPerBar,
  beatsPerQuarter,
  DYNAMIC_VELOCITY,
  type Metre,
  type Note,
  playedBeat,
  type Stretch,
} from "../score/index.ts";
import { type Bpm, type Fraction, toNumber } from "../units/index.ts";

export const TICKS_PER_QUARTER = 480;
const PERCUSSION_CHANNEL = 9;
/** MIDI clocks in a quarter note; a time signature says how many of them make a click, which is the felt beat. */
const CLOCKS_PER_QUARTER = 24;
/** A written flam's grace stroke, before the main one: the median measured on the Groove MIDI Dataset. */
const GRACE_SECONDS = 0.026;
/** How long each written stroke is held, as a share of a quarter; drums do not sustain, any short value will do. */
const HELD = 1 / 8;

/** Thrown when the map has no key for a voice of the score. */
export class NoKeyError extends Error {
  override readonly name = "NoKeyError";
}

/** Written music in a row; see `unfolded` for a part. */
export interface WrittenScore {
  readonly name: string;
  readonly stretches: readonly (Stretch & {
    /** Where the tempo changes within the stretch: felt beats from its start, and felt beats a minute. */
    readonly tempoChanges?: readonly { readonly position: Fraction; readonly tempoBpm: Bpm }[];
  })[];
}

/**
 * The bytes of the score, feel applied.
 *
 * @param how `map` gives the keys; 480 ticks a quarter note unless `ticksPerQuarter` says otherwise.
 * @throws NoKeyError when the map has no key for one of the voices.
 */
export function writeSmf(
  { name, stretches }: WrittenScore,
  how: { readonly map: KitMap; readonly ticksPerQuarter?: number },
): Uint8Array {
  const ticksPerQuarter = how.ticksPerQuarter ?? TICKS_PER_QUARTER;
  const track: Timed[] = [
    { tick: 0, order: 0, event: { meta: true, type: "trackName", text: asciiOf(name) } },
  ];
  let start = 0;
  let metre: Metre | undefined;
  for (const stretch of stretches) {
    const ticksPerBeat = ticksPerQuarter / toNumber(beatsPerQuarter(stretch.metre));
    track.push(tempoAt(start, stretch.tempoBpm, stretch.metre));
    if (metre?.numerator !== stretch.metre.numerator || metre.denominator !== stretch.metre.denominator)
      track.push(metreAt(start, stretch.metre));
    metre = stretch.metre;
    for (const { position, tempoBpm } of stretch.tempoChanges ?? [])
      track.push(tempoAt(start + Math.round(toNumber(position) * ticksPerBeat), tempoBpm, stretch.metre));
    const ticksPerSecond = (stretch.tempoBpm * ticksPerBeat) / 60;
    for (const note of stretch.notes) {
      const tick = start + playedBeat(stretch.feel, toNumber(note.position)) * ticksPerBeat;
      track.push(...strokesAt(tick, note, { map: how.map, ticksPerSecond, held: ticksPerQuarter * HELD }));
    }
    start += stretch.bars * beatsPerBar(stretch.metre) * ticksPerBeat;
  }
  return bytesOf(track, ticksPerQuarter);
}

interface Timed {
  readonly tick: number;
  /** At one moment: tempo and metre, then releases, then strikes. */
  readonly order: number;
  readonly event: DistributedOmit<MidiEvent, "deltaTime">;
}

type DistributedOmit<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never;

function tempoAt(tick: number, tempoBpm: Bpm, metre: Metre): Timed {
  const quarterBpm = tempoBpm / toNumber(beatsPerQuarter(metre));
  const microsecondsPerBeat = Math.min(
    SLOWEST_MICROSECONDS,
    Math.max(1, Math.round(60_000_000 / quarterBpm)),
  );
  return { tick, order: 0, event: { meta: true, type: "setTempo", microsecondsPerBeat } };
}

/** A tempo has three bytes (RP-001). */
const SLOWEST_MICROSECONDS = 0xffffff;

function metreAt(tick: number, metre: Metre): Timed {
  const metronome = Math.round(CLOCKS_PER_QUARTER / toNumber(beatsPerQuarter(metre)));
  return {
    tick,
    order: 0,
    event: { meta: true, type: "timeSignature", ...metre, metronome, thirtyseconds: 8 },
  };
}

/** A text event holds ASCII (RP-001); other letters become question marks. */
function asciiOf(text: string): string {
  return text.replace(/[^ -~]/gu, "?");
}

const GRACES = { flam: 1, drag: 2 } as const;

/** A written stroke with its grace strokes, and the release of each. */
function strokesAt(
  tick: number,
  note: Note,
  how: { readonly map: KitMap; readonly ticksPerSecond: number; readonly held: number },
): readonly Timed[] {
  const noteNumber = noteFor(how.map, note.voice);
  if (noteNumber === undefined)
    throw new NoKeyError(`The map ${how.map.name} has no key for the ${voiceName(note.voice)}.`);
  const graces = note.ornament === undefined ? 0 : GRACES[note.ornament];
  return Array.from({ length: graces + 1 }, (_, index) => {
    const before = (graces - index) * GRACE_SECONDS * how.ticksPerSecond;
    const at = Math.max(0, Math.round(tick - before));
    const strength = DYNAMIC_VELOCITY[index < graces ? "ghost" : note.dynamic];
    const key = { channel: PERCUSSION_CHANNEL, noteNumber };
    return [
      {
        tick: at,
        order: 2,
        event: { ...key, type: "noteOn" as const, velocity: Math.round(strength * 127) },
      },
      { tick: at + how.held, order: 1, event: { ...key, type: "noteOff" as const, velocity: 0 } },
    ];
  }).flat();
}

function keyOf({ event }: Timed): number {
  return "noteNumber" in event ? event.noteNumber : -1;
}

function bytesOf(track: readonly Timed[], ticksPerQuarter: number): Uint8Array {
  const inOrder = track
    .map((each) => ({ ...each, tick: Math.round(each.tick) }))
    .sort((a, b) => a.tick - b.tick || a.order - b.order || keyOf(a) - keyOf(b));
  let tick = 0;
  const events = inOrder.map(({ tick: at, event }): MidiEvent => {
    const deltaTime = at - tick;
    tick = at;
    return { deltaTime, ...event };
  });
  const end: MidiEvent = { deltaTime: 0, meta: true, type: "endOfTrack" };
  const header = { format: 0 as const, numTracks: 1, ticksPerBeat: ticksPerQuarter };
  return Uint8Array.from(writeMidi({ header, tracks: [[...events, end]] }));
}
