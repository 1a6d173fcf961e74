/** Why this groove and not that one, in the words of a teacher: voices and places of the bar. */
import { numberWord } from "../../../../engine/grading/index.ts";
import { voiceName } from "../../../../engine/kit/index.ts";
import type { Candidate, Evidence, Heard } from "../../../../engine/listening/index.ts";
import { beatsPerBar } from "../../../../engine/score/index.ts";

export interface Why {
  readonly heading: string;
  /** Whole sentences. */
  readonly reasons: readonly string[];
}

/** So many places are told; more would be read as a list and not as a reason. Our choice. */
const MOST_FOR = 6;
const MOST_AGAINST = 3;
/** Less than one stroke in four bars is silence with a slip in it. Our choice. */
const STROKES_FROM = 0.25;

/** What spoke for the best candidate before the second, and what still speaks against it. */
export function whyWords(hearing: Heard): Why {
  const [best, second] = hearing.candidates;
  const beats = beatsPerBar(hearing.pulse.metre);
  if (best === undefined) return { heading: "Why none I know", reasons: [] };
  const against = strongest(best.spokeAgainst, MOST_AGAINST);
  if (!hearing.known) {
    return {
      heading: "Why none I know",
      reasons: [`The nearest is ${inSentence(best.name)}.`, ...againstWords(against, beats)],
    };
  }
  const telling = strongest(second ? tellingApart(best, second) : best.spokeFor, MOST_FOR);
  return {
    heading: second
      ? `Why ${inSentence(best.name)} and not ${inSentence(second.name)}`
      : `Why ${inSentence(best.name)}`,
    reasons: [...forWords(telling, beats), ...againstWords(against, beats)],
  };
}

/** A name as it stands inside a sentence; one with further capitals keeps them all. */
export function inSentence(name: string): string {
  const rest = name.slice(1);
  return rest === rest.toLowerCase() ? name.charAt(0).toLowerCase() + rest : name;
}

/**
 * What told the one from the other: each place weighed by what it said for the first less what it said for the
 * second. The second's own evidence counts only where both laid their bars alike, since a place means nothing else.
 */
function tellingApart(best: Candidate, second: Candidate): readonly Evidence[] {
  const ofBest = [...best.spokeFor, ...best.spokeAgainst];
  const ofSecond = laidAlike(ofBest, second) ? [...second.spokeFor, ...second.spokeAgainst] : [];
  const weightIn = (all: readonly Evidence[], evidence: Evidence): number =>
    all.find((other) => samePlace(other, evidence))?.weight ?? 0;
  const places = [
    ...best.spokeFor,
    ...ofSecond.filter((each) => !ofBest.some((other) => samePlace(other, each))),
  ];
  const telling = places
    .map((evidence) => ({ ...evidence, weight: weightIn(ofBest, evidence) - weightIn(ofSecond, evidence) }))
    .filter(({ weight }) => weight > 0);
  // Two grooves that share all their strong places differ in the weak ones: then what spoke for it is the answer.
  return telling.length > 0 ? telling : best.spokeFor;
}

/** Strokes a bar that two countings of the same place may differ by. */
const SAME_COUNT = 0.1;

function laidAlike(ofBest: readonly Evidence[], second: Candidate): boolean {
  const shared = [...second.spokeFor, ...second.spokeAgainst].flatMap((evidence) =>
    ofBest
      .filter((other) => samePlace(other, evidence))
      .map((other) => Math.abs(other.heardPerBar - evidence.heardPerBar)),
  );
  return shared.length > 0 && shared.every((difference) => difference <= SAME_COUNT);
}

function samePlace(a: Evidence, b: Evidence): boolean {
  return a.voice === b.voice && Math.abs(a.place - b.place) <= NEAR;
}

function strongest(evidence: readonly Evidence[], most: number): readonly Evidence[] {
  return [...evidence].sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight)).slice(0, most);
}

