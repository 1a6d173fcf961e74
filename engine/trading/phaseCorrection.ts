/**
 * Question: how much of what they are apart does a player make good with the next stroke?
 *
 * Model: linear phase correction. The next interval is the player's own period less a share α of the last asynchrony, plus
 * noise of the inner clock, plus what the limb was late at its end and less what it was late at its beginning: A′ = (1 − α)A +
 * T + M′ − M (Vorberg & Wing 1996, in Heuer & Keele (eds.), *Handbook of Perception and Action* 2; Repp, Psychonomic Bulletin &
 * Review 12 (2005) 969–992; for players together Wing, Endo, Bradbury & Vorberg, J. R. Soc. Interface 11 (2014) 20131125).
 *
 * Estimator: the noise of that row is a moving average of the kind ε + θε₋₁. With θ known, both sides are freed of it by the
 * same recursion, and least squares are then without bias, however the limb adds to the asynchrony it was late by. θ is not
 * looked for: near α = 0.8 clock and limb cannot be told apart in a few hundred beats, which is why the literature bounds the
 * limb's share (Jacoby, Tishby, Repp, Ahissar & Keller, Timing & Time Perception 3 (2015) 52–87; Repp, Keller & Jacoby, Acta
 * Psychologica 139 (2012) 281–290). Here the limb's scatter is half of the clock's, as in their simulations (from memory).
 */
import { type Milliseconds, median } from "../units/index.ts";

/** Asynchronies of one player in one unbroken row of beats: negative where ahead of the other. */
export type AsynchronyRow = readonly Milliseconds[];

export interface PhaseCorrection {
  /** Share made good at the next beat: 0 keeps to oneself, 1 is with the other at once. */
  readonly share: number;
  /** Standard error. */
  readonly error: number;
  /** Beats weighed. */
  readonly beats: number;
}

/** The bounds of the literature: beyond 2 nothing would ever meet again. */
const LEAST_SHARE = 0;
const LARGEST_SHARE = 2;
/** γ₁/γ₀ = −σ²_limb/(σ²_clock + 2σ²_limb) with the limb's scatter half of the clock's. */
const NEIGHBOURS = -1 / 6;
/** The moving average with that correlation: θ/(1 + θ²) = γ₁/γ₀. */
const THETA = (1 - Math.sqrt(1 - 4 * NEIGHBOURS ** 2)) / (2 * NEIGHBOURS);
/** With fewer beats the error is larger than anything to be told. Our choice. */
const FEWEST_BEATS = 12;
/** A row further off than this is a slip, not an asynchrony to be made good. Our choice: half a slow beat's band. */
const SLIP_MS: Milliseconds = 150;

/**
 * The share of correction from rows of asynchronies; `null` with too few beats, or where nothing varies.
 *
 * @example
 * phaseCorrection([[0, 0]]) // => null
 */
export function phaseCorrection(rows: readonly AsynchronyRow[]): PhaseCorrection | null {
  const usual = median(rows.flat());
  const whole = rows.filter((row) => row.every((each) => Math.abs(each - usual) <= SLIP_MS));
  const mean = meanOf(whole.flat());
  const steps = whole.flatMap((row) => freed(row.map((each) => each - mean)));
  if (steps.length < FEWEST_BEATS) return null;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const { before, after } of steps) {
    xx += before ** 2;
    xy += before * after;
    yy += after ** 2;
  }
  if (!(xx > 1e-9)) return null;
  const kept = xy / xx;
  const variance = Math.max(0, yy - kept * xy) / (steps.length - 2);
  return {
    share: Math.min(LARGEST_SHARE, Math.max(LEAST_SHARE, 1 - kept)),
    error: Math.sqrt(variance / xx),
    beats: steps.length,
  };
}

/** Each asynchrony and the next one, both freed of the moving average. */
function freed(
  row: AsynchronyRow,
): readonly { readonly before: Milliseconds; readonly after: Milliseconds }[] {
  let before = 0;
  let after = 0;
  return row.slice(1).map((next, at) => {
    before = (row[at] ?? 0) - THETA * before;
    after = next - THETA * after;
    return { before, after };
  });
}

function meanOf(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}
