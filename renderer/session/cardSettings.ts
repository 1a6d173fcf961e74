/**
 * How cards are laid on this computer: which names are used, how many there are, how often a joker comes. Kept, because a
 * teacher says crotchet tomorrow as well.
 */
import { z } from "zod";
import { NAMINGS, type Naming } from "../../engine/catalogue/index.ts";
import type { Bpm } from "../../engine/units/index.ts";
import type { KeepingPlace } from "./keepingPlace.ts";
import { Store } from "./store.ts";

export const FEWEST_CARDS = 3;
export const MOST_CARDS_LAID = 30;
/** Of ten cards, so many may be followed by a joker. */
export const MOST_JOKERS = 10;

/** Of a click to read to. Our choice. */
export const SLOWEST_CLICK_BPM: Bpm = 40;
export const FASTEST_CLICK_BPM: Bpm = 160;
const USUAL_CLICK_BPM: Bpm = 72;

const settingSchema = z.strictObject({
  naming: z.enum(NAMINGS),
  /** Cards besides jokers. */
  cards: z.int().min(FEWEST_CARDS).max(MOST_CARDS_LAID),
  /** How many of ten cards are followed by a joker, over time. */
  jokersInTen: z.int().min(0).max(MOST_JOKERS),
  /** Whether rhythms to be struck are among them. */
  rhythms: z.boolean(),
  /** Whether those are struck to a click, counted in by a bar; else at the player's own tempo. */
  toClick: z.boolean().default(false),
  /** Felt beats a minute. */
  clickBpm: z.int().min(SLOWEST_CLICK_BPM).max(FASTEST_CLICK_BPM).default(USUAL_CLICK_BPM),
  /** Whether four names are shown to choose from. */
  fourNames: z.boolean(),
});
export type CardSetting = Readonly<z.infer<typeof settingSchema>>;

export interface CardSettingsState extends CardSetting {
  /** Why it could not be read or kept, said to the user. */
  readonly trouble?: string;
}

const keptSchema = settingSchema.extend({ version: z.literal(1) });
const USUAL: CardSetting = {
  naming: "us",
  cards: 12,
  jokersInTen: 1,
  rhythms: true,
  toClick: false,
  clickBpm: USUAL_CLICK_BPM,
  fourNames: true,
};
const KEPT_AS = "throneside.cards";

export function readCardSettings(place: KeepingPlace): CardSettingsState {
  const broken = (reason: string): CardSettingsState => ({
    ...USUAL,
    trouble: `How cards were laid on this computer cannot be read: ${reason}. They are laid as usual; set it anew to replace it.`,
  });
  try {
    const text = place.getItem(KEPT_AS);
    if (text === null) return USUAL;
    const kept = keptSchema.safeParse(JSON.parse(text));
    if (!kept.success) return broken(z.prettifyError(kept.error).replace(/\s+/g, " "));
    const { version: _, ...setting } = kept.data;
    return setting;
  } catch (error) {
    return broken(error instanceof SyntaxError ? "its text is damaged" : String(error));
  }
}

/** Which names of signs are used here, for lists that are made away from any page. */
export function namingHere(place: KeepingPlace | undefined = globalThis.localStorage): Naming {
  return place ? readCardSettings(place).naming : USUAL.naming;
}

export class CardSettings extends Store<CardSettingsState, Partial<CardSettingsState>> {
  readonly #place: KeepingPlace;

  constructor(place: KeepingPlace) {
    super(readCardSettings(place), (state, change) => ({ ...state, ...change }));
    this.#place = place;
  }

  set(change: Partial<CardSetting>): void {
    const { trouble: _, ...before } = this.get();
    const kept = keptSchema.parse({ version: 1, ...before, ...change });
    this.dispatch(change);
    try {
      this.#place.setItem(KEPT_AS, JSON.stringify(kept));
    } catch (error) {
      this.dispatch({
        trouble: `Cards are laid so now, but this browser could not keep it for next time (${String(error)}).`,
      });
    }
  }
}
