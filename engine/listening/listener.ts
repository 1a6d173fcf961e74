/**
 * Question: what is being played now, while it is played?
 * Method: the last seconds are heard as a take of their own. What was told a beat ago stays told until the evidence has
 * turned, so that nothing flickers; periods found a moment ago are followed before others are looked for.
 */
import type { Hit } from "../kit/index.ts";
import { type Bpm, median, type Seconds } from "../units/index.ts";
import { hear } from "./hear.ts";
import type { Candidate, Heard, Hearing, Pulse } from "./hearing.ts";
import { type Root, rootPulses } from "./pulse.ts";
import { strokesOfHits } from "./roles.ts";
import { type Stock, withoutParts } from "./stock.ts";

/** What was played longer ago than this no longer counts for what is being played now. Eight bars at 107 a minute. */
const LIVE_SPAN: Seconds = 18;
/** New periods are looked for at every third hearing: less than a bar passes before a new tempo is looked for. Our choice. */
const HEARINGS_WITH_ROOTS = 3;
/**
 * What was told is told again until something else is so many times likelier twice running, or this much likelier at
 * once. Our choice.
 */
const LIKELIER_TWICE = 1.5;
const LIKELIER_AT_ONCE = 6;
/** The tempo now is that of so many beats. Our choice: two bars. */
const BEATS_NOW = 8;

/**
 * Listening while playing: hits go in one by one, the last bars are heard again when asked. A drum part is longer than what is
 * heard at once: it is told of the whole take.
 *
 * @example
 * new Listener(stock).hearing() // => { kind: "nothing", reason: "no-hits" }
 */
export class Listener {
  readonly #stock: Stock;
  #hits: Hit[] = [];
  #roots: readonly Root[] = [];
  #hearings = 0;
  readonly #told = new Told();

  constructor(stock: Stock) {
    this.#stock = withoutParts(stock);
  }

  /** Takes one hit, in order of time. What is long past is let go, so that a long session costs no more. */
  add(hit: Hit): void {
    this.#hits.push(hit);
    const oldest = hit.time - LIVE_SPAN;
    if ((this.#hits[0]?.time ?? oldest) < oldest - LIVE_SPAN) {
      this.#hits = this.#hits.filter(({ time }) => time >= oldest);
    }
  }

  /**
   * What the last bars sound like, and the tempo now. The groove told last comes first until the evidence has turned.
   * Not for the strike's own path: ask once a beat.
   */
  hearing(): Hearing {
    const newest = this.#hits.at(-1)?.time ?? 0;
    const latest = this.#hits.filter(({ time }) => time >= newest - LIVE_SPAN);
    const hearing = hear(latest, this.#stock, { roots: this.#rootsOf(latest) });
    if (hearing.kind !== "heard") return hearing;
    return { ...this.#told.toldOf(hearing), pulse: now(hearing.pulse) };
  }

  #rootsOf(hits: readonly Hit[]): readonly Root[] {
    if (this.#hearings % HEARINGS_WITH_ROOTS === 0 || this.#roots.length === 0)
      this.#roots = rootPulses(strokesOfHits(hits), this.#stock.general);
    this.#hearings += 1;
    return this.#roots;
  }
}

/** The pulse with the tempo of its last beats. */
function now(pulse: Pulse): Pulse {
  const beats = pulse.beats.slice(-BEATS_NOW - 1);
  if (beats.length < 2) return pulse;
  const apart = beats.slice(1).map((beat, index) => beat - (beats[index] ?? beat));
  const tempoBpm: Bpm = 60 / median(apart);
  return { ...pulse, tempoBpm };
}

/** A groove by its id, or none. */
type Answer = string | null;

/** What was told last, and what speaks against it. */
class Told {
  #answer: Answer | undefined;
  #doubted: Answer | undefined;

  /** The hearing with the groove that is to be told in the first place. */
  toldOf(heard: Heard): Heard {
    const answer = this.#answerTo(heard);
    this.#answer = answer;
    if (answer === null) return { ...heard, known: false };
    const held = heard.candidates.filter(({ id }) => id === answer);
    return {
      ...heard,
      known: true,
      candidates: [...held, ...heard.candidates.filter(({ id }) => id !== answer)],
    };
  }

  #answerTo(heard: Heard): Answer {
    const best = heard.candidates[0];
    const newest: Answer = heard.known && best ? best.id : null;
    const told = this.#answer;
    const isStillThere = told === null || heard.candidates.some(({ id }) => id === told);
    if (told === undefined || told === newest || !isStillThere) {
      this.#doubted = undefined;
      return newest;
    }
    const likelier = chanceOf(newest, heard) / Math.max(chanceOf(told, heard), 1e-9);
    const doubtful = likelier >= LIKELIER_TWICE;
    const turned = likelier >= LIKELIER_AT_ONCE || (doubtful && this.#doubted === newest);
    this.#doubted = doubtful && !turned ? newest : undefined;
    return turned ? newest : told;
  }
}

function chanceOf(answer: Answer, { candidates, noneConfidence }: Heard): number {
  if (answer === null) return noneConfidence;
  return candidates.find(({ id }: Candidate) => id === answer)?.confidence ?? 0;
}
