/** So many of so many, with the 95 % interval of the share. */
export interface Share {
  readonly right: number;
  readonly asked: number;
  readonly low: number;
  readonly high: number;
}

/** The 97.5th percentile of the normal distribution. */
const Z_95 = 1.959964;

/**
 * The share with its score interval: Wilson, J. Am. Stat. Assoc. 22 (1927) 209–212.
 *
 * @param asked at least one.
 * @example
 * shareOf(81, 263) // => { right: 81, asked: 263, low: 0.2553…, high: 0.3662… }
 */
export function shareOf(right: number, asked: number): Share {
  const share = right / asked;
  const square = Z_95 * Z_95;
  const middle = share + square / (2 * asked);
  const reach = Z_95 * Math.sqrt((share * (1 - share)) / asked + square / (4 * asked * asked));
  const whole = 1 + square / asked;
  return {
    right,
    asked,
    low: Math.max(0, (middle - reach) / whole),
    high: Math.min(1, (middle + reach) / whole),
  };
}
