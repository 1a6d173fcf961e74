/**
 * The keys of this computer as a kit, for when there is none at hand. A key becomes the MIDI message the kit
 * would send by the map in use, and takes the same path.
 */
import { type KitMap, noteFor, type Voice } from "../../engine/kit/index.ts";
import { DYNAMIC_VELOCITY, type Dynamic } from "../../engine/score/index.ts";
import type { TimedMessage } from "../midi/timedMessage.ts";

/**
 * Keys by their place on the board (`KeyboardEvent.code`), so that the layout holds on every language's keyboard:
 * the home row from the left crash to the right one, toms above, as they lie before a player.
 */
export const KEY_OF_VOICE: Partial<Readonly<Record<Voice, string>>> = {
  "crash-left": "KeyA",
  "hi-hat-open": "KeyS",
  "hi-hat-closed": "KeyD",
  snare: "KeyF",
  "cross-stick": "KeyG",
  "hi-hat-pedal": "KeyH",
  kick: "KeyJ",
  ride: "KeyK",
  bell: "KeyL",
  "crash-right": "Semicolon",
  "high-tom": "KeyT",
  "mid-tom": "KeyY",
  "floor-tom": "KeyU",
};

const VOICE_OF_KEY: ReadonlyMap<string, Voice> = new Map(
  (Object.entries(KEY_OF_VOICE) as [Voice, string][]).map(([voice, code]) => [code, voice]),
);

/** What is printed on a key of an English board. */
export function keyCap(code: string): string {
  return code === "Semicolon" ? ";" : code.replace("Key", "");
}

/** Kits send drums on channel 10, which is 9 counted from nought. Source: General MIDI 1 (MMA 1991). */
const DRUM_CHANNEL = 9;

/** Controls that take letters themselves: typing into them, or finding an entry by its first letters. */
const TAKES_LETTERS =
  'input:not([type="checkbox"], [type="radio"], [type="range"], [type="file"]), textarea, select, [contenteditable=""], [contenteditable="true"], [role="listbox"], [role="option"], [role="combobox"], [role="menu"], [role="menuitem"], [aria-haspopup="listbox"]';

function dynamicOf(event: Pick<KeyboardEvent, "shiftKey" | "altKey">): Dynamic {
  if (event.altKey) return "ghost";
  return event.shiftKey ? "accent" : "plain";
}

/** The parts of a key press that matter here. */
export type KeyPress = Pick<
  KeyboardEvent,
  "code" | "repeat" | "ctrlKey" | "metaKey" | "shiftKey" | "altKey" | "timeStamp"
>;

/** The message of a key press, or `undefined` for a key that is no drum, a held key, or a voice the map lacks. */
export function keyMessage(press: KeyPress, map: KitMap): TimedMessage | undefined {
  const voice = VOICE_OF_KEY.get(press.code);
  if (!voice || press.repeat || press.ctrlKey || press.metaKey) return undefined;
  const note = noteFor(map, voice);
  if (note === undefined) return undefined;
  const velocity = Math.round(DYNAMIC_VELOCITY[dynamicOf(press)] * 127);
  return {
    time: press.timeStamp / 1000,
    message: { kind: "note-on", channel: DRUM_CHANNEL, note, velocity },
  };
}

/** Listens to the keys of a window; returns the way to stop. */
export function listenToKeys(mapNow: () => KitMap, onMessage: (timed: TimedMessage) => void): () => void {
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.target instanceof Element && event.target.closest(TAKES_LETTERS)) return;
    const timed = keyMessage(event, mapNow());
    if (!timed) return;
    // With Alt a letter would open a menu of the browser.
    event.preventDefault();
    onMessage(timed);
  };
  window.addEventListener("keydown", onKeyDown);
  return () => window.removeEventListener("keydown", onKeyDown);
}
