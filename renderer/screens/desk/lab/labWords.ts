/** A kit of the lab in words, as its own computer told the desk. */
import type { Person } from "../../../../engine/rooms/index.ts";
import { formatMs } from "../../../charts/index.ts";

/** From a chance of so much on it is said without a doubt; below the other, it may be. Our choice. */
const SURE = 0.9;

/** What is played, and whether that is doubtful. */
export function playedAs({ heard, strikes }: Pick<Person, "heard" | "strikes">): {
  readonly words: string;
  readonly isDoubtful: boolean;
} {
  if (heard === null) return { words: strikes === 0 ? "nothing yet" : "listening", isDoubtful: false };
  if (heard.styleName === null)
    return { words: heard.tempoBpm === null ? "nothing with a pulse" : "none it knows", isDoubtful: false };
  return { words: heard.styleName, isDoubtful: heard.confidence < SURE };
}

export function heardWords(kit: Pick<Person, "heard" | "strikes">): string {
  const { words, isDoubtful } = playedAs(kit);
  return isDoubtful ? `${words}, perhaps` : words;
}

/** Only against a click is there anything to lean against. */
export function leanWords({ heard }: Pick<Person, "heard">): string {
  if (heard === null || heard.spreadMs === null) return "–";
  return heard.leanMs === null ? "no click" : formatMs(heard.leanMs);
}

export function clearnessWords({ heard }: Pick<Person, "heard">): string {
  return heard?.spreadMs == null ? "–" : `${Math.round(heard.spreadMs)} ms`;
}

export function voicesWords({ heard }: Pick<Person, "heard">): string {
  return heard?.voiceAccuracy == null ? "–" : `${Math.round(heard.voiceAccuracy * 100)} in 100 as written`;
}

/** For who sits near: how steady, which share of the voices, how fast; empty before anything was told. */
export function figuresWords(kit: Pick<Person, "heard">): string {
  const { heard } = kit;
  return [
    ...(heard?.spreadMs == null ? [] : [`spread ${clearnessWords(kit)}`]),
    ...(heard?.voiceAccuracy == null ? [] : [voicesWords(kit)]),
    ...(heard?.tempoBpm == null ? [] : [`${Math.round(heard.tempoBpm)} a minute`]),
  ].join(", ");
}
