/** How a room is told of. */
import type { Delay, Person, Role } from "../../../../engine/rooms/index.ts";
import type { Seconds } from "../../../../engine/units/index.ts";
import type { Standing } from "../../../room/roomConnection.ts";

export const ROLE_NAMES: Readonly<Record<Role, string>> = {
  player: "trades phrases",
  watcher: "only watches",
  kit: "a kit of a lab",
  desk: "the desk of a lab",
};

const DISTANCES = {
  room: "as near as in one room",
  city: "as far as across a city",
  continent: "as far as across a continent",
} as const;

/** How the room stands, in a sentence. */
export function standingSentence(standing: Standing | null, room: string): string {
  switch (standing?.stage) {
    case undefined:
    case "left":
      return "In no room. Rounds here go on without one.";
    case "joining":
      return `Joining the room ${room}.`;
    case "joined":
      return `In the room ${room}.`;
    case "away":
    case "refused":
      return standing.sentence;
  }
}

/** The delay and why, in sentences. */
export function delayWords(delay: Delay): string {
  const far = `The far player is ${DISTANCES[delay.distance]}.`;
  switch (delay.kind) {
    case "none":
      return `${far} What they strike sounds here as it comes.`;
    case "half-bar":
      return `${far} What they strike sounds here half a bar later (${secondsWords(delay.seconds)}): by then all of it has come.`;
    case "one-bar":
      return `${far} What they strike sounds here a bar later (${secondsWords(delay.seconds)}): by then all of it has come.`;
    case "too-far":
      return `${far} Even a bar is too short for all of it to come: play slower, with bars of ${secondsWords(delay.neededSeconds)} or more.`;
  }
}

function secondsWords(seconds: Seconds): string {
  return `${seconds.toFixed(1)} s`;
}

/** A time on the way: "12 ms"; with a figure after the point below ten. */
export function wayWords(seconds: Seconds): string {
  const ms = seconds * 1000;
  return `${ms < 10 ? ms.toFixed(1) : ms.toFixed(0)} ms`;
}

/** How far somebody's clock can be believed. */
export function clockWords({ clock }: Person): string {
  return clock === null ? "not answered yet" : `to ${wayWords(clock.uncertainty)}`;
}

export function strikesWords({ strikes, lost }: Person): string {
  const heard = strikes === 1 ? "1 strike" : `${strikes} strikes`;
  return lost === 0 ? heard : `${heard}, ${lost} lost`;
}
