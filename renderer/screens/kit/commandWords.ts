/** What the Kit screen says of commands with the sticks. */
import { type KitMap, padFor, voiceName } from "../../../engine/kit/index.ts";
import type { Command, CommandStrike, Offered } from "../../session/commandStrike.ts";

export const COMMAND_NAMES: Readonly<Record<Command, string>> = {
  flag: "Flag this",
  again: "Again",
  next: "Next",
  stop: "Stop",
  "turn-round": "Turn round",
};

export const COMMAND_DOES: Readonly<Record<Command, string>> = {
  flag: "marks this moment of the lesson",
  again: "begins another take of the same, or sounds the question once more",
  next: "goes to another style, or to the next question",
  stop: "ends the take, or the round",
  "turn-round": "turns the roles round, where a round has two",
};

/** How a command is struck: "the rims of the high tom and the floor tom together". */
export function struckWords(strike: CommandStrike, map: KitMap): string {
  const nameOf = (pad: number): string => {
    const voice = padFor(map, pad)?.voice;
    return voice === undefined || voice === "unknown" ? `pad with key ${pad}` : voiceName(voice);
  };
  return strike.kind === "own-pad"
    ? `the ${nameOf(strike.pad)}, used for nothing else`
    : `the rims of ${strike.pads.map(nameOf).join(" and ")} together`;
}

export function askedWords(asked: Command | null): string {
  return asked === null
    ? "Two tom rims struck together with silence around them, or a pad of its own: never music, so it is no strike of the take."
    : `For “${COMMAND_NAMES[asked]}” strike the rims of two toms together, or one pad that you use for nothing else.`;
}

export function refusedWords(why: Extract<Offered, { kind: "refused" }>["why"]): string {
  switch (why) {
    case "music":
      return "That pad is played in music. Strike one that you use for nothing else, or the rims of two toms together.";
    case "not-tom-rims":
      return "Those are not the rims of two toms by this kit’s map. Strike two tom rims, or choose the map that knows them.";
    case "not-together":
      return "That was more than one moment. Strike both rims together, once, then wait.";
  }
}
