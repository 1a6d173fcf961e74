/**
 * Fills set into a groove that goes on around them.
 */
import { familyOf } from "../kit/index.ts";
import {
  beatsPerBar,
  type Fill,
  fillBars,
  type Groove,
  metreName,
  type Note,
  performed,
  playedBeat,
  startsOnBeat,
} from "../score/index.ts";
import { toNumber } from "../units/index.ts";

export interface PlacedFill {
  readonly fill: Fill;
  /** The bar in which it begins, from 1. */
  readonly bar: number;
  /**
   * A crash with the kick on the one after it, in place of the time-keeping and the kick written there; also after the
   * last bar, and not where another fill begins on that one.
   */
  readonly thenCrash?: boolean;
}

/** Thrown when a fill does not fit where it is placed. */
export class FillPlaceError extends Error {
  override readonly name = "FillPlaceError";
}

/** One written stroke of a demonstration. */
export interface WrittenStroke {
  /** Felt beats from the first downbeat, as written, and as the feel has it played. */
  readonly beat: number;
  readonly playedBeat: number;
  readonly note: Omit<Note, "position">;
}

interface Span {
  readonly from: number;
  readonly end: number;
}

/**
 * The strokes of `bars` bars of the groove, in order of their beats. From where a fill begins to the end of its bars
 * only the fill's strokes are played, feet included, each with the fill's own feel.
 *
 * @throws FillPlaceError when a fill reaches outside the bars or into another fill, or its bar has other beats.
 */
export function writtenWithFills(
  groove: Groove,
  bars: number,
  fills: readonly PlacedFill[],
): readonly WrittenStroke[] {
  const placed = fills.map((each) => ({ ...each, ...spanOf(each, groove, bars) }));
  refuseOverlap(placed);
  const around = performed(groove, { tempoBpm: 60, bars }).map(({ beat, note }) => ({
    beat,
    playedBeat: playedBeat(groove.feel, beat),
    note,
  }));
  const crashed = placed
    .filter(({ thenCrash }) => thenCrash)
    .reduce<readonly WrittenStroke[]>((strokes, { end }) => withCrash(strokes, end), around);
  const outside = crashed.filter(
    ({ beat }) => !placed.some(({ from, end }) => beat >= from - 1e-9 && beat < end - 1e-9),
  );
  if (placed.length === 0) return outside;
  return [...outside, ...placed.flatMap(strokesOf)].sort((a, b) => a.beat - b.beat);
}

function spanOf({ fill, bar }: PlacedFill, { metre }: Groove, bars: number): Span {
  const inBar = beatsPerBar(metre);
  if (beatsPerBar(fill.metre) !== inBar) {
    throw new FillPlaceError(
      `${fill.id} is in ${metreName(fill.metre)} and the groove in ${metreName(metre)}: choose a fill with ${inBar} beats in the bar.`,
    );
  }
  if (!Number.isInteger(bar) || bar < 1 || bar + fillBars(fill) - 1 > bars) {
    throw new FillPlaceError(
      `${fill.id} in bar ${bar}: place it within the ${bars} bars, whose first is 1; it takes ${fillBars(fill)}.`,
    );
  }
  const from = (bar - 1) * inBar + startsOnBeat(fill) - 1;
  return { from, end: from + fill.beats };
}

function refuseOverlap(placed: readonly (PlacedFill & Span)[]): void {
  const inTime = [...placed].sort((a, b) => a.from - b.from);
  inTime.forEach(({ fill, bar, from }, index) => {
    const before = inTime[index - 1];
    if (before && from < before.end) {
      throw new FillPlaceError(`${fill.id} in bar ${bar} begins before ${before.fill.id} has ended.`);
    }
  });
}

function strokesOf({ fill, from }: PlacedFill & Span): readonly WrittenStroke[] {
  return fill.notes.map((note) => {
    const beat = from + toNumber(note.position);
    return { beat, playedBeat: playedBeat(fill.feel, beat), note };
  });
}

function withCrash(strokes: readonly WrittenStroke[], one: number): readonly WrittenStroke[] {
  const givesWay = ({ beat, note }: WrittenStroke): boolean =>
    Math.abs(beat - one) < 1e-9 && ["hats", "cymbals", "kick"].includes(familyOf(note.voice));
  const kept = strokes.filter((stroke) => !givesWay(stroke));
  const crash = (["kick", "crash-left"] as const).map(
    (voice): WrittenStroke => ({ beat: one, playedBeat: one, note: { voice, dynamic: "accent" } }),
  );
  return [...kept, ...crash];
}
