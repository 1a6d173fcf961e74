/**
 * Listening without a score: pulse, metre, downbeat, and which groove it was, or none that is known.
 * Method: every known groove and grooves in general are placed on every pulse that could be; the groove that
 * stands out from grooves in general is named, with a chance calibrated on the development data.
 */
import type { Hit } from "../kit/index.ts";
import { beatsPerBar, type Groove, type Metre } from "../score/index.ts";
import { type Bpm, robustLine, type Seconds } from "../units/index.ts";
import { agreedBar } from "./agreedBar.ts";
import { type Background, shippedBackground } from "./background.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import { type BeatMap, timeOfBeat } from "./beatMap.ts";
import { certainty } from "./certainty.ts";
import { barsAsCounted, countedIn, turnedToOne } from "./countIn.ts";
import { fillsHeard } from "./fillsHeard.ts";
import type { BeatDoubt, Hearing, Pulse } from "./hearing.ts";
import { variantOf } from "./knownGroove.ts";
import { partHeard } from "./partHeard.ts";
import { type PulseHypothesis, pulseHypotheses } from "./pulse.ts";
import type { ReadBar } from "./reading.ts";
import { type Stroke, strokesOfHits } from "./roles.ts";
import { quarterMetre, type Stock, writtenGroove } from "./stock.ts";
import { swingHeard } from "./swingHeard.ts";
import { type Beforehand, placeGrooves, weigh } from "./weighing.ts";
import { explained } from "./why.ts";

/** With fewer strokes than this no pulse is heard; a strike with two roles is two strokes. Our choice. */
const FEWEST_STROKES = 6;

/**
 * Hears a take.
 *
 * @param hits in order of time; retriggers already taken out.
 * @param stock what the take is compared with. An empty stock still gives pulse, metre and downbeat.
 * @param before what is known of the pulse, such as the click that sounded.
 * @example
 * hear([], stock) // => { kind: "nothing", reason: "no-hits" }
 */
export function hear(hits: readonly Hit[], stock: Stock, before: Beforehand = {}): Hearing {
  if (hits.length === 0) return { kind: "nothing", reason: "no-hits" };
  const counted = countedIn(hits);
  const strokes = strokesOfHits(counted?.groove ?? hits);
  const first = strokes[0];
  const last = strokes.at(-1);
  if (!first || !last || strokes.length < FEWEST_STROKES || first.time === last.time) {
    return { kind: "nothing", reason: "too-few-hits" };
  }
  const whole = weigh(strokes, stock, before);
  if (!whole) return { kind: "nothing", reason: "too-few-hits" };
  const { placed } = whole;
  const bars = counted ? barsAsCounted(whole.bars, counted) : whole.bars;
  const likeliest = agreedBar(bars) ?? whole.likeliest;
  const steady = placed.length === stock.grooves.length ? steadyUtilities(strokes, stock, before) : undefined;
  const chances = certainty(steady ?? whole.utilities);
  const candidates = placed
    .map((groove, index) => ({ ...groove, confidence: chances.grooves[index] ?? 0 }))
    .sort((a, b) => b.confidence - a.confidence || b.placing.score - a.placing.score);

  const best = candidates[0];
  const known = best !== undefined && (chances.known || stock.isCertain === true);
  const laid = known ? best.placing : likeliest;
  const whys = explained(candidates, laid.pulse, stock.general).map((why) => ({ why }));
  const metre = known ? best.known.metre : quarterMetre(likeliest.beatsInBar);
  const feltPerPulse = known ? best.model.feltPerPulse : 1;
  const beatsInBar = beatsPerBar(metre);
  const { turn, settled } = counted
    ? turnedToOne(counted, laid, feltPerPulse, beatsInBar)
    : { turn: laid.turn, settled: false };
  const pulse = pulseOf({ pulse: laid.pulse, turn }, metre, feltPerPulse, likeliest.chance);
  // A groove that lies on another turn of the bar says nothing of bars counted in otherwise.
  const model = known && turn === laid.turn ? { model: best.model } : {};
  const onBars = { pulse: laid.pulse, turn, beatsInBar, feltPerPulse, ...model };
  const fills = fillsHeard(onBars, stock.general, stock.fills);
  const placings = candidates.slice(0, PLACINGS_READ).map(({ placing }) => placing);
  const readings = [{ pulse: laid.pulse, turn }, ...bars.slice(0, BARS_READ), ...placings];
  const part = stock.parts && partHeard(readings, stock.parts, stock.general);
  return {
    kind: "heard",
    fills: fills.heard,
    fillCandidates: fills.candidates,
    ...(part ? { part } : {}),
    ...(counted ? { countIn: counted.countIn } : {}),
    pulse,
    doubt: settled ? NO_DOUBT : doubtOf(bars, likeliest),
    span: { from: first.time, to: last.time, bars: barsIn(pulse, first.time, last.time) },
    swing: swingHeard(counted?.groove ?? hits, pulse),
    candidates: candidates.map(({ known: { id, name }, model, confidence }, index) => {
      const variant = variantOf(model)?.id;
      return { id, name, confidence, ...whys[index], ...(variant ? { variant } : {}) };
    }),
    noneConfidence: chances.none,
    known,
  };
}

/** A drum part is looked for on the pulses of so many of the likeliest bars and grooves. Our choice. */
const BARS_READ = 3;
const PLACINGS_READ = 2;

const NO_DOUBT: BeatDoubt = { between: 0, one: 0 };

