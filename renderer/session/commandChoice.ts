/** How each command is struck on a kit, and how that is kept on this computer: for each MIDI input its own. */
import { z } from "zod";
import type { KitMap } from "../../engine/kit/index.ts";
import {
  COMMANDS,
  type Command,
  type CommandStrike,
  type CommandStrikes,
  commandStrikeSchema,
  firstCommandStrikes,
  isSameStrike,
} from "./commandStrike.ts";
import { type KeepingPlace, keptFor } from "./keepingPlace.ts";
import { Store } from "./store.ts";

const KEPT_AS = "throneside.commands";
const keptSchema = z.strictObject({
  version: z.literal(1),
  strikes: z.partialRecord(z.enum(COMMANDS), commandStrikeSchema),
});

export interface CommandsOfKit {
  /** What was chosen; `null` where nothing was, and the map decides. */
  readonly chosen: CommandStrikes | null;
  /** Why they could not be read or kept, said to the user. */
  readonly trouble?: string;
}

function readCommands(place: KeepingPlace, input: string | undefined): CommandsOfKit {
  const broken = (reason: string): CommandsOfKit => ({
    chosen: null,
    trouble: `The commands kept on this computer cannot be used: ${reason}. Set them again to replace them.`,
  });
  try {
    const text = place.getItem(keptFor(KEPT_AS, input));
    if (text === null) return { chosen: null };
    const kept = keptSchema.safeParse(JSON.parse(text));
    return kept.success
      ? { chosen: kept.data.strikes }
      : broken(z.prettifyError(kept.error).replace(/\s+/g, " "));
  } catch (error) {
    return broken(error instanceof SyntaxError ? "its text is damaged" : String(error));
  }
}

export class CommandChoice extends Store<CommandsOfKit, CommandsOfKit> {
  readonly #place: KeepingPlace;
  readonly #map: () => KitMap;
  #input: string | undefined;

  /** @param map of the kit, which says where its rims are. */
  constructor(place: KeepingPlace, map: () => KitMap) {
    super(readCommands(place, undefined), (_, next) => next);
    this.#place = place;
    this.#map = map;
  }

  /** Those of a MIDI input from now on; of none where it has no name. */
  useInput(input: string | undefined): void {
    if (input === this.#input) return;
    this.#input = input;
    this.dispatch(readCommands(this.#place, input));
  }

  /** How each is struck now. */
  strikes(): CommandStrikes {
    return this.get().chosen ?? firstCommandStrikes(this.#map());
  }

  /** From now on this strike means this command, and no other. */
  set(command: Command, strike: CommandStrike): void {
    const others = Object.fromEntries(
      Object.entries(this.strikes()).filter(([, other]) => !isSameStrike(other, strike)),
    );
    this.#keep({ ...others, [command]: strike });
  }

  /** No strike means this command any more. */
  clear(command: Command): void {
    const { [command]: _, ...others } = this.strikes();
    this.#keep(others);
  }

  #keep(strikes: CommandStrikes): void {
    this.dispatch({ chosen: strikes });
    const kept: z.infer<typeof keptSchema> = { version: 1, strikes };
    try {
      this.#place.setItem(keptFor(KEPT_AS, this.#input), JSON.stringify(kept));
    } catch (error) {
      this.dispatch({
        chosen: strikes,
        trouble: `The command holds now, but this browser could not keep it for next time (${String(error)}).`,
      });
    }
  }
}
