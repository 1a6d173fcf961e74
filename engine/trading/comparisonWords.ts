/**
 * What is said of an answer, in a teacher's words: rhythm and sound apart.
 */
import { hearableMs, numberWord } from "../grading/index.ts";
import { voiceName } from "../kit/index.ts";
import type { Dynamic } from "../score/index.ts";
import { type Bpm, beatSeconds, type Milliseconds } from "../units/index.ts";
import { type Aim, changesOf } from "./aim.ts";
import type { Comparison } from "./compare.ts";
import type { FreeAnswer } from "./freeAnswer.ts";

/** More than so many changes of a kind are counted, not listed: nobody keeps five in mind. Our choice. */
const MOST_LISTED = 3;

/**
 * "Rhythm holds; the second sound moved from snare to high tom."
 *
 * @param how how the strokes are counted: by their place among all strokes of the call.
 */
export function comparisonWords(comparison: Comparison): string {
  if (comparison.pairs.length === 0)
    return comparison.missed.length === 0 && comparison.added.length === 0
      ? "Nothing was called and nothing was answered."
      : comparison.added.length === 0
        ? "No answer was heard."
        : "Another phrase was answered.";
  return `${capital([rhythmWords(comparison), soundWords(comparison)].join("; "))}.`;
}

function rhythmWords({ rhythm, missed, added }: Comparison): string {
  if (rhythm.holds) return "rhythm holds";
  const moved = rhythm.moved.slice(0, MOST_LISTED).map(({ index, offsetMs }) => {
    return `the ${ordinal(index)} stroke came ${Math.round(Math.abs(offsetMs))} ms ${offsetMs < 0 ? "early" : "late"}`;
  });
  const lone = [
    countWords(missed.filter(({ grace }) => !grace).length, "left out"),
    countWords(added.filter(({ grace }) => !grace).length, "added"),
  ].flatMap((said) => said ?? []);
  const more = rhythm.moved.length - moved.length;
  const said = [...moved, ...(more > 0 ? [`${numberWord(more)} more out of place`] : []), ...lone];
  return `rhythm moved: ${said.length > 0 ? said.join(", ") : "it wanders out of the band"}`;
}

function soundWords({ sound, touch, missed, added }: Comparison): string {
  const moved = sound.moved
    .slice(0, MOST_LISTED)
    .map(
      ({ index, called, answered }) =>
        `the ${ordinal(index)} sound moved from ${voiceName(called)} to ${voiceName(answered)}`,
    );
  const more = sound.moved.length - moved.length;
  const touched = touch.moved
    .slice(0, MOST_LISTED)
    .map(({ index, called, answered }) => `the ${ordinal(index)} stroke ${touchWords(called, answered)}`);
  const graces = [
    missed.some(({ grace }) => grace) ? "a grace stroke left out" : undefined,
    added.some(({ grace }) => grace) ? "a grace stroke added" : undefined,
  ].flatMap((said) => said ?? []);
  const said = [...moved, ...(more > 0 ? [`${numberWord(more)} more moved`] : []), ...touched, ...graces];
  return sound.moved.length === 0 && said.length > 0
    ? `sound holds; ${said.join(", ")}`
    : said.length > 0
      ? said.join(", ")
      : "sound holds";
}

function touchWords(called: Dynamic, answered: Dynamic): string {
  if (answered === "accent") return "was accented";
  if (answered === "ghost") return "was ghosted";
  return called === "accent" ? "lost its accent" : "was played out";
}

/** Whether an answer that was to be like its call is what was meant, in a sentence; nothing for any other. */
export function aimWords(aim: Aim, comparison: Comparison, met: boolean | null): string | undefined {
  switch (aim) {
    case "echo":
      return met ? "An echo." : undefined;
    case "move-one":
      if (met) return "One thing moved, and only that.";
      return changesOf(comparison) === 0 && comparison.rhythm.holds ? "Nothing moved: an echo." : undefined;
    case "finish":
    case "answer":
      return undefined;
  }
}

/** A free answer in a sentence or two. */
export function answerWords(answer: FreeAnswer): string {
  if (answer.lengthBars === 0 && answer.landingMs === null) return "Silence: the whole turn was left empty.";
  const length = {
    shorter: "It stops before the turn is over",
    "as long": "It fills its turn",
    longer: "It runs over",
  };
  const landing = answer.landsOnOne
    ? "lands on the one"
    : answer.landsOnOne === null
      ? "who struck the one after it cannot be told on one kit"
      : answer.landingMs === null
        ? "leaves the one open"
        : `comes ${Math.round(Math.abs(answer.landingMs))} ms ${answer.landingMs < 0 ? "before" : "after"} the one`;
  const material =
    answer.materialShared >= 0.5
      ? "much of the call is in it"
      : answer.materialShared > 0.15
        ? "some of the call is in it"
        : "its material is new";
  return `${length[answer.length]} and ${landing}; ${hundred(answer.spaceLeft)} in 100 beats are left empty, ${answer.density.toFixed(1)} strokes a beat; ${material}.`;
}

/**
 * People who play well together are apart by some 30 to 50 ms, one standard deviation (Rasch 1979, from memory), and play on
 * steadily with a delay of up to 20 or 25 ms between them (Chafe, Gurevich, Leslie & Tyan 2004; Schuett 2002, from memory): a
 * hand-over within that is none.
 */
const KEPT_MS: Milliseconds = 25;

/**
 * How the time went from one player to the other; nothing where it cannot be told.
 *
 * @param clockMs within how much the clocks of two places are known; 0 in one.
 */
export function handOverWords(
  handOverMs: Milliseconds | null,
  tempoBpm: Bpm,
  clockMs: Milliseconds = 0,
): string | undefined {
  if (handOverMs === null) return undefined;
  const keptMs = Math.max(KEPT_MS, hearableMs(beatSeconds(tempoBpm) * 1000));
  if (Math.abs(handOverMs) <= Math.max(keptMs, clockMs))
    return clockMs <= keptMs
      ? "Time was kept through the change."
      : `Whether time was kept through the change is known to ${Math.ceil(clockMs)} ms only; it was, as far as that goes.`;
  return `The answer came in ${Math.round(Math.abs(handOverMs))} ms ${handOverMs < 0 ? "ahead of" : "behind"} where the call left the time.`;
}

function countWords(count: number, what: string): string | undefined {
  if (count === 0) return undefined;
  return `${count === 1 ? "one stroke" : `${numberWord(count)} strokes`} ${what}`;
}

const ORDINALS = [
  "first",
  "second",
  "third",
  "fourth",
  "fifth",
  "sixth",
  "seventh",
  "eighth",
  "ninth",
  "tenth",
  "eleventh",
  "twelfth",
];

function ordinal(index: number): string {
  return ORDINALS[index] ?? `${index + 1}th`;
}

function hundred(share: number): number {
  return Math.round(share * 100);
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
