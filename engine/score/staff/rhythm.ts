/**
 * The rhythm of one part in one bar: onsets to notes and rests.
 *
 * A struck note does not sound on, so its length is a matter of reading only. Our rules, after common practice in
 * books for drum set: a note lasts to the next note of its part, but never over the end of its beat group; what one
 * value cannot say is filled with rests, so that ties are never needed; rests start at multiples of themselves.
 */
import {
  add,
  compare,
  type Fraction,
  fraction,
  leastCommonMultiple,
  multiply,
  subtract,
} from "../../units/index.ts";
import type { BeatGroup } from "./beatGroups.ts";
import { alignedRest, exactValue, longestValue, type NoteValue, valueLength } from "./noteValue.ts";

/** A note or rest without its heads. Times in whole notes from the start of the bar. */
export interface RhythmSymbol {
  readonly start: Fraction;
  readonly length: Fraction;
  readonly value: NoteValue;
  readonly struck: boolean;
}

/** `actual` notes in the time of `normal`. */
export interface TupletRatio {
  readonly actual: number;
  readonly normal: number;
}

/** Symbols in order, all in one tuplet or in none. */
export interface RhythmPiece {
  readonly tuplet?: TupletRatio;
  readonly symbols: readonly RhythmSymbol[];
}

/** The notes and rests of one beat group; nothing is written across its ends. */
export interface GroupRhythm {
  readonly pieces: readonly RhythmPiece[];
}

/** The finest grid that is written as it is; anything finer is moved to the nearest place (see {@link legible}). */
const MOST_PLACES = 192;
const SHORTEST = 128;

/**
 * The onsets of a group as they can be written. Where they need more than 192 places in a group (strokes of two
 * grids that have nothing in common), or values shorter than a 128th, each is moved to the last of 64 places
 * (96 in a ternary group) that is not after it. Our choice: no reader tells those apart, and their order stays.
 */
export function legible(group: BeatGroup, onset: Fraction, all: readonly Fraction[]): Fraction {
  const places = placesIn(group, all);
  const shortest = group.length.num / (group.length.den * largestPowerOfTwo(places));
  if (places <= MOST_PLACES && shortest >= 1 / SHORTEST) return onset;
  const finest = Math.floor((SHORTEST * group.length.num) / group.length.den);
  const grid = Math.min(group.ternary ? 96 : 64, finest);
  const share = ratioOf(subtract(onset, group.start), group.length);
  const place = Math.floor((share.num * grid) / share.den);
  return add(group.start, multiply(group.length, fraction(place, grid)));
}

/** Writes a bar: its groups in order, with the onsets of one part, each at least once, in order. */
export function writeRhythm(
  groups: readonly BeatGroup[],
  onsets: readonly Fraction[],
): readonly GroupRhythm[] {
  const written: GroupRhythm[] = [];
  for (let index = 0; index < groups.length; ) {
    const wide = wideSpans(groups, index).find(
      ({ span }) => isWideTuplet(span, groups, within(span, onsets)) || isWideRest(span, onsets),
    );
    const group = groups[index];
    if (wide) {
      written.push({ pieces: writeWide(wide.span, within(wide.span, onsets)) });
      index += wide.count;
    } else if (group) {
      written.push({ pieces: writeSpan(group, within(group, onsets)) });
      index += 1;
    }
  }
  return written;
}

/** The bar and its halves, where they begin at this group and hold two or four like groups that are not counted in odd ways. */
function wideSpans(
  groups: readonly BeatGroup[],
  from: number,
): readonly { readonly span: BeatGroup; readonly count: number }[] {
  const first = groups[from];
  if (!first || ![2, 4].includes(groups.length)) return [];
  if (groups.some((group) => compare(group.length, first.length) !== 0)) return [];
  return [4, 2].flatMap((count) =>
    from % count === 0 && from + count <= groups.length
      ? [{ span: { ...first, length: multiply(first.length, fraction(count)) }, count }]
      : [],
  );
}

/** Half a bar of four beats without a stroke is one rest. (A whole bar is written by the caller.) */
function isWideRest(span: BeatGroup, onsets: readonly Fraction[]): boolean {
  return within(span, onsets).length === 0 && exactValue(span.length) !== undefined;
}

/**
 * Whether strokes over several beats are one tuplet, such as three quarters in the time of two: an odd number of
 * equal places, each struck but for the first, which may be silent.
 */
function isWideTuplet(span: BeatGroup, groups: readonly BeatGroup[], onsets: readonly Fraction[]): boolean {
  const places = placesIn(span, onsets);
  const binary = groups.every((group) => !group.ternary);
  const after = onsets.filter((onset) => compare(onset, span.start) > 0);
  return binary && places % 2 === 1 && places >= 3 && places <= 15 && after.length === places - 1;
}

