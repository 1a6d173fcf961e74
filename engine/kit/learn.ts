/**
 * Learning a map by being hit: the program names a voice, the player strikes it, the key is noted.
 */
import type { NoteNumber } from "../units/index.ts";
import { type KitMap, parseKitMap } from "./kitMap.ts";
import type { Voice } from "./voice.ts";

/** The voices asked for, in the order they are asked: the kit as seen from the throne, left to right at last the feet. */
export const VOICES_TO_LEARN: readonly Voice[] = [
  "snare",
  "cross-stick",
  "hi-hat-closed",
  "hi-hat-open",
  "high-tom",
  "mid-tom",
  "floor-tom",
  "crash-left",
  "crash-right",
  "ride",
  "bell",
  "kick",
  "hi-hat-pedal",
];

/** A lesson under way: which voice is asked for next, what has been learnt, and the last thing to tell the player. */
export interface Learning {
  readonly asked: number;
  readonly learnt: readonly { readonly note: NoteNumber; readonly voice: Voice }[];
  /** Why the last strike was not taken: the pad already has a voice. */
  readonly refused?: { readonly note: NoteNumber; readonly voice: Voice };
}

export const NEW_LEARNING: Learning = { asked: 0, learnt: [] };

/** The voice the player should strike now, or `undefined` when all have been asked. */
export function voiceAsked(learning: Learning): Voice | undefined {
  return VOICES_TO_LEARN[learning.asked];
}

/** The player struck a pad. A pad that already has a voice is refused, with the reason, and asked again. */
export function struck(learning: Learning, note: NoteNumber): Learning {
  const voice = voiceAsked(learning);
  if (voice === undefined) return learning;
  const taken = learning.learnt.find((pad) => pad.note === note);
  if (taken) return { asked: learning.asked, learnt: learning.learnt, refused: taken };
  return { asked: learning.asked + 1, learnt: [...learning.learnt, { note, voice }] };
}

/** This kit has no such voice: go on to the next. */
export function skipped(learning: Learning): Learning {
  return { asked: learning.asked + 1, learnt: learning.learnt };
}

/**
 * The map learnt so far. Keys that `beneath` names and no strike has claimed keep their voice, so that rims
 * and edges that were not asked for are still heard.
 *
 * @throws KitMapError when nothing has been learnt and `beneath` is empty.
 */
export function learntMap(learning: Learning, name: string, beneath: KitMap): KitMap {
  const claimed = new Set(learning.learnt.map((pad) => pad.note));
  return parseKitMap(
    {
      id: "learnt",
      name,
      source: "learnt by being struck",
      hiHat: beneath.hiHat,
      pads: [
        ...learning.learnt.map((pad) => ({ ...pad, zone: "whole" })),
        ...beneath.pads.filter((pad) => !claimed.has(pad.note)),
      ],
    },
    name,
  );
}
