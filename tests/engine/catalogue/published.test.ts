/**
 * The voices that have a source are written as the source has them: Toussaint, BRIDGES 2002 and 2005, and what the bars
 * of the named takes of the Groove MIDI Dataset play (Gillick et al., ICML 2019; CC BY 4.0). Voices of common practice
 * are the studio's own choice and are not asserted.
 */
import { describe, expect, test } from "vitest";
import { grooveById, styleById } from "../../../engine/catalogue/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Groove, metreName } from "../../../engine/score/index.ts";
import { fraction, multiply } from "../../../engine/units/index.ts";
import {
  DEVELOPMENT_TAKES_ARE_HERE,
  developmentGrooves,
  strikesOfTake,
} from "../../reference/developmentTakes.ts";
import { PARTS } from "./apart.ts";

interface Row {
  /** A variant, or a style's own strokes: "own of swing". */
  readonly of: string;
  readonly metre: string;
  readonly bars: number;
  readonly steps: number;
  readonly voices: Partial<Readonly<Record<Voice, string>>>;
  readonly takes?: readonly string[];
  /** Where the source is not a take. */
  readonly text?: string;
}

const FOUR = { metre: "4/4", bars: 1, steps: 16 } as const;
const TRIPLETS = { metre: "4/4", bars: 1, steps: 12 } as const;
const TWO_BARS = { metre: "4/4", bars: 2, steps: 16 } as const;
const SAMBA = { metre: "2/4", bars: 2, steps: 16 } as const;

const BACK_BEAT = "....x.......x...";
const BEATS = "x...x...x...x...";
const OFF_BEATS = "..x...x...x...x.";

/** Each stroke sounds in at least half the bars of one of the takes. */
const IN_MOST_BARS: readonly Row[] = [
  {
    ...FOUR,
    of: "rock-eighths",
    takes: ["d1-s3-14"],
    voices: { snare: BACK_BEAT, kick: "x.......x.x....." },
  },
  { ...FOUR, of: "half-time", takes: ["d1-s1-202"], voices: { snare: "........x......." } },
  { ...FOUR, of: "own of half-time", takes: ["d1-s1-202"], voices: { kick: "x..............." } },
  {
    ...TRIPLETS,
    of: "shuffle",
    takes: ["d1-s1-51"],
    voices: { snare: "...x.....x..", "hi-hat-pedal": "...x.....x.." },
  },
  {
    ...TRIPLETS,
    of: "own of shuffle",
    takes: ["d1-s1-51"],
    voices: { snare: "...x.....x..", ride: "x..x.xx..x.x" },
  },
  {
    ...TRIPLETS,
    of: "own of swing",
    takes: ["d1-s1-76", "d1-s1-77"],
    voices: { ride: "x..x.xx..x.x", "hi-hat-pedal": "...x.....x.." },
  },
  {
    metre: "3/4",
    bars: 1,
    steps: 9,
    of: "own of jazz-waltz",
    takes: ["d1-s2-4"],
    voices: { ride: "x..x.xx..", "hi-hat-pedal": "...x....." },
  },
  { ...TWO_BARS, of: "bossa-nova", takes: ["d5-s1-1"], voices: { "hi-hat-pedal": OFF_BEATS } },
  {
    ...SAMBA,
    of: "samba",
    takes: ["d5-s1-3", "d5-s1-4"],
    voices: { "floor-tom": BACK_BEAT, "hi-hat-pedal": OFF_BEATS },
  },
  {
    ...FOUR,
    of: "own of merengue",
    takes: ["d4-s1-9"],
    voices: { kick: BEATS, snare: "...xx.xxx.x.....", "high-tom": "............xxxx" },
  },
  {
    ...FOUR,
    of: "own of one-drop",
    takes: ["d1-s1-184"],
    voices: { kick: BACK_BEAT, "hi-hat-closed": OFF_BEATS },
  },
  { ...FOUR, of: "train-beat", takes: ["d1-s2-10"], voices: { kick: BEATS, snare: "xxxxxxxxxxxxxxxx" } },
  {
    metre: "2/4",
    bars: 1,
    steps: 8,
    of: "own of baiao",
    takes: ["d1-s1-145", "d1-s1-146"],
    voices: { kick: "x..x....", "cross-stick": "......x.", "hi-hat-pedal": "..x...x." },
  },
  {
    ...FOUR,
    of: "own of maracatu",
    takes: ["d5-s1-6"],
    voices: { "hi-hat-pedal": OFF_BEATS, snare: "......x..x...x.." },
  },
  {
    ...FOUR,
    of: "own of samba-reggae",
    takes: ["d5-s1-10"],
    voices: {
      "hi-hat-pedal": OFF_BEATS,
      snare: "...x.......x....",
      "high-tom": "x.......x.......",
      "mid-tom": "....x.x.........",
      "floor-tom": "............xxxx",
    },
  },
  { ...FOUR, of: "own of songo", takes: ["d5-s1-14"], voices: { "hi-hat-pedal": BEATS } },
  { ...FOUR, of: "own of rumba", takes: ["d1-s2-161"], voices: { "hi-hat-pedal": BEATS } },
  {
    metre: "12/8",
    bars: 1,
    steps: 12,
    of: "own of bembe",
    takes: ["d1-s2-112"],
    voices: { bell: "x.x.xx.x.x.x", "hi-hat-pedal": "x..x..x..x.." },
  },
  {
    metre: "6/8",
    bars: 1,
    steps: 6,
    of: "own of chacarera",
    takes: ["d1-s2-1"],
    voices: { "cross-stick": "x..x..", "hi-hat-closed": "xxxxxx", kick: "....x." },
  },
  { ...FOUR, of: "own of disco", takes: ["d1-s3-6", "d1-s1-101"], voices: { kick: BEATS, snare: BACK_BEAT } },
  { ...FOUR, of: "own of calypso", takes: ["d1-s3-17"], voices: { kick: BEATS } },
  { ...FOUR, of: "own of reggaeton", takes: ["d1-s1-79"], voices: { kick: BEATS } },
  {
    ...FOUR,
    of: "own of afrobeat",
    takes: ["d1-s3-11"],
    voices: { kick: "x.......x...x...", "cross-stick": "......x.......x." },
  },
  {
    ...FOUR,
    of: "own of boom-bap",
    takes: ["d3-s2-31"],
    voices: { kick: "x.........x.....", snare: BACK_BEAT },
  },
  { ...FOUR, of: "own of four-on-the-snare", takes: ["d7-s2-54"], voices: { snare: BEATS } },
  {
    ...FOUR,
    of: "own of double-time-punk",
    takes: ["d1-s2-32"],
    voices: { snare: OFF_BEATS, kick: "x.......x......." },
  },
  { ...FOUR, of: "own of second-line", takes: ["d1-s1-100"], voices: { "hi-hat-pedal": OFF_BEATS } },
];

