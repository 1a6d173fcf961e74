/**
 * The same groove on other sounds: the time on the ride or the hi-hat, the back-beat on the snare or across its rim.
 */
import type { Voice } from "../kit/index.ts";
import { type Dynamic, type Groove, inOrder, type Note } from "../score/index.ts";
import { compare } from "../units/index.ts";

export interface Orchestration {
  /** All strokes on the hi-hat by stick, closed or open, go to the ride; or those on the ride and its bell to the hi-hat. */
  readonly timeOn?: "hi-hat-closed" | "ride";
  /** Plain and accented strokes on the snare go across the rim, or back. Ghost notes stay on the head. */
  readonly backBeatOn?: "snare" | "cross-stick";
}

const TIME: Readonly<Record<"hi-hat-closed" | "ride", readonly Voice[]>> = {
  "hi-hat-closed": ["ride", "bell"],
  ride: ["hi-hat-closed", "hi-hat-open"],
};
const BACK_BEAT: Readonly<Record<"snare" | "cross-stick", Voice>> = {
  snare: "cross-stick",
  "cross-stick": "snare",
};
const STRENGTH: Readonly<Record<Dynamic, number>> = { ghost: 0, plain: 1, accent: 2 };

/** The groove so orchestrated. Where two strokes of one place come to one voice, the stronger is left. */
export function orchestrated(groove: Groove, { timeOn, backBeatOn }: Orchestration): Groove {
  const onto = ({ voice, dynamic }: Note): Voice => {
    if (timeOn && TIME[timeOn].includes(voice)) return timeOn;
    if (backBeatOn && BACK_BEAT[backBeatOn] === voice && dynamic !== "ghost") return backBeatOn;
    return voice;
  };
  const moved = groove.notes.map((note) => ({ ...note, voice: onto(note) }));
  const left = moved.filter((note) => note === strongestOf(moved.filter((other) => samePlace(note, other))));
  const struck = new Set(left.map(({ voice }) => voice));
  // Each voice that is left where its line was; one that is new where the line it comes from was.
  const lines = groove.voices.flatMap((voice) => {
    const targets = groove.notes.flatMap((note) => (note.voice === voice ? [onto(note)] : []));
    return [voice, ...targets];
  });
  const voices = [...new Set(lines)].filter((voice) => struck.has(voice));
  return { ...groove, voices, notes: inOrder(left, voices) };
}

function samePlace(a: Note, b: Note): boolean {
  return a.voice === b.voice && compare(a.position, b.position) === 0;
}

function strongestOf(notes: readonly Note[]): Note | undefined {
  return [...notes].sort((a, b) => STRENGTH[b.dynamic] - STRENGTH[a.dynamic])[0];
}
