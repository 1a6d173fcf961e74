/**
 * How the program plays what is to be named: as a person might, the same again for the same seed.
 *
 * A fill is heard where fills are: after three bars of a plain groove in its metre, leading to a crash and one bar more.
 */
import { type DemonstratedStroke, demonstrate, inARow, STYLES, type Written } from "../../catalogue/index.ts";
import {
  beatsPerBar,
  DYNAMIC_VELOCITY,
  type Fill,
  type Groove,
  metreName,
  performed,
  usualTempo,
} from "../../score/index.ts";
import { type Bpm, beatSeconds, type Chance, seededChance } from "../../units/index.ts";
import type { Performance } from "./round.ts";
import type { Spottable } from "./spottable.ts";

/** Long enough to be told by ear. Our choice; a groove that takes longer to come round is played once. */
export const GROOVE_BARS = 4;
export const FILL_BARS = 4;
/** Of a drum part: the beginning. Our choice. */
const PART_BARS = 8;

/** A steady player a little behind, as the demonstration player is. */
export const USUAL_HAND = { leanMs: 4, spreadMs: 9, leftOut: 0, added: 0 } as const;

/** Tempos differ so much from the usual one, up or down: a tempo by heart is not the groove. Our choice. */
const TEMPO_SHARE = 0.08;

/** Of what has no bar. */
const UNKNOWN_TEMPO: Bpm = 100;

/** Draws how it is played. */
export function drawPerformance({ ways }: Pick<Spottable, "ways">, chance: Chance): Performance {
  const way = Math.floor(chance() * ways.length);
  const written = ways[way];
  const usual = written ? usualTempoOf(written) : UNKNOWN_TEMPO;
  return {
    way,
    tempoBpm: Math.round(usual * (1 + TEMPO_SHARE * (2 * chance() - 1))),
    seed: Math.floor(chance() * 2 ** 31),
  };
}

function usualTempoOf(written: Written): Bpm {
  if (written.kind === "part") return inARow(written)[0]?.tempoBpm ?? UNKNOWN_TEMPO;
  if (written.kind === "fill") return fillTempo(written.music, grooveAround(written.music));
  return usualTempo(written.music);
}

/** Strokes from time 0, in order of time. */
export function performedStrokes(
  { ways }: Pick<Spottable, "ways">,
  { way, tempoBpm, seed }: Performance,
): readonly DemonstratedStroke[] {
  const written = ways[way] ?? ways[0];
  if (!written) return [];
  const how = { ...USUAL_HAND, tempoBpm, chance: seededChance(seed) };
  switch (written.kind) {
    case "groove":
    case "phrase": {
      const { music } = written;
      return demonstrate(music, { ...how, bars: Math.max(GROOVE_BARS, music.bars) });
    }
    case "fill": {
      const fill = written.music;
      const bars = FILL_BARS + 1;
      const bar = FILL_BARS - Math.ceil(fill.beats / beatsPerBar(fill.metre)) + 1;
      return demonstrate(grooveAround(fill), { ...how, bars, fills: [{ fill, bar, thenCrash: true }] });
    }
    case "part":
      return partBegins(written, tempoBpm);
  }
}

/** As written: a part has more sections than one player's hand can be drawn for at once. */
function partBegins(written: Written, tempoBpm: Bpm): readonly DemonstratedStroke[] {
  const strokes: DemonstratedStroke[] = [];
  let seconds = 0;
  let bars = 0;
  const stretches = inARow(written);
  const speed = tempoBpm / (stretches[0]?.tempoBpm ?? tempoBpm);
  for (const stretch of stretches) {
    if (bars >= PART_BARS) break;
    const own = stretch.tempoBpm * speed;
    const here = Math.min(stretch.bars, PART_BARS - bars);
    const groove = { ...written.music, ...stretch, tempoBpm: { low: own, high: own } };
    const from = seconds;
    for (const { time, note } of performed(groove, { tempoBpm: own, bars: here }))
      strokes.push({ time: from + time, voice: note.voice, velocity: DYNAMIC_VELOCITY[note.dynamic] });
    seconds += here * beatsPerBar(stretch.metre) * beatSeconds(own);
    bars += here;
  }
  return strokes;
}

/** The plainest groove of its metre and feel whose tempos reach the fill's; the first of the metre where none does. */
export function grooveAround(fill: Pick<Fill, "metre" | "feel" | "tempoBpm">): Groove {
  const inMetre = STYLES.map(({ variants }) => variants[0]).filter(
    (groove): groove is Groove => groove !== undefined && metreName(groove.metre) === metreName(fill.metre),
  );
  const reaches = ({ tempoBpm }: Groove): boolean =>
    tempoBpm.low <= fill.tempoBpm.high && tempoBpm.high >= fill.tempoBpm.low;
  const found =
    inMetre.find((groove) => groove.feel.kind === fill.feel.kind && reaches(groove)) ??
    inMetre.find(reaches) ??
    inMetre[0] ??
    STYLES[0]?.variants[0];
  if (!found) throw new RangeError("The catalogue has no groove to set a fill in.");
  return found;
}

/** A tempo at which both are at home, or else the fill is. */
function fillTempo(fill: Fill, groove: Groove): Bpm {
  const low = Math.max(fill.tempoBpm.low, groove.tempoBpm.low);
  const high = Math.min(fill.tempoBpm.high, groove.tempoBpm.high);
  return usualTempo(low <= high ? { tempoBpm: { low, high } } : fill);
}