/** Each stroke sounds in at least three bars of ten. */
const IN_MANY_BARS: readonly Row[] = [
  {
    ...FOUR,
    of: "own of calypso",
    takes: ["d1-s3-17"],
    voices: { snare: "...x.......x....", "hi-hat-pedal": OFF_BEATS },
  },
  { ...FOUR, of: "own of disco", takes: ["d1-s3-6"], voices: { "hi-hat-open": OFF_BEATS } },
  { ...FOUR, of: "own of reggaeton", takes: ["d1-s1-79"], voices: { snare: "...x..x....x..x." } },
  { ...FOUR, of: "own of rumba", takes: ["d1-s2-161"], voices: { "cross-stick": "x..x...x..x.x..." } },
  { ...FOUR, of: "own of second-line", takes: ["d1-s1-100"], voices: { kick: "x..x..x........." } },
  {
    ...FOUR,
    of: "steppers-2",
    takes: ["d1-s1-201"],
    voices: { "cross-stick": BACK_BEAT, kick: BEATS, "hi-hat-closed": "xxxxxxxxxxxxxxxx" },
  },
];

const TIMELINES: readonly Row[] = [
  {
    ...TWO_BARS,
    of: "bossa-nova",
    text: "2005, E(5,16) from its third onset",
    voices: { "cross-stick": "x..x..x...x..x.." },
  },
  {
    ...TWO_BARS,
    of: "bossa-nova-2",
    text: "2005, the same with its bars exchanged",
    voices: { "cross-stick": "..x..x..x..x..x." },
  },
  { ...SAMBA, of: "samba-2", text: "2005, samba timeline", voices: { ride: "x.x..x.x.x..x.x." } },
  {
    ...FOUR,
    of: "own of rumba",
    text: "2002, rumba clave 3-2",
    voices: { "cross-stick": "x..x...x..x.x..." },
  },
  {
    ...TWO_BARS,
    of: "own of mambo",
    text: "2002, son clave 3-2",
    voices: { "cross-stick": "x..x..x...x.x..." },
  },
  {
    ...FOUR,
    of: "own of cumbia",
    text: "2005, E(3,4) on every beat",
    voices: { "hi-hat-closed": "x.xxx.xxx.xxx.xx" },
  },
];