function writeWide(span: BeatGroup, onsets: readonly Fraction[]): readonly RhythmPiece[] {
  if (onsets.length === 0) return [writePlain(span, onsets)];
  return [writeTuplet({ ...span, ternary: false }, onsets)];
}

function writeSpan(span: BeatGroup, onsets: readonly Fraction[]): readonly RhythmPiece[] {
  const places = placesIn(span, onsets);
  if (isPlain(span, places)) return [writePlain(span, onsets)];
  const parts = partsOf(span);
  const better = span.ternary
    ? places % 3 === 0
    : places % 2 === 0 &&
      (places > 8 || parts.some((part) => isPlain(part, placesIn(part, within(part, onsets)))));
  if (better) return parts.flatMap((part) => writeSpan(part, within(part, onsets)));
  return [writeTuplet(span, onsets)];
}

/** The halves of a span, or the thirds of a ternary one. */
function partsOf(span: BeatGroup): readonly BeatGroup[] {
  const count = span.ternary ? 3 : 2;
  const length = multiply(span.length, fraction(1, count));
  return Array.from({ length: count }, (_, part) => ({
    start: add(span.start, multiply(length, fraction(part))),
    length,
    ternary: false,
  }));
}

/** Whether so many equal places are written without a tuplet: halves of halves, or thirds first where the span is ternary. */
function isPlain(span: BeatGroup, places: number): boolean {
  if (places === 1) return true;
  const halves = span.ternary ? places / 3 : places;
  return Number.isInteger(halves) && halves === largestPowerOfTwo(halves);
}

function writePlain(span: BeatGroup, onsets: readonly Fraction[]): RhythmPiece {
  const local = onsets.map((onset) => subtract(onset, span.start));
  return { symbols: moved(symbolsOf(span.length, local), span.start, fraction(1)) };
}

/** Two in the time of three (a duplet), or so many in the time of the largest plain count below. */
function writeTuplet(span: BeatGroup, onsets: readonly Fraction[]): RhythmPiece {
  const actual = placesIn(span, onsets);
  const normal = span.ternary ? 3 * largestPowerOfTwo(Math.max(1, actual / 3)) : largestPowerOfTwo(actual);
  const stretch = fraction(actual, normal);
  const local = onsets.map((onset) => multiply(subtract(onset, span.start), stretch));
  const symbols = symbolsOf(multiply(span.length, stretch), local);
  return { tuplet: { actual, normal }, symbols: moved(symbols, span.start, fraction(normal, actual)) };
}

/** Notes and rests that fill `length` from 0, in values as written. */
function symbolsOf(length: Fraction, onsets: readonly Fraction[]): readonly RhythmSymbol[] {
  const symbols: RhythmSymbol[] = [];
  const rests = (from: Fraction, to: Fraction) => {
    const whole = from.num === 0 && compare(to, length) === 0 ? exactValue(length) : undefined;
    for (let at = from; compare(at, to) < 0; ) {
      const value = whole ?? alignedRest(at, subtract(to, at));
      if (!value) throw new RangeError(`A rest of ${to.num}/${to.den} cannot be written.`);
      symbols.push({ start: at, length: valueLength(value), value, struck: false });
      at = add(at, valueLength(value));
    }
  };
  rests(fraction(0), onsets[0] ?? length);
  onsets.forEach((onset, index) => {
    const end = onsets[index + 1] ?? length;
    const value = longestValue(subtract(end, onset));
    if (!value) throw new RangeError(`A note at ${onset.num}/${onset.den} is too short to be written.`);
    symbols.push({ start: onset, length: valueLength(value), value, struck: true });
    rests(add(onset, valueLength(value)), end);
  });
  return symbols;
}

/** The symbols with their times in the bar. */
function moved(symbols: readonly RhythmSymbol[], start: Fraction, scale: Fraction): readonly RhythmSymbol[] {
  return symbols.map((symbol) => ({
    ...symbol,
    start: add(start, multiply(symbol.start, scale)),
    length: multiply(symbol.length, scale),
  }));
}

function within(span: BeatGroup, onsets: readonly Fraction[]): readonly Fraction[] {
  const end = add(span.start, span.length);
  return onsets.filter((onset) => compare(onset, span.start) >= 0 && compare(onset, end) < 0);
}

/** The fewest equal places in the span that hold all onsets. */
function placesIn(span: BeatGroup, onsets: readonly Fraction[]): number {
  return onsets.reduce(
    (places, onset) => leastCommonMultiple(places, ratioOf(subtract(onset, span.start), span.length).den),
    1,
  );
}

function ratioOf(a: Fraction, b: Fraction): Fraction {
  return fraction(a.num * b.den, a.den * b.num);
}

function largestPowerOfTwo(most: number): number {
  return 2 ** Math.floor(Math.log2(most) + 1e-12);
}
