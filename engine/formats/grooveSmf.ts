/**
 * A groove out as a Standard MIDI File, type 0, 480 ticks per quarter note.
 * Source: Standard MIDI Files 1.0, RP-001; percussion on channel 10, General MIDI System Level 1.
 */
import { type MidiEvent, writeMidi } from "midi-file";
import { type KitMap, noteFor } from "../kit/index.ts";
import { beatsPerQuarter, DYNAMIC_VELOCITY, type Groove, type Note, performed } from "../score/index.ts";
import { type Bpm, toNumber } from "../units/index.ts";

const TICKS_PER_QUARTER = 480;
const PERCUSSION_CHANNEL = 9;
/** MIDI clocks in a quarter note; a time signature says how many of them make a click, which is the felt beat. */
const CLOCKS_PER_QUARTER = 24;
/** A written flam's grace stroke, before the main one: the median measured on the Groove MIDI Dataset. */
const GRACE_SECONDS = 0.026;
/** How long each written stroke is held; drums do not sustain, any short value will do. */
const HELD_TICKS = 60;

/** Thrown when the map has no key for a voice of the groove. */
export class NoKeyError extends Error {
  override readonly name = "NoKeyError";
}

/**
 * The bytes of the groove as written, repeated to `bars` bars, feel applied.
 *
 * @param how `tempoBpm` in felt beats a minute; `map` gives the keys.
 * @throws NoKeyError when the map has no key for one of the groove's voices.
 */
export function writeGrooveSmf(
  groove: Groove,
  how: { readonly bars: number; readonly tempoBpm: Bpm; readonly map: KitMap },
): Uint8Array {
  const quarterBpm = how.tempoBpm / toNumber(beatsPerQuarter(groove.metre));
  const ticksPerSecond = (TICKS_PER_QUARTER * quarterBpm) / 60;
  const keys = performed(groove, how).flatMap(({ time, note }) =>
    keyStrokes(time, note, how.map, ticksPerSecond),
  );
  const ends = keys.flatMap((key) => [
    { tick: key.tick, order: 1, event: { ...key, type: "noteOn" as const } },
    { tick: key.tick + HELD_TICKS, order: 0, event: { ...key, velocity: 0, type: "noteOff" as const } },
  ]);
  ends.sort((a, b) => a.tick - b.tick || a.order - b.order || a.event.noteNumber - b.event.noteNumber);

  const track: MidiEvent[] = [
    { deltaTime: 0, meta: true, type: "trackName", text: groove.name },
    { deltaTime: 0, meta: true, type: "setTempo", microsecondsPerBeat: Math.round(60_000_000 / quarterBpm) },
    {
      deltaTime: 0,
      meta: true,
      type: "timeSignature",
      ...groove.metre,
      metronome: CLOCKS_PER_QUARTER / toNumber(beatsPerQuarter(groove.metre)),
      thirtyseconds: 8,
    },
  ];
  let tick = 0;
  for (const end of ends) {
    const { type, noteNumber, velocity } = end.event;
    track.push({ deltaTime: end.tick - tick, channel: PERCUSSION_CHANNEL, type, noteNumber, velocity });
    tick = end.tick;
  }
  track.push({ deltaTime: 0, meta: true, type: "endOfTrack" });
  const header = { format: 0 as const, numTracks: 1, ticksPerBeat: TICKS_PER_QUARTER };
  return Uint8Array.from(writeMidi({ header, tracks: [track] }));
}

interface KeyStroke {
  readonly tick: number;
  readonly noteNumber: number;
  readonly velocity: number;
}

function keyStrokes(time: number, note: Note, map: KitMap, ticksPerSecond: number): readonly KeyStroke[] {
  const noteNumber = noteFor(map, note.voice);
  if (noteNumber === undefined) throw new NoKeyError(`The map ${map.name} has no key for the ${note.voice}.`);
  const stroke = (seconds: number, velocity: number): KeyStroke => ({
    tick: Math.max(0, Math.round(seconds * ticksPerSecond)),
    noteNumber,
    velocity: Math.round(velocity * 127),
  });
  const graceCount = note.ornament === undefined ? 0 : note.ornament === "flam" ? 1 : 2;
  const graces = Array.from({ length: graceCount }, (_, index) =>
    stroke(time - (graceCount - index) * GRACE_SECONDS, DYNAMIC_VELOCITY.ghost),
  );
  return [...graces, stroke(time, DYNAMIC_VELOCITY[note.dynamic])];
}
