/**
 * Takes as MIDI files, written here byte by byte and not with the program's own writer. 9,600 ticks a quarter note
 * at 120 a minute: a tick is 0.05 ms.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { GENERAL_MIDI } from "../../cli/maps.ts";
import { type Demonstration, demonstrate } from "../../engine/catalogue/index.ts";
import { noteFor } from "../../engine/kit/index.ts";
import type { Groove } from "../../engine/score/index.ts";
import { file, header, track, variableLength } from "../engine/formats/smfBytes.ts";

const TICKS_PER_QUARTER = 9600;
const TICKS_PER_SECOND = TICKS_PER_QUARTER * 2;

export interface Strike {
  /** Seconds from the start of the file. */
  readonly time: number;
  readonly note: number;
  /** 1 to 127. */
  readonly velocity: number;
}

/** Writes strikes, in any order, and gives the path back. */
export function writeTake(path: string, strikes: readonly Strike[]): string {
  let tick = 0;
  const events = [...strikes]
    .sort((a, b) => a.time - b.time || a.note - b.note)
    .map(({ time, note, velocity }) => {
      const at = Math.max(0, Math.round(time * TICKS_PER_SECOND));
      const delta = at - tick;
      tick = at;
      return [...variableLength(delta), 0x99, note, velocity];
    });
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, file(header(0, 1, TICKS_PER_QUARTER), track(...events)));
  return path;
}

/** A groove as a person might play it, from `from` seconds on. */
export function strikesOfGroove(groove: Groove, how: Demonstration, from = 0): readonly Strike[] {
  return demonstrate(groove, how).map(({ time, voice, velocity }) => {
    const note = noteFor(GENERAL_MIDI, voice);
    if (note === undefined) throw new Error(`General MIDI has no key for the ${voice}.`);
    return { time: time + from, note, velocity: Math.max(1, Math.round(velocity * 127)) };
  });
}
