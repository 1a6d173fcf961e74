/**
 * The ear at the kit's end of the cable: MIDI messages in, strikes out.
 */
import type { NoteNumber, Seconds } from "../units/index.ts";
import type { Hit } from "./hit.ts";
import { type KitMap, padFor } from "./kitMap.ts";
import type { MidiMessage } from "./midiMessage.ts";
import { RetriggerFilter } from "./retrigger.ts";
import type { Voice } from "./voice.ts";

/** What one message came to. */
export type KitEvent =
  | { readonly kind: "hit"; readonly hit: Hit }
  /** A double trigger: kept apart so that it can be shown and counted, never graded. */
  | { readonly kind: "retrigger"; readonly hit: Hit }
  /** A cymbal was grabbed, or let go again. */
  | {
      readonly kind: "choke";
      readonly time: Seconds;
      readonly voice: Voice;
      readonly pad: NoteNumber;
      readonly held: boolean;
    }
  /** The hi-hat pedal moved: 0 shut to 1 wide open. */
  | { readonly kind: "hi-hat"; readonly time: Seconds; readonly openness: number };

const HI_HATS: ReadonlySet<Voice> = new Set<Voice>(["hi-hat-closed", "hi-hat-open", "hi-hat-pedal"]);

/** Pressure from which a cymbal counts as grabbed. Kits send 127 for grabbed and 0 for let go (common practice, no source). */
const GRABBED_FROM = 64;

/**
 * Turns a kit's messages into events. Holds only what the next message needs: how far the hi-hat is open, and
 * the last strike on each pad.
 *
 * @example
 * new KitEar(map).hear({ kind: "note-on", channel: 9, note: 36, velocity: 127 }, 2)
 * // => { kind: "hit", hit: { time: 2, voice: "kick", zone: "head", velocity: 1, pad: 36 } }
 */
export class KitEar {
  readonly #map: KitMap;
  readonly #retriggers = new RetriggerFilter();
  #openness: number | undefined;

  constructor(map: KitMap) {
    this.#map = map;
  }

  /** The event a message comes to, or `undefined` for one that means nothing to a drummer (a note-off, say). */
  hear(message: MidiMessage, time: Seconds): KitEvent | undefined {
    switch (message.kind) {
      case "note-on": {
        const hit = this.#strike(message.note, message.velocity, time);
        return { kind: this.#retriggers.isRetrigger(hit) ? "retrigger" : "hit", hit };
      }
      case "key-pressure": {
        const voice = padFor(this.#map, message.note)?.voice ?? "unknown";
        return { kind: "choke", time, voice, pad: message.note, held: message.pressure >= GRABBED_FROM };
      }
      case "control": {
        const { controller, shutAt, openAt } = this.#map.hiHat;
        if (message.controller !== controller) return undefined;
        const share = openAt === shutAt ? 0 : (message.value - shutAt) / (openAt - shutAt);
        this.#openness = Math.min(1, Math.max(0, share));
        return { kind: "hi-hat", time, openness: this.#openness };
      }
      default:
        return undefined;
    }
  }

  #strike(note: NoteNumber, velocity: number, time: Seconds): Hit {
    const pad = padFor(this.#map, note);
    const voice = pad?.voice ?? "unknown";
    const hit: Hit = { time, voice, zone: pad?.zone ?? "whole", velocity: velocity / 127, pad: note };
    return HI_HATS.has(voice) && this.#openness !== undefined ? { ...hit, openness: this.#openness } : hit;
  }
}
