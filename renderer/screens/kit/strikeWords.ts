/** A line of the log in the words of the Kit screen. */
import { type Hit, type KitEvent, voiceName } from "../../../engine/kit/index.ts";

/** What was struck: an unknown pad with its key, so that it can be told apart. */
export function struckName({ voice, pad }: Pick<Hit, "voice" | "pad">): string {
  return voice === "unknown" ? `unknown pad, key ${pad}` : voiceName(voice);
}

/**
 * How far the hi-hat is open.
 *
 * @example
 * opennessWords(0.5) // => "half open"
 */
export function opennessWords(openness: number): string {
  if (openness < 0.05) return "shut";
  if (openness < 0.4) return "a little open";
  if (openness < 0.7) return "half open";
  if (openness < 0.95) return "nearly open";
  return "wide open";
}

/** One line of the list of strikes. */
export interface StrikeLine {
  readonly what: string;
  /** Zone, or what became of it. */
  readonly how: string;
  /** 1 to 127 as the kit sent it; empty where there is none. */
  readonly strength: string;
  readonly time: string;
  readonly key: string;
}

/** Session time as minutes, seconds and thousandths: "1:02.345". */
export function timeWords(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  return `${minutes}:${(seconds - minutes * 60).toFixed(3).padStart(6, "0")}`;
}

/** The line of an event; `undefined` for a mere movement of the pedal, which has its own place. */
export function strikeLine(event: KitEvent): StrikeLine | undefined {
  switch (event.kind) {
    case "hit":
      return hitLine(event.hit, hitHow(event.hit));
    case "retrigger":
      return hitLine(event.hit, "double trigger, left out");
    case "choke":
      return {
        what: struckName(event),
        how: event.held ? "choked" : "let go",
        strength: "",
        time: timeWords(event.time),
        key: String(event.pad),
      };
    case "hi-hat":
      return undefined;
  }
}

function hitHow(hit: Hit): string {
  const zone = hit.zone === "whole" ? "" : hit.zone;
  const open = hit.openness === undefined ? "" : opennessWords(hit.openness);
  return [zone, open].filter((part) => part !== "").join(", ");
}

function hitLine(hit: Hit, how: string): StrikeLine {
  return {
    what: struckName(hit),
    how,
    strength: String(Math.round(hit.velocity * 127)),
    time: timeWords(hit.time),
    key: String(hit.pad),
  };
}
