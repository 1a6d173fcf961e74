/**
 * How the one thing to work on is practised: where, at which tempo to begin, in which steps. The steps are common
 * practice of lessons, no source: less of it first (one limb, one bar, slowly), then the whole.
 */
import {
  isFineWork,
  limbName,
  onBeat,
  type WorkOn,
  type WorkOnPlace,
} from "../../../engine/grading/index.ts";
import { familyOf, type Voice, voiceName } from "../../../engine/kit/index.ts";
import type { Bpm, Milliseconds } from "../../../engine/units/index.ts";

/**
 * Share of the take's tempo to begin with. Our choice: what is wrong in sound or in its place is learnt slowly; time
 * that runs and bars that are lost show only near the tempo they were lost at, and fine work begins near it.
 */
const BEGIN_AT: Readonly<Record<"slowly" | "nearly" | "there", number>> = {
  slowly: 0.7,
  nearly: 0.85,
  there: 1,
};
const SLOWEST_BPM: Bpm = 40;
/** Tempos from the first to the one the take was played at, both included. */
const RUNGS = 4;

/**
 * Tempos to practise at, rising, the last one as played; one only where nothing need be slower.
 *
 * @example
 * practiceTempos({ kind: "drift", percent: 3 }, { playedBpm: 100, bandMs: 30 }) // => [85, 90, 95, 100]
 */
export function practiceTempos(
  workOn: WorkOn,
  { playedBpm, bandMs }: { readonly playedBpm: Bpm; readonly bandMs: Milliseconds },
): readonly Bpm[] {
  const last = Math.round(playedBpm);
  const first = Math.max(Math.min(SLOWEST_BPM, last), Math.round(last * BEGIN_AT[paceOf(workOn, bandMs)]));
  const rungs = Array.from({ length: RUNGS }, (_, at) =>
    Math.round(first + ((last - first) * at) / (RUNGS - 1)),
  );
  return [...new Set(rungs)];
}

function paceOf(workOn: WorkOn, bandMs: Milliseconds): keyof typeof BEGIN_AT {
  if (workOn.kind === "nothing") return "there";
  const isNearly = workOn.kind === "drift" || workOn.kind === "form" || isFineWork(workOn, bandMs);
  return isNearly ? "nearly" : "slowly";
}

/**
 * Where in the take it is plainest, as a sentence; `null` when it shows nowhere in particular. The beat is left out
 * where the thing to work on names it already.
 */
export function whereWords(workOn: WorkOn, place: WorkOnPlace | null): string | null {
  if (place === null) return null;
  const beat = "beat" in workOn || workOn.kind === "form" ? "" : `, beat ${Math.floor(place.beat + 1e-3)}`;
  return `It is plainest in bar ${place.bar}${beat}.`;
}

/**
 * What is practised, one step after the other.
 *
 * @param voices those of the groove.
 */
export function practiceSteps(workOn: WorkOn, voices: readonly Voice[]): readonly string[] {
  switch (workOn.kind) {
    case "nothing":
      return [
        "Two minutes without a stop.",
        "Once softly, once loudly, at the same tempo.",
        "The next tempo up, when both feel alike.",
      ];
    case "no-match":
      return [
        "Count the bar aloud and point at each stroke on the staff.",
        "One bar, slowly, and stop. Was it what is written?",
        "Four bars in a row, when one is sure.",
      ];
    case "left-out":
    case "added":
    case "other-sound":
      return [
        `Count aloud and strike only the ${voiceName(workOn.voice)}, where it is written.`,
        `${pairWords(workOn.voice, voices)}.`,
        "Then the whole groove, one voice at a time.",
      ];
    case "beat-wanders":
    case "beat-leans":
      return [
        `Only the ${voiceName(workOn.voice)}, with the click, eight bars.`,
        `${pairWords(workOn.voice, voices)}, eight bars.`,
        `The whole groove, and listen to nothing but the ${voiceName(workOn.voice)} ${onBeat(workOn.beat)}.`,
      ];
    case "unison":
      return [
        `Only the ${limbName(workOn.limb)} and the ${limbName(workOn.against)}, where they are written together.`,
        "Listen for one sound, not two.",
        "Then the whole groove, softly.",
      ];
    case "drift":
      return [
        "Eight bars with the click, counting aloud.",
        "Four bars with it, four without. Where are you when it comes back?",
        "Sixteen bars without it, still counting.",
      ];
    case "touch":
    case "accents":
      return [
        `Only the ${voiceName(workOn.voice)}: two heights of the stick, low and high, nothing between.`,
        `${pairWords(workOn.voice, voices)}, as soft as you can.`,
        "The whole groove at that level, and only then louder.",
      ];
    case "ornament":
      return [
        `The ${workOn.ornament} alone: one stick low, the other high, let go together.`,
        "The same from the other hand.",
        "The bar it stands in, then the whole groove.",
      ];
    case "hi-hat":
      return [
        "The foot alone, with the count: down, up, down, where it is written.",
        "Foot and hi-hat hand together.",
        "Then the whole groove.",
      ];
    case "form":
      return [
        "Count the bars aloud while you play: 1 2 3 4, 2 2 3 4, and so on.",
        "Play the last bar and the one after it, round and round.",
        "The whole length, counting in silence.",
      ];
  }
}

/** Families of voices that keep the time, in the order in which they are looked for. Common practice, no source. */
const KEEPERS = ["hats", "cymbals", "pedal"] as const;
/** What a voice that keeps the time itself is played with. */
const GROUND = ["kick", "snare", "toms", "percussion"] as const;

/** "The snare and the ride": a voice with the one that keeps the time, or, if it does so itself, with the ground. */
function pairWords(voice: Voice, voices: readonly Voice[]): string {
  const itself = familyOf(voice);
  const keepsTime = KEEPERS.some((family) => family === itself);
  const partner = (keepsTime ? GROUND : KEEPERS)
    .map((family) => voices.find((other) => familyOf(other) === family))
    .find((other) => other !== undefined);
  return `The ${voiceName(voice)} and ${partner === undefined ? "a count aloud" : `the ${voiceName(partner)}`}`;
}