function forWords(evidence: readonly Evidence[], beats: number): readonly string[] {
  const struck = evidence.filter(({ heardPerBar }) => heardPerBar >= STROKES_FROM);
  const silent = evidence.filter(({ heardPerBar }) => heardPerBar < STROKES_FROM);
  return [
    ...byVoice(struck).map(([voice, places]) => `The ${voice} is on ${placesWords(places, beats)}.`),
    ...byVoice(silent).map(([voice, places]) => `There is no ${voice} on ${placesWords(places, beats)}.`),
  ];
}

function againstWords(evidence: readonly Evidence[], beats: number): readonly string[] {
  const more = evidence.filter(({ heardPerBar, expectedPerBar }) => heardPerBar >= expectedPerBar);
  const fewer = evidence.filter(({ heardPerBar, expectedPerBar }) => heardPerBar < expectedPerBar);
  return [
    ...byVoice(more).map(([voice, places]) => `Against it: ${voice} on ${placesWords(places, beats)}.`),
    ...byVoice(fewer).map(
      ([voice, places]) => `Against it: little or no ${voice} on ${placesWords(places, beats)}.`,
    ),
  ];
}

function byVoice(
  evidence: readonly Evidence[],
): readonly (readonly [voice: string, places: readonly number[]])[] {
  return [...new Set(evidence.map(({ voice }) => voice))].map((voice) => [
    voiceName(voice),
    evidence.filter((each) => each.voice === voice).map(({ place }) => place),
  ]);
}

/** Places between beats that have a name of their own, as shares of the beat. */
const OFF_BEATS = [
  { share: 1 / 4, name: "the “e” of" },
  { share: 1 / 3, name: "the second triplet of" },
  { share: 1 / 2, name: "the “and” of" },
  { share: 2 / 3, name: "the last triplet of" },
  { share: 3 / 4, name: "the “a” of" },
] as const;
/** Nearer than this, in beats, is the same place. */
const NEAR = 0.03;

/**
 * Places of a bar as they are counted aloud.
 *
 * @param places felt beats from the first downbeat, from 0; those of a second bar go on counting.
 * @param beats felt beats in the bar.
 * @example
 * placesWords([1, 3], 4) // => "two and four"
 * placesWords([2.5], 4) // => "the “and” of three"
 */
export function placesWords(places: readonly number[], beats: number): string {
  const barOf = (place: number): number => Math.floor((place + NEAR) / beats);
  const bars = [...new Set(places.map(barOf))].sort((a, b) => a - b);
  const inBar = (bar: number): string => {
    const within = places.filter((place) => barOf(place) === bar);
    return inOneBar(within, beats);
  };
  if (bars.every((bar) => bar === 0)) return inBar(0);
  return bars.map((bar) => `${inBar(bar)} in ${BARS[bar] ?? `bar ${bar + 1}`}`).join("; ");
}

const BARS = ["the first bar", "the second"] as const;

/** The beats first: after "the “and” of one" a beat would be taken for another "and". */
function inOneBar(places: readonly number[], beats: number): string {
  const counted = [...places].sort((a, b) => a - b).map((place) => countedPlace(place, beats));
  const shares = [...new Set(["", ...counted.map(({ share }) => share)])];
  const groups = shares.flatMap((share) => {
    const onBeats = [...new Set(counted.filter((place) => place.share === share).map(({ beat }) => beat))];
    if (onBeats.length === 0) return [];
    const every = beats > 1 && onBeats.length === beats;
    const which = every ? "every beat" : listed(onBeats.map(numberWord));
    return [share === "" ? which : `${share} ${which}`];
  });
  return groups.join(", and ");
}

interface CountedPlace {
  /** From 1. */
  readonly beat: number;
  /** What is said before the beat; empty on the beat itself. */
  readonly share: string;
}

function countedPlace(place: number, beats: number): CountedPlace {
  const before = Math.floor(place + NEAR);
  const share = place - before;
  const count = (beat: number): number => (((beat % beats) + beats) % beats) + 1;
  if (share <= NEAR) return { beat: count(before), share: "" };
  const named = OFF_BEATS.find((offBeat) => Math.abs(offBeat.share - share) <= NEAR);
  if (named) return { beat: count(before), share: named.name };
  return share < 0.5
    ? { beat: count(before), share: "just after" }
    : { beat: count(before + 1), share: "just before" };
}

function listed(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join("");
  return `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
}
