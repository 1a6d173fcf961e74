/**
 * Drum parts as listening knows them, and beside them all that might be played instead: each written beat is a row of strokes,
 * which is known once however often it comes back.
 */
import {
  beatsPerBar,
  type Fill,
  type Groove,
  grooveBeats,
  type Note,
  type Part,
  type Stretch,
  unfolded,
} from "../score/index.ts";
import { toNumber } from "../units/index.ts";
import { ANYTHING, type Chain } from "./chain.ts";
import { feltPerPulse, type KnownGroove } from "./knownGroove.ts";
import { type RowNote, rowOf } from "./strokeRow.ts";

export interface KnownPart extends Pick<KnownGroove, "id" | "name" | "tempoBpm"> {
  readonly chain: Chain;
  /** Felt beats in a beat of the pulse, each that may be. */
  readonly feltPerPulse: readonly number[];
}

export interface KnownParts {
  readonly parts: readonly KnownPart[];
  /** All written beats there are. */
  readonly rows: readonly (readonly RowNote[])[];
  /** Known grooves, one after another as a player likes. */
  readonly freely: Chain;
  /** The rows of each known fill. */
  readonly fills: readonly (readonly number[])[];
}

/** A take begins with the part, with one of its bars, or anywhere. Our choice. */
const BEGINS = { part: 0.5, bar: 0.3, beat: 0.2 };
/** A player leaves the order of a part for another of its sections: once in so many beats. Our choice. */
const OTHER_SECTION = 0.005;
/**
 * A groove by itself, begun with a bar or not, and gone over to from another. Not shared among all of them: a groove alone is
 * what is mostly played, and a part that begins with it must have more to say for itself. Our choice.
 */
const GROOVE = { begins: Math.log(0.1), beginsWithin: Math.log(0.01), entered: Math.log(0.002) };

/**
 * @param parts at least one.
 * @param grooves what is known besides, with the fills; a take that these explain as well is none of the parts.
 */
export function knownParts(
  parts: readonly Part[],
  grooves: readonly KnownGroove[],
  fills: readonly Fill[],
): KnownParts {
  const rows = new Rows();
  const written = new Set(grooves.flatMap(({ models }) => models.flatMap((model) => model.written ?? [])));
  return {
    parts: parts.map((part) => knownPart(part, rows)),
    freely: freely([...written], rows),
    fills: fills.map((fill) => rows.ofBeats(fill, fill.beats)),
    rows: rows.all,
  };
}

/** Every written beat once. */
class Rows {
  readonly all: (readonly RowNote[])[] = [];
  readonly #byText = new Map<string, number>();

  /** The numbers of the rows of so many beats. */
  ofBeats({ notes, feel }: Pick<Groove, "notes" | "feel">, beats: number): readonly number[] {
    const ofBeat = Array.from({ length: beats }, (): Note[] => []);
    for (const note of notes) ofBeat[Math.floor(toNumber(note.position))]?.push(note);
    return ofBeat.map((own, beat) =>
      this.#numberOf(rowOf(own, feel).map((note) => ({ ...note, beat: note.beat - beat }))),
    );
  }

  #numberOf(row: readonly RowNote[]): number {
    const text = row
      .map(({ beat, sound, ornate }) => `${Math.round(beat * 1000)} ${sound} ${ornate}`)
      .sort()
      .join();
    const known = this.#byText.get(text) ?? this.all.length;
    if (known === this.all.length) this.all.push(row);
    this.#byText.set(text, known);
    return known;
  }
}

function knownPart(part: Part, rows: Rows): KnownPart {
  const stretches = unfolded(part);
  const [first] = stretches;
  const tempos = stretches.map(({ tempoBpm }) => tempoBpm);
  const tempoBpm = { low: Math.min(...tempos), high: Math.max(...tempos) };
  return {
    id: part.id,
    name: part.name,
    tempoBpm,
    feltPerPulse: first ? feltPerPulse({ metre: first.metre, tempoBpm }) : [1],
    chain: partChain(stretches, rows),
  };
}

function partChain(stretches: readonly Stretch[], rows: Rows): Chain {
  const own = stretches.map((stretch) => ({
    stretch,
    numbers: rows.ofBeats(stretch, stretch.bars * beatsPerBar(stretch.metre)),
  }));
  // What is struck on the one after the end is nobody's.
  const numbers = [...own.flatMap((each) => each.numbers), ANYTHING];
  const bars: number[] = [];
  const sections: number[] = [];
  let at = 0;
  for (const { stretch, numbers: here } of own) {
    if (stretch.section !== undefined) sections.push(at);
    for (let beat = 0; beat < here.length; beat += beatsPerBar(stretch.metre)) bars.push(at + beat);
    at += here.length;
  }
  const begins = new Float64Array(numbers.length).fill(BEGINS.beat / numbers.length);
  for (const bar of bars) begins[bar] = (begins[bar] ?? 0) + BEGINS.bar / bars.length;
  begins[0] = (begins[0] ?? 0) + BEGINS.part;
  const entered = new Float64Array(numbers.length).fill(Number.NEGATIVE_INFINITY);
  for (const section of sections) entered[section] = Math.log(OTHER_SECTION / sections.length);
  return {
    rows: Int32Array.from(numbers),
    before: Int32Array.from(numbers, (_, index) => index - 1),
    begins: begins.map(Math.log),
    entered,
  };
}

/** Each groove comes round, and any may follow any. */
function freely(grooves: readonly Groove[], rows: Rows): Chain {
  const all: number[] = [];
  const before: number[] = [];
  const begins: number[] = [];
  const entered: number[] = [];
  for (const groove of grooves) {
    const from = all.length;
    const length = grooveBeats(groove);
    const inBar = beatsPerBar(groove.metre);
    rows.ofBeats(groove, length).forEach((row, beat) => {
      const isBar = beat % inBar === 0;
      all.push(row);
      before.push(from + ((beat + length - 1) % length));
      begins.push(isBar ? GROOVE.begins : GROOVE.beginsWithin);
      entered.push(isBar ? GROOVE.entered : Number.NEGATIVE_INFINITY);
    });
  }
  return {
    rows: Int32Array.from(all),
    before: Int32Array.from(before),
    begins: Float64Array.from(begins),
    entered: Float64Array.from(entered),
  };
}
