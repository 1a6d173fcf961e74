/**
 * The sounds syllables are made of, as what the vocal tract does.
 * Sources: vowels, the first three formants of 33 men: Peterson & Barney, J. Acoust. Soc. Am. 24 (1952) 175, table II.
 * Consonants, places of the formants towards which they move and how they hiss: after Klatt, J. Acoust. Soc. Am. 67 (1980)
 * 971, table III, rounded (from memory). Lengths are our choice: short, as drummers say them.
 */
import type { Milliseconds } from "../../units/index.ts";

export type Formants = readonly [number, number, number];

/** Held, or gliding to another. */
export interface Vowel {
  readonly kind: "vowel";
  readonly formantsHz: Formants;
  readonly towardsHz?: Formants;
  readonly lengthMs: Milliseconds;
}

/** A closure let go in a burst, then breath (voiceless) or voice at once. */
export interface Stop {
  readonly kind: "stop";
  readonly locusHz: Formants;
  readonly burstHz: number;
  readonly burstWidthHz: number;
  readonly burstLevel: number;
  /** From the burst to the voice. */
  readonly voiceAfterMs: Milliseconds;
  /** A stop may go on hissing: ch, j, ts. */
  readonly hiss?: Hiss;
}

export interface Hiss {
  readonly kind: "hiss";
  readonly locusHz: Formants;
  readonly centreHz: number;
  readonly widthHz: number;
  readonly level: number;
  readonly isVoiced: boolean;
  readonly lengthMs: Milliseconds;
}

/** Nasals, liquids and glides: voiced, softer than a vowel. */
export interface Hum {
  readonly kind: "hum";
  readonly formantsHz: Formants;
  readonly level: number;
  readonly lengthMs: Milliseconds;
}

export type Phoneme = Vowel | Stop | Hiss | Hum;

function vowel(formantsHz: Formants, lengthMs = 110, towardsHz?: Formants): Vowel {
  return { kind: "vowel", formantsHz, lengthMs, ...(towardsHz ? { towardsHz } : {}) };
}

const IY: Formants = [270, 2290, 3010];
const IH: Formants = [390, 1990, 2550];
const EH: Formants = [530, 1840, 2480];
const AE: Formants = [660, 1720, 2410];
const AH: Formants = [640, 1190, 2390];
const AA: Formants = [730, 1090, 2440];
const AO: Formants = [570, 840, 2410];
const UH: Formants = [440, 1020, 2240];
const UW: Formants = [300, 870, 2240];

function stop(
  locusHz: Formants,
  burst: readonly [centreHz: number, widthHz: number, level: number],
  voiceAfterMs: Milliseconds,
  hiss?: Hiss,
): Stop {
  const [burstHz, burstWidthHz, burstLevel] = burst;
  return {
    kind: "stop",
    locusHz,
    burstHz,
    burstWidthHz,
    burstLevel,
    voiceAfterMs,
    ...(hiss ? { hiss } : {}),
  };
}

function hiss(
  locusHz: Formants,
  centreHz: number,
  widthHz: number,
  level: number,
  lengthMs = 90,
  isVoiced = false,
): Hiss {
  return { kind: "hiss", locusHz, centreHz, widthHz, level, isVoiced, lengthMs };
}

function hum(formantsHz: Formants, level: number, lengthMs = 60): Hum {
  return { kind: "hum", formantsHz, level, lengthMs };
}

const S = hiss([320, 1390, 2530], 6200, 2600, 0.8);
const SH = hiss([300, 1840, 2750], 3000, 1600, 1);
const CH = hiss([350, 1800, 2820], 3100, 1800, 0.9, 55);

