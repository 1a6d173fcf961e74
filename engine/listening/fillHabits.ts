/**
 * How often players play fills, how long they are, and how many of them are known: what is thought before a note is heard.
 */

/** A bar in how many ends with a fill. Our choice. */
export const FILLS_A_BAR = 0.05;
/** Shares of their lengths, of one beat and so on to eight: as in the catalogue. Longer ones are no fills. */
export const FILL_LENGTH_SHARES = [0.22, 0.36, 0.1, 0.22, 0.02, 0.02, 0.01, 0.05];
/** Half of the fills are none that is known. Our choice. */
export const KNOWN_SHARE = 0.5;
