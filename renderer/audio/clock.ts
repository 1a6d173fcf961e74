/**
 * The one place where the two clocks meet: the session clock (`performance.now()`, which stamps MIDI messages) and the
 * audio clock, on which all sound is scheduled.
 *
 * Source of the pairs: Web Audio API, W3C: `getOutputTimestamp` gives the sample that leaves the device with both
 * times, `outputLatency` counted in. The pairs jitter by milliseconds, and the two crystals drift apart by up to some
 * 200 in a million. So the pairs of the last minute are taken together by a robust line (Theil–Sen, then least squares
 * without the strays: `engine/units/robust`), and the clock that is handed out is led towards that line with a bounded
 * slew, as `adjtime` does with a computer's clock, so that no click ever jumps. All constants are our choice; each says
 * why. What neither clock knows (module, wireless headphones) is the set-up's own delay: `engine/kit/calibration`.
 */
import { median, robustLine, robustSpread, type Seconds } from "../../engine/units/index.ts";

/** The clock of an audio context. */
export type AudioClock = Pick<AudioContext, "currentTime" | "outputLatency" | "getOutputTimestamp">;

/** A moment of the session clock, and how far the audio clock is ahead of it. */
interface Pair {
  readonly at: Seconds;
  readonly ahead: Seconds;
}

/** Pairs of one second become one: their median has a third of their jitter, and the line stays cheap. */
const BIN_SECONDS: Seconds = 1;
/** A minute of pairs: the slope is then known to some 5 in a million, and a changed room temperature is still followed. */
const BINS = 60;
/** From so many bins on there is a line. */
const FEWEST_FOR_LINE = 4;
/** How far apart crystals usually run, one standard deviation: a short line that says more is believed less (ridge regression). */
const USUAL_RATE = 100e-6;
/** Further from the line is a stray, or the clock has jumped: it jumped when so many in a row agree. */
const STRAY_SECONDS: Seconds = 0.008;
const STRAYS_FOR_JUMP = 4;
/** What is off is made good within about this time, and by no more than this share of it: 0.1 ms in half a second. */
const SETTLE_SECONDS: Seconds = 5;
const MOST_SLEW = 200e-6;
/** For so long after a beginning the clock is set outright; it is not yet steady, and sound should wait where it can. */
const BEGINNING_SECONDS: Seconds = 0.25;
/**
 * What is scheduled while the clock is not steady: no further ahead than need be, since it is less exact by milliseconds; far
 * enough that a page that stands still for 200 ms, and is then looked at only at the next look, loses nothing.
 */
export const AHEAD_UNSTEADY_SECONDS: Seconds = 0.3;
/** When nobody looked for so long, it begins again. */
const UNSEEN_SECONDS: Seconds = 5;

/** The line that is handed out: at `at` the audio clock is `ahead`, and gains `rate` with every second. */
interface Led extends Pair {
  readonly rate: number;
}

export class JoinedClock {
  readonly #audio: AudioClock;
  readonly #now: () => Seconds;
  #bins: Pair[] = [];
  /** The pairs of the second that is not yet full. */
  #open: Pair[] = [];
  #strays: Pair[] = [];
  /** Through the bins; worked out anew when one is full. */
  #line: Led | undefined;
  #led: Led | undefined;
  #began: Seconds = 0;

  /** @param now the session clock. */
  constructor(audio: AudioClock, now: () => Seconds = () => performance.now() / 1000) {
    this.#audio = audio;
    this.#now = now;
  }

  /** Takes a pair of both clocks. Call it often, a few times a second, while something is scheduled. */
  look(): void {
    const { contextTime, performanceTime } = this.#audio.getOutputTimestamp();
    if (contextTime === undefined || performanceTime === undefined || performanceTime <= 0) return;
    const at = performanceTime / 1000;
    const last = this.#open.at(-1) ?? this.#strays.at(-1);
    if (last && at <= last.at && at > last.at - UNSEEN_SECONDS) return;
    this.#take({ at, ahead: contextTime - at });
  }

  /** Whether the clocks have been joined for long enough: what is scheduled now keeps its distance to what follows. */
  get isSteady(): boolean {
    return this.#led !== undefined && this.#led.at - this.#began >= BEGINNING_SECONDS;
  }

  /** The audio time at which a sound must be scheduled to be heard at `sessionTime`. */
  audioTimeAt(sessionTime: Seconds): Seconds {
    const { ahead, at, rate } = this.#led ?? this.#declared();
    return sessionTime + ahead + rate * (sessionTime - at);
  }

