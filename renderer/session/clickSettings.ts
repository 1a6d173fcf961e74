/**
 * How the click is set on this computer, and how that is kept: a teacher who likes halves likes them tomorrow, too.
 */
import { z } from "zod";
import {
  type ClickWay,
  clickWaySchema,
  FOUR_FOUR,
  type Metre,
  metreName,
  plainClick,
} from "../../engine/score/index.ts";
import type { KeepingPlace } from "./kitMapChoice.ts";
import { Store } from "./store.ts";

const wayParts = clickWaySchema.unwrap().shape;

const settingsSchema = z.strictObject({
  version: z.literal(1),
  /** Of a free choice; a style that is called brings its own. */
  metre: wayParts.metre,
  every: wayParts.every,
  gaps: wayParts.gaps,
  /** Where the accents of a metre were set, by its name; others have their usual ones. */
  accents: z.record(z.string().max(8), wayParts.accents),
});

export type ClickSetting = Readonly<Omit<z.infer<typeof settingsSchema>, "version">>;

export interface ClickSettingsState extends ClickSetting {
  /** Why it could not be read or kept, said to the user. */
  readonly trouble?: string;
}

const plain = plainClick(FOUR_FOUR);
const PLAIN: ClickSetting = { metre: plain.metre, every: plain.every, gaps: plain.gaps, accents: {} };
const KEPT_AS = "throneside.click";

/** Reads what was kept; a plain click where nothing was, or where it is broken, with the reason. */
export function readClickSettings(place: KeepingPlace): ClickSettingsState {
  const broken = (reason: string): ClickSettingsState => ({
    ...PLAIN,
    trouble: `The click kept on this computer cannot be used: ${reason}. It is plain again; set it anew to replace it.`,
  });
  try {
    const text = place.getItem(KEPT_AS);
    if (text === null) return PLAIN;
    const kept = settingsSchema.safeParse(JSON.parse(text));
    if (!kept.success) return broken(z.prettifyError(kept.error).replace(/\s+/g, " "));
    const { version: _, ...settings } = kept.data;
    return settings;
  } catch (error) {
    return broken(error instanceof SyntaxError ? "its text is damaged" : String(error));
  }
}

export class ClickSettings extends Store<ClickSettingsState, Partial<ClickSettingsState>> {
  readonly #place: KeepingPlace;

  constructor(place: KeepingPlace) {
    super(readClickSettings(place), (state, change) => ({ ...state, ...change }));
    this.#place = place;
  }

  set(change: Partial<Pick<ClickSetting, "metre" | "every" | "gaps">>): void {
    this.dispatch(change);
    this.#keep();
  }

  setAccents(metre: Metre, accents: readonly number[]): void {
    const { accents: all } = this.get();
    this.dispatch({ accents: { ...all, [metreName(metre)]: [...accents].sort((a, b) => a - b) } });
    this.#keep();
  }

  /** How a click in this metre goes; in the metre that was set where none is given. */
  wayIn(metre: Metre | undefined): ClickWay {
    const { metre: own, every, gaps, accents } = this.get();
    const usual = plainClick(metre ?? own);
    return { ...usual, every, gaps, accents: accents[metreName(usual.metre)] ?? usual.accents };
  }

  #keep(): void {
    const { trouble: _, ...settings } = this.get();
    const kept: z.infer<typeof settingsSchema> = { version: 1, ...settings };
    try {
      this.#place.setItem(KEPT_AS, JSON.stringify(kept));
    } catch (error) {
      this.dispatch({
        trouble: `The click is set so now, but this browser could not keep it for next time (${String(error)}).`,
      });
    }
  }
}
