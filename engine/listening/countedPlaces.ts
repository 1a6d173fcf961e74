/**
 * Places of a bar in words, as they are counted aloud.
 */
import { numberWord, OFF_BEATS } from "../grading/index.ts";
import { beatsPerBar, isCompound, type Metre } from "../score/index.ts";

/** The bar in which places are counted, and how many bars a groove takes to come round. */
export interface Counting {
  readonly metre: Metre;
  readonly bars: number;
}

/** Nearer than this, in beats, is the same place. */
const NEAR = 0.03;
/** Eighths of a compound beat. */
const THIRDS = 3;

/**
 * Places in words: beats first, since after "the “and” of one" a beat would be taken for another "and". Compound metres
 * are counted by their eighths.
 *
 * @param places felt beats from the first downbeat, from 0; those of a second bar go on counting. Each must be one that
 * {@link isCounted}.
 * @example
 * placesWords([1, 3], { metre: FOUR_FOUR, bars: 1 }) // => "on two and four"
 * placesWords([2.5], { metre: FOUR_FOUR, bars: 1 }) // => "on the “and” of three"
 * placesWords([1], { metre: { numerator: 6, denominator: 8 }, bars: 1 }) // => "on four"
 */
export function placesWords(places: readonly number[], { metre, bars }: Counting): string {
  const beats = beatsPerBar(metre);
  const barOf = (place: number): number => Math.floor((place + NEAR) / beats) % bars;
  const told = Array.from({ length: bars }, (_, bar) => ({
    bar,
    words: inOneBar(
      places.filter((place) => barOf(place) === bar),
      metre,
    ),
  })).filter(({ words }) => words !== "");
  const [first, ...others] = told;
  if (first === undefined || bars === 1) return first?.words ?? "";
  if (told.length === bars && others.every(({ words }) => words === first.words)) {
    return `${first.words} of ${bars === 2 ? "both bars" : "every bar"}`;
  }
  return told
    .map(
      ({ bar, words }, at) => `${words} of the ${ORDINALS[bar] ?? `bar ${bar + 1}`}${at === 0 ? " bar" : ""}`,
    )
    .join(", ");
}

const ORDINALS = ["first", "second", "third", "fourth"] as const;

/** Whether a place, in felt beats, can be counted aloud. */
export function isCounted(place: number, metre: Metre): boolean {
  return sharesOf(metre).some((share) => Math.abs(shareOf(place) - share) <= NEAR);
}

/** Shares of a beat that can be counted aloud. */
function sharesOf(metre: Metre): readonly number[] {
  return isCompound(metre) ? THIRDS_OF_BEAT : SHARES_OF_BEAT;
}
const THIRDS_OF_BEAT = [0, 1 / 3, 2 / 3];
const SHARES_OF_BEAT = [0, ...OFF_BEATS.map(({ share }) => share)];

function shareOf(place: number): number {
  return place - Math.floor(place + NEAR);
}

function inOneBar(places: readonly number[], metre: Metre): string {
  const sorted = [...places].sort((a, b) => a - b);
  if (isCompound(metre)) {
    const eighths = new Set(sorted.map((place) => (Math.round(place * THIRDS) % metre.numerator) + 1));
    return eighths.size === 0 ? "" : `on ${onesOf([...eighths], metre.numerator, "every eighth")}`;
  }
  const beats = beatsPerBar(metre);
  const counted = sorted.map((place) => ({
    beat: (((Math.floor(place + NEAR) % beats) + beats) % beats) + 1,
    share: nameOf(shareOf(place)),
  }));
  const shares = [...new Set(["", ...counted.map(({ share }) => share)])];
  const groups = shares.flatMap((share): readonly CountedGroup[] => {
    const onBeats = [...new Set(counted.filter((place) => place.share === share).map(({ beat }) => beat))];
    return onBeats.length === 0 ? [] : [{ share, beats: onesOf(onBeats, beats, "every beat") }];
  });
  return listed(together(groups));
}

interface CountedGroup {
  /** Of the beat; empty on the beat itself. */
  readonly share: string;
  readonly beats: string;
}

/** "on the “e” and the “a” of four": shares of the same beats are told together. */
function together(groups: readonly CountedGroup[]): readonly string[] {
  return groups.flatMap((group): readonly string[] => {
    if (group.share === "") return [`on ${group.beats}`];
    const alike = groups.filter(({ share, beats }) => share !== "" && beats === group.beats);
    return alike[0] === group ? [`on ${listed(alike.map(({ share }) => share))} of ${group.beats}`] : [];
  });
}

function onesOf(beats: readonly number[], inBar: number, every: string): string {
  return inBar > 1 && beats.length === inBar ? every : listed(beats.map(numberWord));
}

function nameOf(share: number): string {
  if (share <= NEAR) return "";
  return TOLD.find((offBeat) => Math.abs(offBeat.share - share) <= NEAR)?.name ?? "";
}

/** In a bar of eighths or sixteenths a triplet is a word of its own; here it must be told which of the three. */
const TOLD = OFF_BEATS.map(({ share, name }) => ({
  share,
  name: name.replace(/(second|last) triplet/, "$1 of the triplet"),
}));

/** "one, two and four". */
export function listed(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join("");
  return `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
}
