/**
 * A take out of a file: its strikes as a map names them.
 */
import { type Hit, KitEar, type KitMap } from "../kit/index.ts";
import type { SmfFile } from "./smf.ts";

/**
 * All strikes of the file in order of time, retriggers included (the reader decides what to do with them).
 * Strikes on keys the map does not name have the voice `unknown`.
 */
export function strikesOf(file: SmfFile, map: KitMap): readonly Hit[] {
  const ear = new KitEar(map);
  const hits: Hit[] = [];
  for (const { time, message } of file.events) {
    const event = ear.hear(message, time);
    if (event?.kind === "hit" || event?.kind === "retrigger") hits.push(event.hit);
  }
  return hits;
}
