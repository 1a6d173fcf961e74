/** Who speaks: what makes one voice another. */
export interface Speaker {
  /** Where the voice begins; it falls a little over a syllable. */
  readonly pitchHz: number;
  /** Formants of the table are a man's: a woman's lie about 1.17, a child's about 1.35 times as high (Peterson & Barney 1952). */
  readonly tract: number;
  /** 1 is as the table says; 1.5 speaks half as fast again. */
  readonly pace: number;
  /** Breath in the voice, 0 to 1. */
  readonly breath: number;
}

/** The voice of the program. */
export const HOUSE_SPEAKER: Speaker = { pitchHz: 125, tract: 1, pace: 1, breath: 0.06 };
