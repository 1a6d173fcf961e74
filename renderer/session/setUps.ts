/**
 * How late each set-up of this computer is, which one is in use, and how that is kept.
 */
import { z } from "zod";
import {
  type Calibration,
  COMPUTER_KEYS,
  calibrationSchema,
  isSameSetUp,
  OUTPUTS,
  type Output,
  type SetUp,
  setUpSchema,
  UNMEASURED,
} from "../../engine/kit/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import type { Source } from "./kitLog.ts";
import type { KeepingPlace } from "./kitMapChoice.ts";
import { Store } from "./store.ts";

const keptSchema = z.strictObject({
  version: z.literal(1),
  output: z.enum(OUTPUTS),
  measured: z
    .array(z.strictObject({ setUp: setUpSchema, calibration: calibrationSchema }).readonly())
    .readonly(),
});

export interface SetUps {
  /** Where the click is heard now. */
  readonly output: Output;
  /** The set-ups that were measured, the latest last. */
  readonly measured: readonly { readonly setUp: SetUp; readonly calibration: Calibration }[];
  /** Why they could not be read or kept, said to the user. */
  readonly trouble?: string;
}

const KEPT_AS = "throneside.set-ups";
/** More are forgotten, the oldest first: nobody owns as many kits. Our choice. */
const MOST_SET_UPS = 40;
const NONE: SetUps = { output: "loudspeakers", measured: [] };

/** Reads what was kept; nothing counts as measured where it is broken, with the reason. */
export function readSetUps(place: KeepingPlace): SetUps {
  const broken = (reason: string): SetUps => ({
    ...NONE,
    trouble: `How late each set-up is was kept on this computer, but cannot be used: ${reason}. Measure it again to replace it.`,
  });
  try {
    const text = place.getItem(KEPT_AS);
    if (text === null) return NONE;
    const kept = keptSchema.safeParse(JSON.parse(text));
    if (!kept.success) return broken(z.prettifyError(kept.error).replace(/\s+/g, " "));
    const { output, measured } = kept.data;
    return { output, measured };
  } catch (error) {
    return broken(error instanceof SyntaxError ? "its text is damaged" : String(error));
  }
}

export class SetUpStore extends Store<SetUps, Partial<SetUps>> {
  readonly #place: KeepingPlace;

  constructor(place: KeepingPlace) {
    super(readSetUps(place), (state, change) => ({ ...state, ...change }));
    this.#place = place;
  }

  /** Says where the click is heard. */
  hearThrough(output: Output): void {
    if (output === this.get().output) return;
    this.dispatch({ output });
    this.#keep();
  }

  /** The same as the sound settings have it, which do not tell headphones apart. */
  hearBy(through: "speakers" | "headphones"): void {
    const isHeadphones = this.get().output !== "loudspeakers";
    if ((through === "headphones") === isHeadphones) return;
    this.hearThrough(through === "headphones" ? "headphones" : "loudspeakers");
  }

  /**
   * The set-up a source plays on; `undefined` for what no hand strikes.
   *
   * @param input name of the kit's MIDI input, where there is one.
   */
  setUpOf(source: Source, input: string | undefined): SetUp | undefined {
    const { output } = this.get();
    switch (source) {
      case "kit":
        return input === undefined ? undefined : { input, output };
      case "keyboard":
        return { input: COMPUTER_KEYS, output };
      case "demonstration":
      // What the other place's set-up delays is taken off there.
      case "far":
        return undefined;
    }
  }

  calibrationOf(setUp: SetUp | undefined): Calibration {
    const known = setUp && this.get().measured.find((each) => isSameSetUp(each.setUp, setUp));
    return known?.calibration ?? UNMEASURED;
  }

  /** What is taken from the time stamps of a source; `input` as in {@link setUpOf}. */
  lateSeconds(source: Source, input: string | undefined): Seconds {
    return this.calibrationOf(this.setUpOf(source, input)).lateMs / 1000;
  }

  keep(setUp: SetUp, calibration: Calibration): void {
    const others = this.get().measured.filter((each) => !isSameSetUp(each.setUp, setUp));
    this.dispatch({ measured: [...others, { setUp, calibration }].slice(-MOST_SET_UPS) });
    this.#keep();
  }

  /** The set-up counts as never measured. */
  forget(setUp: SetUp): void {
    this.dispatch({ measured: this.get().measured.filter((each) => !isSameSetUp(each.setUp, setUp)) });
    this.#keep();
  }

  #keep(): void {
    const { output, measured } = this.get();
    const kept: z.infer<typeof keptSchema> = { version: 1, output, measured };
    try {
      this.#place.setItem(KEPT_AS, JSON.stringify(kept));
    } catch (error) {
      this.dispatch({
        trouble: `How late this set-up is holds now, but this browser could not keep it for next time (${String(error)}).`,
      });
    }
  }
}
