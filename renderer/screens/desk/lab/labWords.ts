/** A kit of the lab in words, as its own computer told the desk. */
import type { Person } from "../../../../engine/rooms/index.ts";
import { formatMs } from "../../../charts/index.ts";

/** From a chance of so much on it is said without a doubt; below the other, it may be. Our choice. */
const SURE = 0.9;

export function heardWords({ heard, strikes }: Pick<Person, "heard" | "strikes">): string {
  if (heard === null) return strikes === 0 ? "nothing yet" : "listening";
  if (heard.styleName === null) return heard.tempoBpm === null ? "nothing with a pulse" : "none it knows";
  return heard.confidence >= SURE ? heard.styleName : `${heard.styleName}, perhaps`;
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