test.each([...IN_MOST_BARS, ...IN_MANY_BARS, ...TIMELINES])("$of is as published: $takes $text", (row) => {
  const groove = written(row.of);
  expect({ metre: metreName(groove.metre), bars: groove.bars }).toEqual({ metre: row.metre, bars: row.bars });
  const found = Object.fromEntries(groove.voices.map((voice) => [voice, line(groove, voice, row.steps)]));
  expect(found).toMatchObject(row.voices);
});

test("samba: the accents of the hands are the timeline, over sixteenths", () => {
  const groove = written("samba");
  expect(line(groove, "snare", 16, (dynamic) => dynamic === "accent")).toBe("x.x..x.x.x..x.x.");
  expect(line(groove, "snare", 16)).toBe("xxxxxxxxxxxxxxxx");
});

test("train beat: the accents are the off-beats", () => {
  expect(line(written("train-beat"), "snare", 16, (dynamic) => dynamic === "accent")).toBe(OFF_BEATS);
});

describe.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)("the takes themselves", () => {
  test.each(IN_MOST_BARS)("$takes play what $of says, in most bars", (row) => {
    expect(strokesPlayedIn(row, 0.5)).toEqual(row.voices);
  });

  test.each(IN_MANY_BARS)("$takes play what $of says, in many bars", (row) => {
    expect(strokesPlayedIn(row, 0.3)).toEqual(row.voices);
  });
});

function written(of: string): Groove {
  const groove = of.startsWith("own of ") ? styleById(of.slice("own of ".length))?.own : grooveById(of);
  if (!groove) throw new Error(`The stock has no ${of}.`);
  return groove;
}

/** The whole groove as one line of `steps` places: x struck, . not. A stroke between two places fails. */
function line(
  groove: Groove,
  voice: Voice,
  steps: number,
  struck: (dynamic: string) => boolean = () => true,
): string {
  const beats = groove.bars * beatsPerBar(groove.metre);
  const marks = new Array<string>(steps).fill(".");
  for (const note of groove.notes) {
    if (note.voice !== voice || !struck(note.dynamic)) continue;
    const place = multiply(note.position, fraction(steps, beats));
    expect(place.den, `${groove.id}, ${voice}: a stroke between two of ${steps} places`).toBe(1);
    marks[place.num] = "x";
  }
  return marks.join("");
}

/**
 * The row's lines, without the strokes that none of its takes plays in that share of its bars. A take's strike counts at
 * the nearest step; snare and cross-stick count as one, the ride for the bell, the open hi-hat for the closed.
 */
function strokesPlayedIn(row: Row, share: number): Row["voices"] {
  const shares = (row.takes ?? []).map((take) => sharesOf(take, row));
  const kept = Object.entries(row.voices).map(([voice, marks]) => [
    voice,
    [...marks]
      .map((mark, step) => (mark === "x" && !shares.some((of) => of(voice, step) >= share) ? "." : mark))
      .join(""),
  ]);
  return Object.fromEntries(kept);
}

/** In what share of the figure's turns through the take a voice sounds at a step. */
function sharesOf(id: string, row: Row): (voice: string, step: number) => number {
  const take = developmentGrooves().find((each) => shortId(each.id) === id);
  if (!take) throw new Error(`The data set has no groove ${id}.`);
  const [numerator = 4, denominator = 4] = row.metre.split("/").map(Number);
  // The takes of 12/8 are written in 4/4 with triplets: a dotted quarter is the take's quarter.
  const quarters = row.metre === "12/8" ? 4 : (row.bars * numerator * 4) / denominator;
  const strikes = strikesOfTake(take).map(({ time, voice }) => ({
    voice,
    step: Math.round((((time * take.bpm) / 60) * row.steps) / quarters),
  }));
  const cycles = Math.max(...strikes.map(({ step }) => step)) / row.steps;
  return (voice, step) => {
    const hit = new Set(
      strikes
        .filter((strike) => strike.step % row.steps === step && sounds(strike.voice, voice))
        .map((strike) => strike.step),
    );
    return hit.size / cycles;
  };
}

/** `d1-s3-14` for `drummer1/session3/14`. */
function shortId(id: string): string {
  return id.replace("drummer", "d").replace("/session", "-s").replace("/", "-");
}

function sounds(played: Voice, asked: string): boolean {
  if (played === asked) return true;
  if (asked === "snare" || asked === "cross-stick") return PARTS[played] === "back-beat";
  if (asked === "hi-hat-closed") return played === "hi-hat-open";
  return asked === "bell" && played === "ride";
}
