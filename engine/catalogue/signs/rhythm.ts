/**
 * Rhythms of one bar, to be read and struck. All are of our own making, and each differs from each other one by more than
 * its tempo, so that it can be told without a click.
 */
import { type Groove, type Level, parseGrid } from "../../score/index.ts";
import type { Naming } from "./sign.ts";
import { signById } from "./signs.ts";

export interface Rhythm {
  /** `rhythm-two-eighths-first`. */
  readonly id: string;
  /** What is written, in words: it has no other name. */
  readonly name: string;
  readonly level: Level;
  /** One bar on the snare. */
  readonly groove: Groove;
}

/** Tempos at which they are read. Common practice, no source. */
const TEMPO: Readonly<Record<Level, string>> = {
  "first-year": "60-90",
  "second-year": "60-100",
  steady: "60-110",
  working: "60-120",
};

/** `metre | marks`, as in the grid text of one voice. */
const TEXTS: readonly (readonly [id: string, level: Level, metre: string, marks: string, name: string])[] = [
  ["half-then-quarters", "first-year", "4/4", "x.xx", "A half, two quarters"],
  ["quarters-then-half", "first-year", "4/4", "xxx.", "Two quarters, a half"],
  ["quarter-half-quarter", "first-year", "4/4", "xx.x", "A quarter, a half, a quarter"],
  ["eighths-on-one", "first-year", "4/4", "xx x. x. x.", "Two eighths, three quarters"],
  ["eighths-on-two", "first-year", "4/4", "x. xx x. x.", "Eighths on two"],
  ["eighths-on-three", "first-year", "4/4", "x. x. xx x.", "Eighths on three"],
  ["eighths-on-two-and-four", "first-year", "4/4", "x. xx x. xx", "Eighths on two and four"],
  ["rest-on-three", "first-year", "4/4", "x. xx .. xx", "Eighths on two and four, a rest on three"],
  ["three-four-eighths-on-two", "first-year", "3/4", "x. xx x.", "Three quarters, eighths on two"],
  ["dotted-quarter-first", "second-year", "4/4", "x. .x x. x.", "A dotted quarter first"],
  ["dotted-quarter-twice", "second-year", "4/4", "x. .x x. .x", "A dotted quarter, an eighth, twice"],
  ["off-beat-after-three", "second-year", "4/4", "x. xx .x x.", "An eighth rest on three"],
  ["sixteenths-on-one", "second-year", "4/4", "xxxx x... x.x. x...", "Sixteenths on one"],
  ["sixteenths-on-four", "second-year", "4/4", "x... x.x. x... xxxx", "Sixteenths on four"],
  ["eighth-two-sixteenths", "second-year", "4/4", "x.xx x... x.xx x...", "An eighth, two sixteenths"],
  ["two-sixteenths-eighth", "second-year", "4/4", "xxx. x... xxx. x.x.", "Two sixteenths, an eighth"],
  ["triplet-on-two", "second-year", "4/4", "x.. xxx x.. x..", "A triplet on two"],
  [
    "six-eight-quarter-eighth",
    "second-year",
    "6/8",
    "x.x xxx",
    "Six-eight: a quarter, an eighth, three eighths",
  ],
  ["dotted-eighth-sixteenth", "steady", "4/4", "x..x x... x..x x.x.", "A dotted eighth, a sixteenth"],
  [
    "sixteenth-eighth-sixteenth",
    "steady",
    "4/4",
    "xx.x x... x.x. x...",
    "A sixteenth, an eighth, a sixteenth",
  ],
  ["sixteenth-rest-first", "steady", "4/4", "x... .xxx x... .xxx", "Sixteenths after a sixteenth rest"],
  ["last-sixteenths", "steady", "4/4", "x..x ..x. x... x...", "Two off the beat, then three and four"],
  ["triplets-with-a-rest", "steady", "4/4", "x.x .x. x.x x..", "Triplets with rests"],
  ["six-eight-dotted", "steady", "6/8", "x..xx. x.x.x.", "Six-eight with a dotted eighth"],
  ["five-four-three-and-two", "steady", "5/4", "x. .x x. x. xx", "Five-four, three and two"],
  ["seven-eight-two-two-three", "working", "7/8", "x.xxx.x", "Seven-eight, two, two and three"],
  ["sixteenths-across", "working", "4/4", "x..x ..x. .x.. x.x.", "Threes of sixteenths across the bar"],
  [
    "thirty-seconds-into-two",
    "working",
    "4/4",
    "x.....xx x....... x...x... x.......",
    "Thirty-seconds into two",
  ],
  ["sextuplet-on-three", "working", "4/4", "x..... x.....  xxxxxx x.....", "A sextuplet on three"],
  ["off-all-beats", "working", "4/4", "..x. x..x ..xx .x..", "Off the beat nearly all through"],
];

export const RHYTHMS: readonly Rhythm[] = TEXTS.map(([id, level, metre, marks, name]) => ({
  id: `rhythm-${id}`,
  name,
  level,
  groove: parseGrid(
    [
      `groove: rhythm-${id}`,
      `name: ${name}`,
      `metre: ${metre}`,
      `tempo: ${TEMPO[level]}`,
      "",
      `snare | ${marks} |`,
    ].join("\n"),
  ),
}));

const BY_ID = new Map(RHYTHMS.map((rhythm) => [rhythm.id, rhythm]));

/** The rhythm with this id, or `undefined`. */
export function rhythmById(id: string): Rhythm | undefined {
  return BY_ID.get(id);
}

/** Values as they stand in the names of rhythms. */
const VALUE_WORDS = /\b(?:an )?(half|quarter|eighth|sixteenth|thirty-second)(s?)\b/gi;

/**
 * What a rhythm is called where these names of note values are used.
 *
 * @example
 * rhythmName(rhythmById("rhythm-eighth-two-sixteenths"), "uk") // => "A quaver, two semiquavers"
 */
export function rhythmName({ name }: Pick<Rhythm, "name">, naming: Naming): string {
  if (naming === "us") return name;
  return name.replaceAll(VALUE_WORDS, (us: string, value: string, plural: string) => {
    const uk = signById(`${value.toLowerCase()}-note`)?.names.uk;
    if (uk === undefined) return us;
    // No value has a name that begins with a vowel there.
    const words = `${/^an /i.test(us) ? "a " : ""}${uk}${plural}`;
    return /^[A-Z]/.test(us) ? words.charAt(0).toUpperCase() + words.slice(1) : words;
  });
}
