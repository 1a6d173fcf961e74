/** Why this groove and not that one, in the words of a teacher: voices and places of the bar. */
import { grooveById } from "../../../../engine/catalogue/index.ts";
import { numberWord, OFF_BEATS } from "../../../../engine/grading/index.ts";
import { familyOf, type Hit, voiceName } from "../../../../engine/kit/index.ts";
import type { Candidate, Evidence, Heard } from "../../../../engine/listening/index.ts";
import { beatsPerBar } from "../../../../engine/score/index.ts";
import { marksByPulse } from "./foldedMarks.ts";

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

/** The bar in which places are counted: its felt beats, and how many of them the groove takes to come round. */
export interface Counting {
  readonly beats: number;
  readonly bars: number;
}

/**
 * What spoke for the best candidate before the second, and what still speaks against it. Where another style was
 * called, that one is the second.
 *
 * @param hits the take: what the second candidate heard is told only where the strokes bear it out.
 */
export function whyWords(hearing: Heard, hits: readonly Hit[], calledName?: string): Why {
  const [best, ...others] = hearing.candidates;
  const second = others.find(({ name }) => name === calledName) ?? others[0];
  if (best === undefined) return { heading: "Why none I know", reasons: [] };
  const counting = countingOf(best) ?? { beats: beatsPerBar(hearing.pulse.metre), bars: 1 };
  const against = strongest(best.spokeAgainst, MOST_AGAINST);
  if (!hearing.known) {
    return {
      heading: "Why none I know",
      reasons: [`The nearest is ${inSentence(best.name)}.`, ...againstWords(against, counting)],
    };
  }
  const telling = strongest(second ? tellingApart(best, second, { hearing, hits }) : best.spokeFor, MOST_FOR);
  return {
    heading: second
      ? `Why ${inSentence(best.name)} and not ${inSentence(second.name)}`
      : `Why ${inSentence(best.name)}`,
    reasons: [...forWords(telling, counting), ...againstWords(against, counting)],
  };
}

/** How a candidate's places are counted; `undefined` when it is not of the catalogue. */
function countingOf({ id, variant }: Candidate): Counting | undefined {
  const groove = grooveById(variant ?? id);
  return groove && { beats: beatsPerBar(groove.metre), bars: groove.bars };
}

/** A name as it stands inside a sentence; one with further capitals keeps them all. */
export function inSentence(name: string): string {
  const rest = name.slice(1);
  return rest === rest.toLowerCase() ? name.charAt(0).toLowerCase() + rest : name;
}

/** A take, and what was heard in it. */
interface HeardTake {
  readonly hearing: Heard;
  readonly hits: readonly Hit[];
}

/**
 * What told the one from the other: each place weighed by what it said for the first less what it said for the
 * second. The second's own evidence counts only where both laid their bars alike, since a place means nothing else.
 */
function tellingApart(best: Candidate, second: Candidate, take: HeardTake): readonly Evidence[] {
  const ofBest = [...best.spokeFor, ...best.spokeAgainst];
  const ofSecond = laidAlike(best, second, take) ? [...second.spokeFor, ...second.spokeAgainst] : [];
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

/** Strokes a bar that two countings of the same place may differ by. Our choice. */
const SAME_COUNT = 0.2;
/** Strokes this near to a place, in beats, are counted there: as near as listening counts them. */
const COUNTED_WITHIN = 1.5 / 12;

/**
 * Whether the second candidate laid its bars as the pulse has them: then the strokes it heard at each of its places
 * are found there. A groove heard at half the tempo, or from another first beat, tells of places that were not played.
 */
function laidAlike(best: Candidate, second: Candidate, { hearing, hits }: HeardTake): boolean {
  const { pulse, span } = hearing;
  const evidence = [...second.spokeFor, ...second.spokeAgainst];
  const beats = beatsPerBar(pulse.metre);
  // Over two bars the pulse does not say which is the first.
  const isOneBar = [best, second].every((each) => {
    const counting = countingOf(each);
    return counting?.bars === 1 && counting.beats === beats;
  });
  if (!isOneBar || evidence.length === 0) return false;
  const marks = marksByPulse(hits, pulse);
  return evidence.every(({ voice, place, heardPerBar }) => {
    const there = marks.filter((mark) => {
      const apart = mark.place * beats - place;
      const folded = apart - beats * Math.round(apart / beats);
      return familyOf(mark.voice) === familyOf(voice) && Math.abs(folded) <= COUNTED_WITHIN;
    });
    return Math.abs(there.length / Math.max(1, span.bars) - heardPerBar) <= SAME_COUNT;
  });
}

function samePlace(a: Evidence, b: Evidence): boolean {
  return a.voice === b.voice && Math.abs(a.place - b.place) <= NEAR;
}

function strongest(evidence: readonly Evidence[], most: number): readonly Evidence[] {
  return [...evidence].sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight)).slice(0, most);
}

