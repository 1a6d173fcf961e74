import {
  add,
  type Bpm,
  compare,
  type Fraction,
  floor,
  fraction,
  multiply,
  subtract,
} from "../../units/index.ts";
import type { Groove } from "../groove.ts";
import { beatsPerBar, metreName } from "../metre.ts";
import { type BeatGroup, beatGroups, beatLength } from "./beatGroups.ts";
import { exactValue, type NoteBase } from "./noteValue.ts";
import { type GroupRhythm, legible, type RhythmSymbol, writeRhythm } from "./rhythm.ts";
import { STAFF_PARTS, type StaffPart, staffPartOf, staffPlace, stepsAboveBottomLine } from "./staffPlace.ts";
import type {
  StaffBar,
  StaffHead,
  StaffPartBar,
  StaffScore,
  StaffSymbol,
  StaffTuplet,
  TempoMark,
} from "./staffScore.ts";
import { swingWriting } from "./swingMark.ts";

/** What can be written on a staff: a groove, a fill `inWholeBars`, a phrase, or a take quantised to notes. */
export type StaffSource = Pick<Groove, "metre" | "feel" | "bars" | "notes"> &
  Partial<Pick<Groove, "name" | "tempoBpm">>;

export interface StaffWriting {
  /** Whether the bars stand between repeat signs: true for a groove. False when not said. */
  readonly repeated?: boolean;
  /** One tempo instead of the source's range. */
  readonly tempoBpm?: Bpm;
  /** The section of a part that begins here. */
  readonly section?: string;
  /** More of the same music follows: it ends on a double bar line. False when not said. */
  readonly goesOn?: boolean;
}

/** Thrown when music cannot be written: a stroke lies outside its bars. */
export class StaffError extends Error {
  override readonly name = "StaffError";
}

/**
 * Writes music on a drum-set staff.
 *
 * @param source positions in felt beats, each inside the `bars` bars.
 * @returns bars in order; hands with stems up, feet with stems down; every note of the source is one head.
 * @throws StaffError when a note lies outside the bars.
 * @example
 * writeStaff(groove, { repeated: true }).bars[0]?.parts[0]?.symbols.length // => 8
 */
export function writeStaff(source: StaffSource, writing: StaffWriting = {}): StaffScore {
  const { metre, notes } = source;
  const swing = swingWriting(source.feel, notes);
  const groups = beatGroups(metre, notes);
  const heads = notes.map((note, index) =>
    placedHead({ note, index, place: staffPlace(note.voice) }, swing.positions[index], source),
  );
  const parts = STAFF_PARTS.filter((part) => heads.some((head) => head.part === part));
  const partsOfBar = Array.from({ length: source.bars }, (_, bar) => {
    const inBar = heads.filter((head) => head.bar === bar);
    return (parts.length > 0 ? parts : (["hands"] as const)).map((part) =>
      writePart(
        part,
        groups,
        inBar.filter((head) => head.part === part),
      ),
    );
  });
  const bars = partsOfBar.map(
    (parts, bar): StaffBar => ({ parts, sameAsBefore: bar > 0 && writtenAlike(parts, partsOfBar[bar - 1]) }),
  );
  const tempo = tempoMark(source, writing.tempoBpm);
  return {
    ...(source.name === undefined ? {} : { name: source.name }),
    metre,
    groups,
    ...(swing.mark ? { swing: swing.mark } : {}),
    ...(tempo ? { tempo } : {}),
    ...(writing.section === undefined ? {} : { section: writing.section }),
    repeated: writing.repeated ?? false,
    goesOn: writing.goesOn ?? false,
    bars,
  };
}

interface PlacedHead {
  readonly head: StaffHead;
  readonly part: StaffPart;
  readonly bar: number;
  /** In whole notes from the start of the bar. */
  readonly onset: Fraction;
}

function placedHead(head: StaffHead, position: Fraction | undefined, source: StaffSource): PlacedHead {
  const beats = position ?? head.note.position;
  const beatsInBar = beatsPerBar(source.metre);
  const bar = Math.floor(floor(beats) / beatsInBar);
  if (bar < 0 || bar >= source.bars) {
    const where = `${beats.num}/${beats.den}`;
    throw new StaffError(
      `A stroke of ${head.note.voice} at beat ${where} lies outside the ${source.bars} bars of ${metreName(source.metre)}; give it more bars or leave the stroke out.`,
    );
  }
  const inBar = subtract(beats, fraction(bar * beatsInBar));
  return { head, part: staffPartOf(head.note.voice), bar, onset: multiply(inBar, beatLength(source.metre)) };
}

