/**
 * Question: how likely are these strokes in grooves in general, whichever groove it is?
 * Method: a mixture of bars learnt from many human takes. It is the prior for pulse and downbeat,
 * and the measure against which a groove must stand out before it is named.
 * Learnt by `scripts/learn.ts` from the Groove MIDI Dataset v1.0.0 (Gillick, Roberts, Engel, Eck & Bamman,
 * ICML 2019; CC BY 4.0).
 */
import { z } from "zod";
import learnt from "./bar-templates.json" with { type: "json" };
import { type BarModel, barModel, type Folded, scoreTurns } from "./barModel.ts";
import { OUT_OF_REACH } from "./logSum.ts";
import { laidOut, type Trees, treeSchema } from "./trees.ts";
import { type Weight, weightSchema } from "./weights.ts";

/**
 * The schema of `bar-templates.json`: rates are thousandths of a stroke, role-major, PLACES_PER_BEAT places a beat;
 * `reading` are trees that ask for the features of `barFeatures.ts`, `naming` the weights of `naming.ts`, by their order.
 */
const barTemplatesSchema = z.object({
  components: z.array(
    z.object({
      beats: z.int().min(2).max(8),
      share: z.number().positive(),
      tempoLogMean: z.number(),
      tempoLogSd: z.number().positive(),
      rates: z.array(z.int().min(0)),
    }),
  ),
  reading: z.array(treeSchema),
  naming: z.object({ asWritten: z.array(weightSchema), byTakes: z.array(weightSchema) }),
});
type BarTemplates = z.infer<typeof barTemplatesSchema>;

/**
 * Strokes anywhere, per beat: more than for a named groove, since a bar like none of the learnt ones must still be
 * possible. Tuned on takes left out of learning.
 */
const FLOOR_PER_BEAT = 1;

/** Bars of each length in the sketch. Our choice. */
const SKETCHED_BARS = 8;

interface Component {
  readonly model: BarModel;
  readonly logShare: number;
  readonly tempoLogMean: number;
  readonly tempoLogSd: number;
}

/** Bars as a mixture. */
export interface Bars {
  readonly components: readonly Component[];
  /** Lengths of bar the components have, in beats. */
  readonly beats: readonly number[];
}

export interface Background extends Bars {
  /** The average bar by its beats: raw expected strokes by role and place. */
  readonly average: ReadonlyMap<number, Float64Array>;
  /** The commonest of the bars: enough to tell which pulses are worth a closer look. */
  readonly sketch: Bars;
  /** What the features of a bar are asked, see `reading.ts`. */
  readonly reading: Trees;
  /** Weights of what is asked before a groove is named, known as it is written or by takes of it: see `naming.ts`. */
  readonly naming: { readonly asWritten: readonly Weight[]; readonly byTakes: readonly Weight[] };
}

/** Readies templates for scoring. */
function background(templates: BarTemplates): Background {
  const components = templates.components.map((component) => ({
    model: barModel(
      Float64Array.from(component.rates, (rate) => rate / 1000),
      component.beats,
      FLOOR_PER_BEAT,
    ),
    logShare: Math.log(component.share),
    tempoLogMean: component.tempoLogMean,
    tempoLogSd: component.tempoLogSd,
  }));
  const average = new Map<number, Float64Array>();
  for (const beats of new Set(components.map(({ model }) => model.beats))) {
    average.set(beats, averageRates(components.filter(({ model }) => model.beats === beats)));
  }
  const beats = [...average.keys()];
  const { reading, naming } = templates;
  return {
    components,
    average,
    beats,
    sketch: { components: commonest(components, beats), beats },
    reading: laidOut(reading),
    naming,
  };
}

function commonest(components: readonly Component[], beats: readonly number[]): readonly Component[] {
  return beats.flatMap((length) =>
    components
      .filter(({ model }) => model.beats === length)
      .sort((a, b) => b.logShare - a.logShare)
      .slice(0, SKETCHED_BARS),
  );
}

function averageRates(components: readonly Component[]): Float64Array {
  const whole = components.reduce((sum, { logShare }) => sum + Math.exp(logShare), 0);
  const rates = new Float64Array(components[0]?.model.rates.length ?? 0);
  for (const { model, logShare } of components) {
    for (let at = 0; at < rates.length; at += 1) {
      rates[at] = (rates[at] ?? 0) + ((model.rates[at] ?? 0) * Math.exp(logShare)) / whole;
    }
  }
  return rates;
}

/**
 * Grooves in general from learnt templates other than those that ship: for measuring on drummers left out of learning.
 *
 * @throws ZodError when `json` is not laid out as `bar-templates.json` is.
 */
export function readBackground(json: unknown): Background {
  return background(barTemplatesSchema.parse(json));
}

let shipped: Background | undefined;

/** The background that ships with the program, readied once. */
export function shippedBackground(): Background {
  shipped ??= readBackground(learnt);
  return shipped;
}

/**
 * Bars of one groove are not independent witnesses: a groove that does not fit one bar does not fit the next
 * either. Evidence from many seconds is therefore counted as from a few. Our choice, tuned on the development
 * data; it depends on time alone, so that pulses of one take compare.
 */
const SECONDS_THAT_COUNT = 5;

/** Weight of the evidence of a take of this length. */
export function tempering(spanSeconds: number): number {
  return SECONDS_THAT_COUNT / (SECONDS_THAT_COUNT + spanSeconds);
}

/**
 * Beats are felt most readily near this tempo, and less the further away in ratio. Fraisse 1982 puts the
 * spontaneous beat at 100 to 120 a minute (from memory); centre and width are tuned on the development data.
 */
const FELT_TEMPO_BPM = 98;
const FELT_TEMPO_LOG_SD = 0.24;

/** Log of the prior chance of a tempo, up to a constant. */
function feltTempoPrior(tempoBpm: number): number {
  return -0.5 * (Math.log(tempoBpm / FELT_TEMPO_BPM) / FELT_TEMPO_LOG_SD) ** 2;
}

/**
 * For each turn of the bar (in the order of `turnAt`), the log of the chance of the strokes under the mixture, tempo prior
 * included (per second, so that pulses compare).
 */
export function scoreBackground(
  model: Bars,
  folded: Folded,
  phases: readonly number[],
  beatSecondsHeard: number,
): Float64Array {
  const temper = tempering(folded.repeats * folded.beats * beatSecondsHeard);
  const perSecond = -folded.mass * Math.log(beatSecondsHeard) * temper;
  const count = phases.length * folded.beats;
  const scores = new Float64Array(count);
  // A sum of chances by turn, kept as its largest and the sum in units of that.
  const most = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  const sums = new Float64Array(count);
  const felt = feltTempoPrior(60 / beatSecondsHeard);
  const logTempo = Math.log(60 / beatSecondsHeard);
  for (const component of model.components) {
    if (component.model.beats !== folded.beats) continue;
    scoreTurns(component.model, folded, phases, scores);
    const away = (logTempo - component.tempoLogMean) / component.tempoLogSd;
    const prior = perSecond + felt + component.logShare - 0.5 * away * away - Math.log(component.tempoLogSd);
    for (let turn = 0; turn < count; turn += 1) {
      const log = (scores[turn] ?? 0) * temper + prior;
      const before = most[turn] ?? 0;
      if (log > before) {
        sums[turn] = (sums[turn] ?? 0) * Math.exp(before - log) + 1;
        most[turn] = log;
      } else if (before - log < OUT_OF_REACH) sums[turn] = (sums[turn] ?? 0) + Math.exp(log - before);
    }
  }
  return most.map((log, turn) => log + Math.log(sums[turn] ?? 0));
}
