import type { Call } from "../../../engine/rounds/index.ts";
import { HOUSE_SPEAKER, type SyllableSet, sayWords } from "../../../engine/speech/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import { wordsOf } from "./phraseStrokes.ts";

/** Sample rate of what the program says: all that a formant voice has, and little to compute. */
const VOICE_RATE = 24_000;
const STRUCK_VELOCITY = 0.7;

/** Lets a call sound: said, or struck by the program where it is to be said back. `undefined`: there is nothing to say. */
export function soundCall(
  call: Call,
  sound: Pick<SoundDesk, "playSaid" | "playStrokes">,
  syllables: SyllableSet,
): Playing | undefined {
  if (call.roles === "student-says")
    return sound.playStrokes(
      call.strokes.map(({ time, voice }) => ({ time, voice, velocity: STRUCK_VELOCITY })),
    );
  const words = wordsOf(call, syllables);
  if (words.length === 0) return undefined;
  return sound.playSaid(sayWords(words, HOUSE_SPEAKER, VOICE_RATE, seededChance(1)));
}
