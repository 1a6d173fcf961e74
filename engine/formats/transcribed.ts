/**
 * A file as written music to the tick, for files that are to be kept as they are: nothing is moved to a grid. (To read a
 * take as a drummer would write it, see `quantise`.)
 */
import type { KitMap } from "../kit/index.ts";
import { beatsPerQuarter, type Dynamic, inOrder, type Metre, type Note, STRAIGHT } from "../score/index.ts";
import {
  type Bpm,
  type Fraction,
  fraction,
  multiply,
  subtract,
  toNumber,
  type Velocity,
} from "../units/index.ts";
import type { WrittenScore } from "./scoreSmf.ts";
import type { SmfFile } from "./smf.ts";
import { strikesOf } from "./takeSmf.ts";

/** A file's music and the ticks a quarter note has in it, to be written with. */
export interface Transcribed {
  readonly score: WrittenScore;
  readonly ticksPerQuarter: number;
}

/** A file that counts parts of a second is written at 120 a minute, with ticks of 1/60 ms. */
const FOR_SECONDS = { ticksPerQuarter: 30_000, tempoBpm: 120 };
/** Below this strength a stroke is written as a ghost note, from the other on as an accent. Our choice. */
const GHOST_BELOW: Velocity = 0.42;
const ACCENT_FROM: Velocity = 0.8;

/**
 * Every strike of the file, with its tempos and metres. A metre that changes within a bar begins with the next bar.
 *
 * @example
 * const file = readSmf(writeGrooveSmf(groove, { bars: 1, tempoBpm: 100, map }));
 * const again = readSmf(writeSmf(transcribed(file, map).score, { map }));
 * strikesOf(again, map).length === strikesOf(file, map).length // => true
 */
export function transcribed(file: SmfFile, map: KitMap): Transcribed {
  const inQuarters = file.division.of === "quarter";
  const ticksPerQuarter = file.division.of === "quarter" ? file.division.ticks : FOR_SECONDS.ticksPerQuarter;
  const tempos = inQuarters ? file.tempos : [{ time: 0, tempoBpm: FOR_SECONDS.tempoBpm }];
  const tickAt = ticksAlong(tempos, ticksPerQuarter);
  const strikes = strikesOf(file, map).map(({ time, voice, velocity }) => ({
    tick: tickAt(time),
    note: { voice, dynamic: dynamicOf(velocity) },
  }));
  const changes = tempos.map(({ time, tempoBpm }) => ({ tick: tickAt(time), quarterBpm: tempoBpm }));
  const last = strikes.at(-1)?.tick ?? 0;
  const sections = sectionsOf(
    file.metres.map(({ time, metre }) => ({ tick: tickAt(time), metre })),
    ticksPerQuarter,
    last,
  );
  let before: Bpm = changes[0]?.quarterBpm ?? FOR_SECONDS.tempoBpm;
  const stretches = sections.map(({ from, until, bars, metre }) => {
    const perQuarter = beatsPerQuarter(metre);
    const position = (tick: number): Fraction =>
      multiply(subtract(fraction(tick, ticksPerQuarter), from), perQuarter);
    const isIn = ({ tick }: { readonly tick: number }): boolean =>
      tick / ticksPerQuarter >= toNumber(from) && tick / ticksPerQuarter < until;
    const own = changes
      .filter(isIn)
      .map(({ tick, quarterBpm }) => ({ position: position(tick), quarterBpm }));
    for (const { position: at, quarterBpm } of own) if (at.num === 0) before = quarterBpm;
    const feltBpm = (quarterBpm: Bpm): Bpm => quarterBpm * toNumber(perQuarter);
    const tempoBpm = feltBpm(before);
    before = own.at(-1)?.quarterBpm ?? before;
    const notes: readonly Note[] = strikes
      .filter(isIn)
      .map(({ tick, note }) => ({ ...note, position: position(tick) }));
    const voices = [...new Set(notes.map(({ voice }) => voice))];
    return {
      metre,
      feel: STRAIGHT,
      tempoBpm,
      bars,
      voices,
      notes: inOrder(notes, voices),
      tempoChanges: own
        .filter(({ position: at }) => at.num > 0)
        .map(({ position: at, quarterBpm }) => ({ position: at, tempoBpm: feltBpm(quarterBpm) })),
    };
  });
  return { score: { name: "", stretches }, ticksPerQuarter };
}

function dynamicOf(velocity: Velocity): Dynamic {
  if (velocity < GHOST_BELOW) return "ghost";
  return velocity >= ACCENT_FROM ? "accent" : "plain";
}

/** The tick of a moment; files' own moments are whole ticks. In order of time it is quick. */
function ticksAlong(
  tempos: readonly { readonly time: number; readonly tempoBpm: Bpm }[],
  ticksPerQuarter: number,
): (time: number) => number {
  let quarters = 0;
  const steps = tempos.map(({ time, tempoBpm }, index) => {
    const before = tempos[index - 1];
    if (before) quarters += ((time - before.time) * before.tempoBpm) / 60;
    return { time, quarters, tempoBpm };
  });
  return (time) => {
    let low = 0;
    let high = steps.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((steps[middle]?.time ?? 0) <= time) low = middle;
      else high = middle;
    }
    const step = steps[low] ?? { time: 0, quarters: 0, tempoBpm: 120 };
    return Math.round((step.quarters + ((time - step.time) * step.tempoBpm) / 60) * ticksPerQuarter);
  };
}

interface MetreSection {
  /** In quarters from the start of the file. */
  readonly from: Fraction;
  readonly until: number;
  readonly bars: number;
  readonly metre: Metre;
}

/** The file in sections of one metre, in whole bars; the last goes on to the last strike. */
function sectionsOf(
  metres: readonly { readonly tick: number; readonly metre: Metre }[],
  ticksPerQuarter: number,
  lastTick: number,
): readonly MetreSection[] {
  const sections: MetreSection[] = [];
  let from = fraction(0);
  metres.forEach(({ metre }, index) => {
    const next = metres[index + 1];
    const isLast = next === undefined || next.tick > lastTick;
    if (sections.at(-1)?.until === Number.POSITIVE_INFINITY) return;
    const barQuarters = fraction(metre.numerator * 4, metre.denominator);
    const end = isLast ? (lastTick + 1) / ticksPerQuarter : next.tick / ticksPerQuarter;
    const bars = Math.max(isLast ? 1 : 0, Math.ceil((end - toNumber(from)) / toNumber(barQuarters) - 1e-9));
    if (bars === 0) return;
    const until = fraction(
      from.num * barQuarters.den + bars * barQuarters.num * from.den,
      from.den * barQuarters.den,
    );
    sections.push({ from, until: isLast ? Number.POSITIVE_INFINITY : toNumber(until), bars, metre });
    from = until;
  });
  return sections;
}
