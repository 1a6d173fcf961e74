/** A groove out as a Standard MIDI File, repeated to so many bars. */
import type { KitMap } from "../kit/index.ts";
import { type Groove, repeated } from "../score/index.ts";
import type { Bpm } from "../units/index.ts";
import { writeSmf } from "./scoreSmf.ts";

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
  const { bars, tempoBpm, map } = how;
  const stretch = { ...groove, tempoBpm, bars, notes: repeated(groove, bars) };
  return writeSmf({ name: groove.name, stretches: [stretch] }, { map });
}