/** What the other bars at the likeliest one's pulse have to say for themselves. */
function doubtOf(bars: readonly ReadBar[], likeliest: ReadBar): BeatDoubt {
  const chanceOf = (own: readonly ReadBar[]): number => own.reduce((sum, { chance }) => sum + chance, 0);
  const atPulse = bars.filter(({ pulse }) => pulse === likeliest.pulse);
  const onBeat = atPulse.filter(({ turn }) => (turn - likeliest.turn) % PLACES_PER_BEAT === 0);
  return {
    between: Math.max(0, 1 - chanceOf(onBeat) / chanceOf(atPulse)),
    one: Math.max(0, 1 - likeliest.chance / chanceOf(onBeat)),
  };
}

/** From this length on a take is weighed in stretches. Eight bars of the slowest grooves are shorter. Our choice. */
const LONG_TAKE: Seconds = 40;
const STRETCH: Seconds = 16;
const MOST_STRETCHES = 6;

/**
 * Utilities in a long take: a player who solos for a while has still played the groove before and after. The take is
 * weighed in stretches, and the half of them in which any groove has most to say for it is what counts. Our choice: of eleven
 * whole development takes in the catalogue's styles six are named instead of three.
 *
 * @returns in the order of the stock; `undefined` for a take that is not long, or of which a stretch says nothing.
 */
function steadyUtilities(
  strokes: readonly Stroke[],
  stock: Stock,
  before: Beforehand,
): readonly number[] | undefined {
  const from = strokes[0]?.time ?? 0;
  const length = (strokes.at(-1)?.time ?? from) - from;
  if (length < LONG_TAKE || stock.grooves.length === 0) return undefined;
  const stretches = Math.floor(length / STRETCH);
  const count = Math.min(stretches, MOST_STRETCHES);
  const heard = Array.from({ length: count }, (_, index) => {
    const start = from + Math.floor(((index + 0.5) * stretches) / count) * STRETCH;
    const within = strokes.filter(({ time }) => time >= start && time < start + STRETCH);
    return weigh(within, stock, before)?.utilities ?? [];
  }).filter((own) => own.length === stock.grooves.length);
  const steady = heard.sort((a, b) => Math.max(...b) - Math.max(...a)).slice(0, Math.ceil(heard.length / 2));
  if (steady.length === 0) return undefined;
  return stock.grooves.map((_, groove) => {
    const sum = steady.reduce((total, own) => total + (own[groove] ?? 0), 0);
    return sum / steady.length;
  });
}

/**
 * The pulse of a take when it is known which groove was meant, however badly it was played.
 *
 * @returns `undefined` when too little was played.
 * @example
 * Math.round(pulseOfGroove(hits, groove).tempoBpm) // => 100
 */
export function pulseOfGroove(
  hits: readonly Hit[],
  groove: Groove,
  general: Background = shippedBackground(),
): Pulse | undefined {
  const known = writtenGroove(groove);
  const [placed] = placeGrooves(
    { grooves: [known], general },
    pulseHypotheses(strokesOfHits(hits), general),
    0,
  );
  if (!placed) return undefined;
  return pulseOf(placed.placing, known.metre, placed.model.feltPerPulse, 1);
}

/** A beat this little before the first stroke, or after the last, is still the one that stroke was meant on. */
const END_SLACK_BEATS = 0.25;

function pulseOf(
  { pulse, turn }: { readonly pulse: PulseHypothesis; readonly turn: number },
  metre: Metre,
  feltPerPulse: number,
  confidence: number,
): Pulse {
  const map = { times: pulse.map.times, beats: pulse.map.beats.map((beat) => beat * feltPerPulse) };
  const beatsInBar = beatsPerBar(metre);
  const phase = (turn / PLACES_PER_BEAT) * feltPerPulse;
  const firstBeat = map.beats[0] ?? 0;
  const lastBeat = map.beats.at(-1) ?? 0;
  const from = Math.ceil(firstBeat - phase - END_SLACK_BEATS);
  const to = Math.floor(lastBeat - phase + END_SLACK_BEATS);
  const beats: number[] = [];
  const downbeats: number[] = [];
  for (let beat = from; beat <= to; beat += 1) {
    const time = timeOfBeat(map, beat + phase);
    beats.push(time);
    if (((beat % beatsInBar) + beatsInBar) % beatsInBar === 0) downbeats.push(time);
  }
  if (downbeats.length === 0) {
    // Less than a bar was played: the downbeat it began after.
    downbeats.push(timeOfBeat(map, Math.floor(from / beatsInBar) * beatsInBar + phase));
  }
  return { tempoBpm: tempoOf(map), metre, beats, downbeats, confidence };
}

/**
 * Strokes the tempo is read from, evenly spread over the take: the map is smooth already, and the robust line
 * looks at every pair of them. Our choice.
 */
const TEMPO_STROKES = 50;

function tempoOf({ beats, times }: BeatMap): Bpm {
  const step = Math.ceil(beats.length / TEMPO_STROKES);
  const sampled = (values: Float64Array): number[] => [...values.filter((_, index) => index % step === 0)];
  return 60 / robustLine(sampled(beats), sampled(times)).slope;
}

function barsIn(pulse: Pulse, from: number, to: number): number {
  const beatsInBar = beatsPerBar(pulse.metre);
  return Math.max(1, Math.round(((to - from) * pulse.tempoBpm) / 60 / beatsInBar));
}