/** By spelling; the longest spelling that fits is taken. */
export const PHONEMES: Readonly<Record<string, readonly Phoneme[]>> = {
  ee: [vowel(IY)],
  ie: [vowel(IY)],
  ay: [vowel(EH, 130, IH)],
  ai: [vowel(EH, 130, IH)],
  ey: [vowel(EH, 130, IH)],
  igh: [vowel(AA, 140, IH)],
  ow: [vowel(AA, 140, UH)],
  oo: [vowel(UW)],
  ou: [vowel(UW)],
  oe: [vowel(AO, 130, UH)],
  oh: [vowel(AO, 130, UH)],
  oa: [vowel(AO, 130, UH)],
  aa: [vowel(AA, 140)],
  ah: [vowel(AA, 120)],
  ar: [vowel(AA, 140)],
  er: [vowel([490, 1350, 1690], 130)],
  a: [vowel(AA)],
  e: [vowel(EH)],
  i: [vowel(IH)],
  o: [vowel(AO)],
  u: [vowel(AH)],
  ae: [vowel(AE)],
  y: [hum([260, 2070, 3020], 0.5, 45)],
  w: [hum([290, 610, 2150], 0.5, 50)],
  l: [hum([310, 1050, 2880], 0.5)],
  r: [hum([310, 1060, 1380], 0.5)],
  m: [hum([270, 1100, 2130], 0.35)],
  n: [hum([270, 1500, 2470], 0.35)],
  ng: [hum([270, 2000, 2600], 0.35, 90)],
  nk: [hum([270, 2000, 2600], 0.35, 60)],
  p: [stop([400, 1100, 2150], [900, 900, 0.5], 45)],
  t: [stop([400, 1600, 2600], [4200, 2000, 1], 40)],
  k: [stop([300, 1990, 2850], [1900, 700, 0.9], 50)],
  c: [stop([300, 1990, 2850], [1900, 700, 0.9], 50)],
  q: [stop([300, 1990, 2850], [1900, 700, 0.9], 50)],
  b: [stop([200, 1100, 2150], [700, 800, 0.25], 4)],
  d: [stop([200, 1600, 2600], [3800, 1800, 0.15], 6)],
  g: [stop([200, 1990, 2850], [2000, 700, 0.4], 10)],
  ch: [stop([350, 1800, 2820], [3600, 1800, 0.9], 0, CH)],
  j: [stop([260, 1800, 2820], [3000, 1600, 0.6], 0, { ...CH, level: 0.6, lengthMs: 35, isVoiced: true })],
  ts: [stop([400, 1600, 2600], [4800, 2000, 1], 0, { ...S, lengthMs: 60 })],
  tz: [stop([400, 1600, 2600], [4800, 2000, 1], 0, { ...S, lengthMs: 60 })],
  s: [S],
  sh: [SH],
  z: [hiss([240, 1390, 2530], 6000, 2600, 0.5, 70, true)],
  f: [hiss([340, 1100, 2080], 4200, 6000, 0.35, 80)],
  v: [hiss([220, 1100, 2080], 4000, 6000, 0.15, 60, true)],
  th: [hiss([320, 1290, 2540], 5200, 5000, 0.3, 80)],
  h: [hiss(AA, 1500, 1500, 0.35, 60)],
};

/** Numbers and signs as they are said. */
const SAID_AS: Readonly<Record<string, string>> = {
  "1": "wun",
  "2": "too",
  "3": "three",
  "4": "foh",
  "5": "fighv",
  "6": "siks",
  "7": "sevn",
  "8": "ayt",
  "9": "nighn",
  "10": "ten",
  "11": "levn",
  "12": "twelv",
  "&": "aend",
  "+": "aend",
  and: "aend",
  e: "ee",
  a: "a",
};

const LONGEST_SPELLING = 3;

/**
 * A syllable taken apart. Letters that spell nothing (an h after a vowel, say) are passed over; what spells nothing at all
 * is said as "da", so that a phrase is never short of a sound.
 *
 * @example
 * phonemesOf("ka").map(({ kind }) => kind) // => ["stop", "vowel"]
 */
export function phonemesOf(text: string): readonly Phoneme[] {
  const said = SAID_AS[text] ?? text;
  const found: Phoneme[] = [];
  let at = 0;
  while (at < said.length) {
    let length = Math.min(LONGEST_SPELLING, said.length - at);
    while (length > 1 && !Object.hasOwn(PHONEMES, said.slice(at, at + length))) length -= 1;
    const phonemes = spelt(said.slice(at, at + length), at);
    // A consonant written twice is one that is held: tss.
    const isHeld = at > 0 && length === 1 && said[at] === said[at - 1] && phonemes[0]?.kind !== "vowel";
    if (!isHeld) found.push(...phonemes);
    at += length;
  }
  return found.length > 0 ? found : phonemesOf("da");
}

function spelt(letters: string, at: number): readonly Phoneme[] {
  // Within a word y is a vowel, and an h only lengthens the one before it.
  if (letters === "y" && at > 0) return [vowel(IY, 90)];
  if (letters === "h" && at > 0) return [];
  return Object.hasOwn(PHONEMES, letters) ? (PHONEMES[letters] ?? []) : [];
}
