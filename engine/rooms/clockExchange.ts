/**
 * Question: how far is somebody else's clock from ours, and how sure is that?
 * Method: the exchange of four time stamps of the Network Time Protocol (RFC 5905, section 8), by messages through the
 * broker; of the last eight the one that says most is believed (section 10, clock filter).
 *
 * Bound: the true offset lies within half the round trip of the estimate, however the way there and the way back share
 * it (RFC 5905, section 8; Cristian, Probabilistic clock synchronization, Distributed Computing 3 (1989) 146–158: reading
 * error at most D/2 − m, m the least time of one way; nothing is known of m here, so it is 0). The clocks run apart
 * meanwhile: {@link CLOCK_RATE} a second.
 */
import type { Seconds } from "../units/index.ts";

/** The four time stamps of one exchange: T1 and T4 on our clock, T2 and T3 on theirs. */
export interface Exchange {
  readonly t1: Seconds;
  readonly t2: Seconds;
  readonly t3: Seconds;
  readonly t4: Seconds;
}

/** What one exchange says. */
export interface ClockSample {
  /** θ: their clock less ours. */
  readonly offset: Seconds;
  /** δ: the time on the way, there and back. */
  readonly roundTrip: Seconds;
  /** T4, on our clock. */
  readonly at: Seconds;
}

/** What is known of somebody's clock now. */
export interface ClockReading {
  /** Their clock less ours. */
  readonly offset: Seconds;
  /** The true offset lies within this much of it. */
  readonly uncertainty: Seconds;
  /** Half the least round trip of the samples kept: about the time of one way. */
  readonly oneWay: Seconds;
  /** Half the longest of them. */
  readonly worstOneWay: Seconds;
}

/** RFC 5905, section 10: the clock filter has eight stages. */
export const SAMPLES_KEPT = 8;

/**
 * How far two clocks run apart in a second at most. RFC 5905 counts on 15 in a million (PHI) where clocks are kept in
 * step; those of pages are not. Our choice.
 */
export const CLOCK_RATE = 100e-6;

/**
 * RFC 5905, section 8: θ = ((T2 − T1) + (T3 − T4)) / 2, δ = (T4 − T1) − (T3 − T2).
 *
 * @example
 * clockSample({ t1: 1, t2: 1.13, t3: 1.14, t4: 1.05 }) // => { offset: 0.11, roundTrip: 0.04, at: 1.05 }
 */
export function clockSample({ t1, t2, t3, t4 }: Exchange): ClockSample {
  return { offset: (t2 - t1 + (t3 - t4)) / 2, roundTrip: Math.max(0, t4 - t1 - (t3 - t2)), at: t4 };
}

/**
 * Cristian 1989: the reading error where the least time of one way is known.
 *
 * @example
 * cristianBound(0.04, 0.005) // => 0.015
 */
export function cristianBound(roundTrip: Seconds, leastOneWay: Seconds): Seconds {
  return Math.max(0, roundTrip / 2 - leastOneWay);
}

/** Follows one other clock. */
export class ClockFilter {
  #samples: readonly ClockSample[] = [];

  /** Takes an exchange. One that cannot be true beside what is known says that a clock has jumped: it begins anew. */
  take(exchange: Exchange): void {
    const sample = clockSample(exchange);
    const known = this.reading(sample.at);
    const jumped =
      known !== null &&
      Math.abs(sample.offset - known.offset) >
        known.uncertainty + boundOf(sample, sample.at) + JUMP_ALLOWANCE_SECONDS;
    this.#samples = jumped ? [sample] : [...this.#samples, sample].slice(-SAMPLES_KEPT);
  }

  /** How many exchanges it goes by. */
  get samples(): number {
    return this.#samples.length;
  }

  /** What is known at `now` on our clock; `null` before the first exchange. */
  reading(now: Seconds): ClockReading | null {
    const [first, ...others] = this.#samples;
    if (!first) return null;
    const best = others.reduce(
      (least, each) => (boundOf(each, now) < boundOf(least, now) ? each : least),
      first,
    );
    const trips = this.#samples.map(({ roundTrip }) => roundTrip);
    return {
      offset: best.offset,
      uncertainty: boundOf(best, now),
      oneWay: Math.min(...trips) / 2,
      worstOneWay: Math.max(...trips) / 2,
    };
  }
}

/** Two sound samples differ by no more than their bounds; this much more is still rounding, not a jump. */
const JUMP_ALLOWANCE_SECONDS: Seconds = 0.001;

function boundOf({ roundTrip, at }: ClockSample, now: Seconds): Seconds {
  return cristianBound(roundTrip, 0) + CLOCK_RATE * Math.abs(now - at);
}

/** An offset that is held moves by no more than this in a second, so that a phrase keeps its rhythm. Our choice: 0.4 ms in a bar of two. */
export const MOST_SLEW = 200e-6;

/**
 * The offset that moments are put over with. What is known of the other clock gets better by steps, and a step within a
 * phrase would move its strokes apart: so it follows slowly while a phrase is on, and steps between phrases.
 */
export class HeldOffset {
  #offset: Seconds | undefined;
  #at: Seconds = 0;

  /** Follows a reading made at `now`; `mayStep` where no phrase is on, or so little is known that each says much more. */
  follow({ offset }: ClockReading, now: Seconds, mayStep: boolean): void {
    const held = this.#offset;
    if (held === undefined || mayStep) this.#offset = offset;
    else {
      const most = MOST_SLEW * Math.max(0, now - this.#at);
      this.#offset = held + Math.min(Math.max(offset - held, -most), most);
    }
    this.#at = now;
  }

  get offset(): Seconds | undefined {
    return this.#offset;
  }
}