function forWords(evidence: readonly Evidence[], counting: Counting): readonly string[] {
  const struck = evidence.filter(({ heardPerBar }) => heardPerBar >= STROKES_FROM);
  const silent = evidence.filter((each) => each.heardPerBar < STROKES_FROM && isCounted(each));
  return [
    ...byVoice(struck).map(([voice, places]) => `The ${voice} is ${placesWords(places, counting)}.`),
    ...byVoice(silent).map(([voice, places]) => `There is no ${voice} ${placesWords(places, counting)}.`),
  ];
}

function againstWords(evidence: readonly Evidence[], counting: Counting): readonly string[] {
  const more = evidence.filter(({ heardPerBar, expectedPerBar }) => heardPerBar >= expectedPerBar);
  const fewer = evidence.filter((each) => each.heardPerBar < each.expectedPerBar && isCounted(each));
  return [
    ...byVoice(more).map(([voice, places]) => `Against it: ${voice} ${placesWords(places, counting)}.`),
    ...byVoice(fewer).map(
      ([voice, places]) => `Against it: little or no ${voice} ${placesWords(places, counting)}.`,
    ),
  ];
}

/** Whether a place can be counted aloud: silence just beside a beat is only a stroke that came a little off it. */
function isCounted({ place }: Evidence): boolean {
  const share = place - Math.floor(place + NEAR);
  return share <= NEAR || OFF_BEATS.some((offBeat) => Math.abs(offBeat.share - share) <= NEAR);
}

function byVoice(
  evidence: readonly Evidence[],
): readonly (readonly [voice: string, places: readonly number[]])[] {
  return [...new Set(evidence.map(({ voice }) => voice))].map((voice) => [
    voiceName(voice),
    evidence.filter((each) => each.voice === voice).map(({ place }) => place),
  ]);
}

/** Nearer than this, in beats, is the same place. */
const NEAR = 0.03;

/**
 * Places of a bar as they are counted aloud.
 *
 * @param places felt beats from the first downbeat, from 0; those of a second bar go on counting.
 * @example
 * placesWords([1, 3], { beats: 4, bars: 1 }) // => "on two and four"
 * placesWords([2.5], { beats: 4, bars: 1 }) // => "on the “and” of three"
 */
export function placesWords(places: readonly number[], { beats, bars }: Counting): string {
  const barOf = (place: number): number => Math.floor((place + NEAR) / beats) % bars;
  const told = Array.from({ length: bars }, (_, bar) => ({
    bar,
    words: inOneBar(
      places.filter((place) => barOf(place) === bar),
      beats,
    ),
  })).filter(({ words }) => words !== "");
  const [first, ...others] = told;
  if (first === undefined || bars === 1) return first?.words ?? "";
  if (told.length === bars && others.every(({ words }) => words === first.words)) {
    return `${first.words} in ${bars === 2 ? "both bars" : "every bar"}`;
  }
  return told
    .map(
      ({ bar, words }, index) =>
        `${words} in the ${ORDINALS[bar] ?? `bar ${bar + 1}`}${index === 0 ? " bar" : ""}`,
    )
    .join("; ");
}

const ORDINALS = ["first", "second"] as const;

/** The beats first: after "the “and” of one" a beat would be taken for another "and". */
function inOneBar(places: readonly number[], beats: number): string {
  const counted = aroundIsOn([...places].sort((a, b) => a - b).map((place) => countedPlace(place, beats)));
  const shares = [...new Set(["", ...counted.map(({ share }) => share)])];
  const groups = shares.flatMap((share): readonly CountedGroup[] => {
    const onBeats = [...new Set(counted.filter((place) => place.share === share).map(({ beat }) => beat))];
    if (onBeats.length === 0) return [];
    const every = beats > 1 && onBeats.length === beats;
    return [{ share, beats: every ? "every beat" : listed(onBeats.map(numberWord)) }];
  });
  return together(groups).join(", and ");
}

interface CountedGroup {
  /** Of the beat; empty on the beat itself. */
  readonly share: string;
  readonly beats: string;
}

/** "on the “e” and the “a” of four": shares of the same beats are told together. */
function together(groups: readonly CountedGroup[]): readonly string[] {
  const isOff = ({ share }: CountedGroup): boolean => OFF_BEATS.some(({ name }) => name === share);
  return groups.flatMap((group): readonly string[] => {
    if (group.share === "") return [`on ${group.beats}`];
    if (!isOff(group)) return [`${group.share} ${group.beats}`];
    const alike = groups.filter((other) => isOff(other) && other.beats === group.beats);
    return alike[0] === group ? [`on ${listed(alike.map(({ share }) => share))} of ${group.beats}`] : [];
  });
}

interface CountedPlace {
  /** From 1. */
  readonly beat: number;
  /** What is said before the beat; empty on the beat itself. */
  readonly share: string;
}

/** Just before a beat and just after it, or on it as well: that is on the beat, loosely. */
function aroundIsOn(counted: readonly CountedPlace[]): readonly CountedPlace[] {
  return counted.map((place) => {
    const isBeside = place.share.startsWith("just ");
    const others = counted.filter(({ beat, share }) => beat === place.beat && share !== place.share);
    const isAround = isBeside && others.some(({ share }) => share === "" || share.startsWith("just "));
    return isAround ? { ...place, share: "" } : place;
  });
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