function writePart(
  part: StaffPart,
  groups: readonly BeatGroup[],
  heads: readonly PlacedHead[],
): StaffPartBar {
  if (heads.length === 0) return { part, symbols: [wholeBarRest(groups)], tuplets: [], beams: [] };
  const written = groups.flatMap((group) => {
    const inGroup = heads.filter(({ onset }) => isWithin(group, onset));
    const onsets = inGroup.map(({ onset }) => onset);
    return inGroup.map((placed) => ({ ...placed, onset: legible(group, placed.onset, onsets) }));
  });
  return assemble(part, writeRhythm(groups, distinct(written.map(({ onset }) => onset))), written);
}

function wholeBarRest(groups: readonly BeatGroup[]): StaffSymbol {
  const length = groups.reduce((sum, group) => add(sum, group.length), fraction(0));
  return { kind: "rest", start: fraction(0), length, value: { base: 1, dots: 0 }, wholeBar: true };
}

/** Puts the heads on the rhythm, and counts its symbols through for tuplets and beams. */
function assemble(
  part: StaffPart,
  rhythm: readonly GroupRhythm[],
  heads: readonly PlacedHead[],
): StaffPartBar {
  const symbols: StaffSymbol[] = [];
  const tuplets: StaffTuplet[] = [];
  const beams: { first: number; last: number }[] = [];
  for (const group of rhythm) {
    const firstOfGroup = symbols.length;
    for (const piece of group.pieces) {
      const first = symbols.length;
      symbols.push(...piece.symbols.map((symbol) => symbolOf(symbol, heads)));
      if (piece.tuplet) {
        tuplets.push({
          ...piece.tuplet,
          unit: unitOf(piece.symbols, piece.tuplet.actual),
          first,
          last: symbols.length - 1,
        });
      }
    }
    beams.push(...beamsOf(symbols, firstOfGroup));
  }
  return { part, symbols, tuplets, beams };
}

function symbolOf({ start, length, value, struck }: RhythmSymbol, heads: readonly PlacedHead[]): StaffSymbol {
  if (!struck) return { kind: "rest", start, length, value, wholeBar: false };
  const onStem = heads
    .filter(({ onset }) => compare(onset, start) === 0)
    .map(({ head }) => head)
    .sort((a, b) => stepsAboveBottomLine(a.place) - stepsAboveBottomLine(b.place) || a.index - b.index);
  return {
    kind: "chord",
    start,
    length,
    value,
    heads: onStem,
    accent: onStem.some(({ note }) => note.dynamic === "accent"),
  };
}

/** The value counted in a tuplet: the whole of it, as written, over its number of places. */
function unitOf(symbols: readonly RhythmSymbol[], actual: number): NoteBase {
  const written = symbols.reduce(
    (sum, { value }) => add(sum, fraction(value.dots === 1 ? 3 : 1, value.base * (value.dots === 1 ? 2 : 1))),
    fraction(0),
  );
  const unit = exactValue(multiply(written, fraction(1, actual)));
  if (unit?.dots !== 0) throw new RangeError(`A tuplet of ${actual} has no value to count in.`);
  return unit.base;
}

/** Beams over the runs of chords shorter than a quarter, from `from` to the end. */
function beamsOf(symbols: readonly StaffSymbol[], from: number): { first: number; last: number }[] {
  const beams: { first: number; last: number }[] = [];
  let first: number | undefined;
  let last = from;
  const close = () => {
    if (first !== undefined && last > first) beams.push({ first, last });
    first = undefined;
  };
  for (let index = from; index < symbols.length; index += 1) {
    const symbol = symbols[index];
    if (!symbol || symbol.value.base < 8) close();
    else if (symbol.kind === "chord") {
      first ??= index;
      last = index;
    }
  }
  close();
  return beams;
}

function tempoMark({ metre, tempoBpm }: StaffSource, chosen: Bpm | undefined): TempoMark | undefined {
  const beat = exactValue(beatLength(metre));
  const range = chosen === undefined ? tempoBpm : { low: chosen, high: chosen };
  return beat && range ? { beat, low: range.low, high: range.high } : undefined;
}

function isWithin(group: BeatGroup, onset: Fraction): boolean {
  return compare(onset, group.start) >= 0 && compare(onset, add(group.start, group.length)) < 0;
}

function distinct(onsets: readonly Fraction[]): readonly Fraction[] {
  const sorted = [...onsets].sort(compare);
  return sorted.filter((onset, index) => {
    const before = sorted[index - 1];
    return !before || compare(before, onset) !== 0;
  });
}

/** Whether two bars look the same: the same symbols with the same heads, whichever notes of the source they are. */
function writtenAlike(parts: readonly StaffPartBar[], others: readonly StaffPartBar[] | undefined): boolean {
  return others !== undefined && look(parts) === look(others);
}

function look(parts: readonly StaffPartBar[]): string {
  return JSON.stringify(parts, (key, value) => (key === "index" || key === "position" ? undefined : value));
}