  /** The session time at which the sample of an audio time is heard. */
  sessionTimeAt(audioTime: Seconds): Seconds {
    const { ahead, at, rate } = this.#led ?? this.#declared();
    return at + (audioTime - ahead - at) / (1 + rate);
  }

  /** Before the first sample has left the device there is no pair: the latency it declares stands in. */
  #declared(): Led {
    const at = this.#now();
    return { at, ahead: this.#audio.currentTime - this.#audio.outputLatency - at, rate: 0 };
  }

  #take(pair: Pair): void {
    const led = this.#led;
    if (led && Math.abs(pair.ahead - aheadAt(led, pair.at)) > STRAY_SECONDS) {
      this.#strays.push(pair);
      if (this.#haveJumped()) this.#restart();
      return;
    }
    this.#strays = [];
    this.#bin(pair);
    this.#lead(pair.at);
  }

  #haveJumped(): boolean {
    const latest = this.#strays.slice(-STRAYS_FOR_JUMP);
    if (latest.length < STRAYS_FOR_JUMP) return false;
    const middle = median(latest.map(({ ahead }) => ahead));
    return latest.every(({ ahead }) => Math.abs(ahead - middle) < STRAY_SECONDS);
  }

  /** The clocks stand to one another in a new way (the context was suspended, the device changed): begin again from there. */
  #restart(): void {
    const fresh = this.#strays.slice(-STRAYS_FOR_JUMP);
    this.#strays = [];
    this.#bins = [];
    this.#open = [];
    this.#line = undefined;
    this.#led = undefined;
    for (const pair of fresh) this.#take(pair);
  }

  #bin(pair: Pair): void {
    const first = this.#open[0];
    if (first && pair.at - first.at >= BIN_SECONDS) {
      const full = middleOf(this.#open);
      this.#bins = [...this.#bins, full].filter(({ at }) => at > full.at - BINS * BIN_SECONDS).slice(-BINS);
      this.#open = [];
      this.#line = lineThrough(this.#bins);
    }
    this.#open.push(pair);
  }

  /** Leads the clock that is handed out towards what the pairs say. */
  #lead(now: Seconds): void {
    const said = this.#said(now);
    const led = this.#led;
    if (!led || now - led.at > UNSEEN_SECONDS) this.#began = now;
    if (!led || now - this.#began < BEGINNING_SECONDS) {
      this.#led = { at: now, ahead: said.ahead, rate: said.rate };
      return;
    }
    const ahead = aheadAt(led, now);
    const off = (said.ahead - ahead) / SETTLE_SECONDS;
    this.#led = { at: now, ahead, rate: said.rate + Math.min(Math.max(off, -MOST_SLEW), MOST_SLEW) };
  }

  /** What the pairs of the last minute say of a moment. */
  #said(now: Seconds): Led {
    if (this.#line) return { at: now, ahead: aheadAt(this.#line, now), rate: this.#line.rate };
    const pairs = [...this.#bins, middleOf(this.#open)];
    return { at: now, ahead: median(pairs.map(({ ahead }) => ahead)), rate: 0 };
  }
}

/** The line through the bins, its slope drawn towards nought by as much as it is unsure. */
function lineThrough(bins: readonly Pair[]): Led | undefined {
  if (bins.length < FEWEST_FOR_LINE) return undefined;
  const middle = bins.reduce((sum, { at }) => sum + at, 0) / bins.length;
  const x = bins.map(({ at }) => at - middle);
  const { at0, slope } = robustLine(
    x,
    bins.map(({ ahead }) => ahead),
  );
  const left = robustSpread(bins.map(({ ahead }, bin) => ahead - at0 - slope * (x[bin] ?? 0)));
  const error = left.sd / Math.sqrt(x.reduce((sum, each) => sum + each * each, 0));
  return { at: middle, ahead: at0, rate: slope / (1 + (error / USUAL_RATE) ** 2) };
}

function aheadAt({ at, ahead, rate }: Led, time: Seconds): Seconds {
  return ahead + rate * (time - at);
}

function middleOf(pairs: readonly Pair[]): Pair {
  return { at: median(pairs.map(({ at }) => at)), ahead: median(pairs.map(({ ahead }) => ahead)) };
}

const clocks = new WeakMap<AudioClock, JoinedClock>();

/** The joined clock of an audio context: one each, whoever asks. */
export function clockOf(context: AudioClock): JoinedClock {
  const known = clocks.get(context);
  if (known) return known;
  const clock = new JoinedClock(context);
  clocks.set(context, clock);
  return clock;
}
