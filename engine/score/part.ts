/**
 * A part: the drum part of a tune, section by section.
 *
 *     part: river-road
 *     name: River road
 *
 *     section: Verse
 *     tempo: 92
 *     play: rock-eighths, 7 bars
 *     play: rock-eighths, 1 bar, ending two-beats-down-the-toms
 *
 *     section: Chorus
 *     tempo: 96
 *     times: 2
 *     play: open-eighths, 8 bars
 *
 * The grooves and fills it names follow, each as its own grid text. A fill ends the last of its bars.
 */
import { add, type Bpm, compare, fraction } from "../units/index.ts";
import { type Fill, fillBars } from "./fill.ts";
import { type Groove, grooveBeats, inOrder, type Note } from "./groove.ts";
import { beatsPerBar } from "./metre.ts";

/** Bars of one groove, the last of which may end with a fill. */
export interface Passage {
  readonly groove: Groove;
  readonly bars: number;
  readonly fill?: Fill;
}

export interface Section {
  readonly name: string;
  /** Felt beats a minute. */
  readonly tempoBpm: Bpm;
  /** How often it is played in a row. */
  readonly times: number;
  readonly passages: readonly Passage[];
}

export interface Part {
  readonly id: string;
  readonly name: string;
  readonly sections: readonly Section[];
}

/** More is no tune. Our choice: at 120 a minute in 4/4 an hour has 1800 bars. */
export const MOST_BARS_IN_A_PART = 2000;

/**
 * The metre and tempo map of the part, and every stroke of it: written music in a row, each stretch played once.
 */
export function unfolded(part: Part): readonly Stretch[] {
  return part.sections.flatMap((section) =>
    Array.from({ length: section.times }, () =>
      section.passages.map((passage, index) => ({
        ...stretchOf(passage, section.tempoBpm),
        ...(index === 0 ? { section: section.name } : {}),
      })),
    ).flat(),
  );
}

/** Written music played once at one tempo; it begins with a bar. Positions count from its own start. */
export interface Stretch extends Pick<Groove, "metre" | "feel" | "bars" | "voices" | "notes"> {
  readonly tempoBpm: Bpm;
  /** The section that begins here. */
  readonly section?: string;
}

function stretchOf({ groove, bars, fill }: Passage, tempoBpm: Bpm): Stretch {
  const fillFrom = bars * beatsPerBar(groove.metre) - (fill?.beats ?? 0);
  const played = repeated(groove, bars).filter((note) => compare(note.position, fraction(fillFrom)) < 0);
  const filled = (fill?.notes ?? []).map((note) => ({
    ...note,
    position: add(note.position, fraction(fillFrom)),
  }));
  const voices = [
    ...groove.voices,
    ...(fill?.voices ?? []).filter((voice) => !groove.voices.includes(voice)),
  ];
  return {
    metre: groove.metre,
    feel: groove.feel,
    tempoBpm,
    bars,
    voices,
    notes: inOrder([...played, ...filled], voices),
  };
}

/** The notes of so many bars of a groove, which comes round as often as it must. */
export function repeated(groove: Pick<Groove, "metre" | "bars" | "notes">, bars: number): readonly Note[] {
  const length = grooveBeats(groove);
  const end = fraction(bars * beatsPerBar(groove.metre));
  return Array.from({ length: Math.ceil(bars / groove.bars) }, (_, round) =>
    groove.notes.map((note) => ({ ...note, position: add(note.position, fraction(round * length)) })),
  )
    .flat()
    .filter(({ position }) => compare(position, end) < 0);
}

/** What is wrong with a passage as written, or `undefined`: a fill needs bars of its own metre to end. */
export function passageFault({ groove, bars, fill }: Passage): string | undefined {
  if (!fill) return undefined;
  if (beatsPerBar(fill.metre) !== beatsPerBar(groove.metre))
    return `the fill ${fill.id} has other bars than ${groove.id}.`;
  if (fillBars(fill) > bars) return `the fill ${fill.id} is longer than the ${bars} bars it should end.`;
  return undefined;
}
