/**
 * The share of a normal distribution within so many standard deviations of its mean, to one in a million: erf(z / √2) by
 * Abramowitz & Stegun, *Handbook of Mathematical Functions* (1964), 7.1.26 (from memory).
 *
 * @example
 * withinNormal(1.96) // => 0.95
 */
export function withinNormal(deviations: number): number {
  const x = deviations / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const series =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return 1 - series * Math.exp(-x * x);
}
