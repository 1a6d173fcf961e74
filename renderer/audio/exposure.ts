/**
 * Question: how long may one listen at a level?
 * Sources: NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure, pub. 98-126 (1998): 85 dBA for 8 h,
 * 3 dB more halves the time. WHO–ITU H.870 (2018, revised 2022), safe listening devices: 80 dBA for 40 h a week, for
 * children and sensitive people 75 dBA, equal energy (3 dB).
 */

export interface ExposureLimit {
  readonly levelDba: number;
  readonly hours: number;
  /** That many decibels more halve the time. */
  readonly exchangeDb: number;
}

export const NIOSH_DAY: ExposureLimit = { levelDba: 85, hours: 8, exchangeDb: 3 };
export const WHO_WEEK: ExposureLimit = { levelDba: 80, hours: 40, exchangeDb: 3 };
export const WHO_WEEK_CHILDREN: ExposureLimit = { levelDba: 75, hours: 40, exchangeDb: 3 };

/**
 * Hours that a limit allows at a level.
 *
 * @example
 * allowedHours(88, NIOSH_DAY) // => 4
 */
export function allowedHours(levelDba: number, limit: ExposureLimit): number {
  return limit.hours / 2 ** ((levelDba - limit.levelDba) / limit.exchangeDb);
}

/**
 * The share of a limit used up by stretches at several levels; 1 is the whole of it.
 *
 * @example
 * dose([{ levelDba: 88, hours: 2 }, { levelDba: 94, hours: 0.5 }], NIOSH_DAY) // => 1
 */
export function dose(
  stretches: readonly { readonly levelDba: number; readonly hours: number }[],
  limit: ExposureLimit,
): number {
  return stretches.reduce((sum, { levelDba, hours }) => sum + hours / allowedHours(levelDba, limit), 0);
}

/** A length of time as one says it: "8 hours", "15 minutes". */
export function hoursWords(hours: number): string {
  const minutes = hours * 60;
  if (minutes < 60) return `${Number(minutes.toFixed(1))} minutes`;
  return `${Number(hours.toFixed(1))} ${hours === 1 ? "hour" : "hours"}`;
}
