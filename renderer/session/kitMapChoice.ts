/**
 * Which kit map is in use, and how the choice is kept on this computer.
 */
import { z } from "zod";
import { type KitMap, KitMapError, kitMapSchema, parseKitMap } from "../../engine/kit/index.ts";
import generalMidi1 from "../../kit-maps/general-midi-1.json";
import generalMidi2 from "../../kit-maps/general-midi-2.json";
import wideNinePiece from "../../kit-maps/wide-nine-piece.json";
import { type KeepingPlace, keptFor } from "./keepingPlace.ts";
import { Store } from "./store.ts";

export type { KeepingPlace } from "./keepingPlace.ts";

const FIRST_MAP = parseKitMap(generalMidi1, "general-midi-1.json");

/** The maps that come with the program. The first is used until another is chosen. */
export const SHIPPED_MAPS: readonly KitMap[] = [
  FIRST_MAP,
  parseKitMap(generalMidi2, "general-midi-2.json"),
  parseKitMap(wideNinePiece, "wide-nine-piece.json"),
];

export interface KitMapChoice {
  readonly map: KitMap;
  /** The map this kit has taught the program, if it has. */
  readonly learnt?: KitMap;
  /** Why the choice could not be read or kept, said to the user. */
  readonly trouble?: string;
}

type ChoiceEvent =
  | { readonly kind: "chosen"; readonly id: string }
  | { readonly kind: "learnt"; readonly map: KitMap }
  | { readonly kind: "not-kept"; readonly reason: string }
  | { readonly kind: "read"; readonly choice: KitMapChoice };

const KEPT_AS = "throneside.kit-map";
const keptSchema = z.strictObject({
  version: z.literal(1),
  chosen: z.string(),
  learnt: kitMapSchema.optional(),
});

function mapById(id: string, learnt: KitMap | undefined): KitMap | undefined {
  return learnt?.id === id ? learnt : SHIPPED_MAPS.find((map) => map.id === id);
}

function fallback(reason: string): KitMapChoice {
  return {
    map: FIRST_MAP,
    trouble: `The kit map kept on this computer cannot be used: ${reason}. ${FIRST_MAP.name} is used instead; choose or learn a map to replace it.`,
  };
}

/**
 * Reads the kept choice; anything broken falls back to the first shipped map, with the reason.
 *
 * @param input the MIDI input whose choice it is. Of one that has none, and without an input, the one made without a kit.
 */
export function readKitMapChoice(place: KeepingPlace, input?: string): KitMapChoice {
  let text: string | null;
  try {
    text = (input === undefined ? null : place.getItem(keptFor(KEPT_AS, input))) ?? place.getItem(KEPT_AS);
  } catch (error) {
    return fallback(`this browser does not let the program keep anything (${String(error)})`);
  }
  if (text === null) return { map: FIRST_MAP };
  try {
    const kept = keptSchema.safeParse(JSON.parse(text));
    if (!kept.success) return fallback(z.prettifyError(kept.error).replace(/\s+/g, " "));
    const { chosen, learnt } = kept.data;
    const map = mapById(chosen, learnt);
    if (!map) return fallback(`there is no map called ${chosen}`);
    return learnt ? { map, learnt } : { map };
  } catch (error) {
    if (error instanceof SyntaxError) return fallback("its text is damaged");
    throw error;
  }
}

function reduce(state: KitMapChoice, event: ChoiceEvent): KitMapChoice {
  switch (event.kind) {
    case "chosen": {
      const map = mapById(event.id, state.learnt);
      if (!map) throw new KitMapError(`There is no kit map called ${event.id}. Choose one of the list.`);
      return state.learnt ? { map, learnt: state.learnt } : { map };
    }
    case "learnt":
      return { map: event.map, learnt: event.map };
    case "not-kept":
      return { ...state, trouble: event.reason };
    case "read":
      return event.choice;
  }
}

/** The choice as a store that keeps itself: every change is written to `place`, for the MIDI input in use. */
export class KitMapStore extends Store<KitMapChoice, ChoiceEvent> {
  readonly #place: KeepingPlace;
  #input: string | undefined;

  constructor(place: KeepingPlace) {
    super(readKitMapChoice(place), reduce);
    this.#place = place;
  }

  /** The choice of a MIDI input from now on; the one without a kit where it has no name. */
  useInput(input: string | undefined): void {
    if (input === this.#input) return;
    this.#input = input;
    this.dispatch({ kind: "read", choice: readKitMapChoice(this.#place, input) });
  }

  choose(id: string): void {
    this.dispatch({ kind: "chosen", id });
    this.#keep();
  }

  learn(map: KitMap): void {
    this.dispatch({ kind: "learnt", map });
    this.#keep();
  }

  #keep(): void {
    const { map, learnt } = this.get();
    const kept: z.infer<typeof keptSchema> = { version: 1, chosen: map.id, ...(learnt ? { learnt } : {}) };
    try {
      this.#place.setItem(keptFor(KEPT_AS, this.#input), JSON.stringify(kept));
    } catch (error) {
      this.dispatch({
        kind: "not-kept",
        reason: `The map is in use now, but this browser could not keep it for next time (${String(error)}).`,
      });
    }
  }
}
