/**
 * What styles are called besides their own names, and how a name is said that English spelling does not tell.
 * Source: names in use, common practice, no source; the respellings are our own: capitals where the weight is, to be read
 * aloud as English.
 */

interface StyleNames {
  /** Any of them is as good as its own name; no two styles share one. */
  readonly alsoNamed?: readonly string[];
  /** How it is said. */
  readonly said?: string;
}

const NAMES: Readonly<Record<string, StyleNames>> = {
  "rock-eighths": { alsoNamed: ["eighth-note rock", "straight rock", "basic rock", "eights rock"] },
  "rock-quarters": { alsoNamed: ["quarter-note rock", "rock in quarters"] },
  "rock-off-beat": { alsoNamed: ["off-beat rock", "rock with the kick off the beat"] },
  "rock-sixteenths": { alsoNamed: ["sixteenth-note rock", "rock in sixteenths"] },
  "half-time": { alsoNamed: ["half-time rock"] },
  "double-time-punk": { alsoNamed: ["punk", "punk beat", "double time"] },
  "d-beat": { alsoNamed: ["dee beat"] },
  "blast-beat": { alsoNamed: ["blast"] },
  "four-on-the-snare": { alsoNamed: ["snare on all four", "soul four"] },
  "funk-sixteenths": { alsoNamed: ["sixteenth-note funk", "funk", "funk beat"] },
  "linear-sixteenths": { alsoNamed: ["linear", "linear funk", "linear beat"] },
  "boom-bap": { alsoNamed: ["hip-hop", "boom bap beat"] },
  "trap-half-time": { alsoNamed: ["trap", "trap beat"] },
  "two-step": { alsoNamed: ["drum and bass", "two-step", "jungle two-step"] },
  disco: { alsoNamed: ["disco beat"] },
  "four-on-the-floor": { alsoNamed: ["house", "four to the floor"] },
  shuffle: { alsoNamed: ["shuffle beat"] },
  "twelve-eight-blues": { alsoNamed: ["slow blues", "twelve-eight"] },
  "six-eight-ballad": { alsoNamed: ["six-eight", "ballad in six"] },
  swing: { alsoNamed: ["jazz swing", "jazz", "swing time"] },
  "jazz-waltz": { alsoNamed: ["jazz waltz", "swing waltz"] },
  "swing-in-five": { alsoNamed: ["jazz in five"] },
  "five-four": { alsoNamed: ["five", "rock in five"] },
  "seven-eight": { alsoNamed: ["seven", "rock in seven"] },
  "train-beat": { alsoNamed: ["train", "country train"] },
  "two-beat": { alsoNamed: ["two-beat", "country two-beat"] },
  polka: { said: "POHL-kah" },
  waltz: { said: "WALTS" },
  "second-line": { alsoNamed: ["street beat"] },
  "bossa-nova": { alsoNamed: ["bossa"], said: "BOSS-ah NOH-vah" },
  samba: { said: "SAHM-bah" },
  "partido-alto": { alsoNamed: ["partido"], said: "par-CHEE-doo AHL-too" },
  baiao: { alsoNamed: ["baion"], said: "by-OWNG, the end through the nose" },
  maracatu: { said: "mah-rah-kah-TOO" },
  "samba-reggae": { said: "SAHM-bah REG-ay" },
  tango: { said: "TAHN-goh" },
  chacarera: { said: "chah-kah-REH-rah" },
  bembe: { said: "bem-BEH" },
  rumba: { said: "ROOM-bah" },
  mambo: { alsoNamed: ["mambo", "cascara"], said: "MAHM-boh with KAHS-kah-rah" },
  "cha-cha": { alsoNamed: ["cha-cha-cha"], said: "CHAH-chah" },
  songo: { said: "SOHN-goh" },
  bolero: { said: "boh-LEH-roh" },
  beguine: { said: "beh-GEEN" },
  merengue: { said: "meh-REN-geh" },
  cumbia: { said: "KOOM-byah" },
  reggaeton: { said: "reh-geh-TOHN" },
  calypso: { said: "kah-LIP-soh" },
  soca: { said: "SOH-kah" },
  rockers: { alsoNamed: ["reggae rockers"] },
  "one-drop": { alsoNamed: ["reggae one drop"] },
  steppers: { alsoNamed: ["reggae steppers"] },
};

/** What else a style is called. */
export function otherStyleNames(styleId: string): readonly string[] {
  return NAMES[styleId]?.alsoNamed ?? [];
}

/** How its name is said, where English spelling does not tell; `null` where it does. */
export function styleSaid(styleId: string): string | null {
  return NAMES[styleId]?.said ?? null;
}

/** Ids of the styles something is said of here. */
export const STYLES_WITH_NAMES: readonly string[] = Object.keys(NAMES);
