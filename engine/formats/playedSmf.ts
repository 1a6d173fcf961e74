/**
 * A take as it was played, as a Standard MIDI File of type 0 (RP-001): every strike at its own moment and strength. The file's tempo follows the bars as they were played, so that bar lines in another program stand
 * where the player had them.
 */
import { type MidiEvent, writeMidi } from "midi-file";
import { type Hit, type KitMap, noteFor } from "../kit/index.ts";
import { beatsPerBar, beatsPerQuarter, FOUR_FOUR, type Metre } from "../score/index.ts";
import { type Seconds, toNumber } from "../units/index.ts";

/** The bars of a take: when each begins, and when the last one ends. */
export interface BarsPlayed {
  readonly metre: Metre;
  /** Rising; one more than there are bars. */
  readonly barTimes: readonly Seconds[];
}

/** A strike is off by half of one at most: a quarter of a millisecond at 120 a minute. */
const TICKS_PER_QUARTER = 960;
const PERCUSSION_CHANNEL = 9;
/** MIDI clocks in a quarter note (RP-001). */
const CLOCKS_PER_QUARTER = 24;
const HELD_TICKS = 60;
const DEFAULT_QUARTER_SECONDS = 0.5;

interface Placed {
  readonly tick: number;
  /** At one moment: tempo, then releases, then strikes. */
  readonly order: number;
  readonly event: MidiEvent;
}

/**
 * The bytes of the file.
 *
 * @param hits in order of time.
 * @param how `played`: `null` where no pulse was heard, 4/4 at 120 from the first strike on then. `map` gives the keys; a
 *   voice it has none for keeps the kit's own.
 * @example
 * readSmf(writePlayedSmf("Take", hits, { played: null, map })).tempos[0]?.tempoBpm // => 120
 */
export function writePlayedSmf(
  name: string,
  hits: readonly Hit[],
  how: { readonly played: BarsPlayed | null; readonly map: KitMap },
): Uint8Array {
  const first = hits[0]?.time ?? 0;
  const { metre, barTimes } = how.played ?? {
    metre: FOUR_FOUR,
    barTimes: [first, first + 4 * DEFAULT_QUARTER_SECONDS],
  };
  const bars = withLead(barTimes, first);
  const quarters = beatsPerBar(metre) / toNumber(beatsPerQuarter(metre));
  const barTicks = quarters * TICKS_PER_QUARTER;
  const tempos = bars.slice(0, -1).map((from, bar): Placed => {
    const seconds = (bars[bar + 1] ?? from) - from;
    const microsecondsPerBeat = Math.round((seconds / quarters) * 1_000_000);
    const event = { deltaTime: 0, meta: true as const, type: "setTempo" as const, microsecondsPerBeat };
    return { tick: bar * barTicks, order: 0, event };
  });
  const strikes = hits.flatMap((hit) => strike(hit, how.map, Math.round(barOf(hit.time, bars) * barTicks)));
  const inOrder = [...tempos, ...strikes].sort((a, b) => a.tick - b.tick || a.order - b.order);
  let tick = 0;
  const track: MidiEvent[] = [
    { deltaTime: 0, meta: true, type: "trackName", text: name.replace(/[^ -~]/gu, "?") },
    {
      deltaTime: 0,
      meta: true,
      type: "timeSignature",
      ...metre,
      metronome: Math.round(CLOCKS_PER_QUARTER / toNumber(beatsPerQuarter(metre))),
      thirtyseconds: 8,
    },
  ];
  for (const placed of inOrder) {
    track.push({ ...placed.event, deltaTime: placed.tick - tick });
    tick = placed.tick;
  }
  track.push({ deltaTime: 0, meta: true, type: "endOfTrack" });
  const header = { format: 0 as const, numTracks: 1, ticksPerBeat: TICKS_PER_QUARTER };
  return Uint8Array.from(writeMidi({ header, tracks: [track] }));
}

/** A first stroke ahead of the first bar line stands in a bar before it. */
function withLead(barTimes: readonly Seconds[], first: Seconds): readonly Seconds[] {
  const [one, two] = barTimes;
  if (one === undefined || two === undefined || first >= one) return barTimes;
  return withLead([one - (two - one), ...barTimes], first);
}

/** A moment in bars from the first one; the last bar goes on for what comes after it. */
function barOf(time: Seconds, bars: readonly Seconds[]): number {
  const last = bars.length - 2;
  const next = bars.findIndex((from) => from > time);
  const bar = next === -1 ? last : Math.min(last, Math.max(0, next - 1));
  const from = bars[bar] ?? 0;
  const until = bars[bar + 1] ?? from + 1;
  return bar + (time - from) / (until - from);
}

/** The map's key for the voice; the kit's own where it knows none. */
function strike({ voice, pad, velocity }: Hit, map: KitMap, tick: number): readonly Placed[] {
  const key = {
    deltaTime: 0,
    channel: PERCUSSION_CHANNEL,
    noteNumber: noteFor(map, voice) ?? pad,
  };
  const strength = Math.min(127, Math.max(1, Math.round(velocity * 127)));
  return [
    { tick, order: 2, event: { ...key, type: "noteOn", velocity: strength } },
    { tick: tick + HELD_TICKS, order: 1, event: { ...key, type: "noteOff", velocity: 0 } },
  ];
}
