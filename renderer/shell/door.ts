/**
 * The door to the desktop shell as the page sees it: it is there only in the shell. What comes through it is checked,
 * as is what comes from any other window.
 */
import { z } from "zod";
import {
  type DoorAnswered,
  type DoorAsked,
  type DoorCommand,
  type DoorName,
  doorCommandSchema,
  doorSchemas,
} from "../../engine/records/index.ts";

/** The name under which the shell puts the door on `window`. */
const DOOR_NAME = "throneside";

export interface ShellDoor {
  /** Asks one of the shell's functions. Rejects with a sentence if it does not answer, or not as it should. */
  readonly ask: <Name extends DoorName>(name: Name, asked: DoorAsked<Name>) => Promise<DoorAnswered<Name>>;
  /** Hears what the shell's menu says, until the function that comes back is called. */
  readonly onCommand: (hear: (command: DoorCommand) => void) => () => void;
}

/** The door on `page` (a window); undefined in a browser. */
export function shellDoorOf(page: object): ShellDoor | undefined {
  if (!(DOOR_NAME in page)) return undefined;
  const functions = functionsSchema.parse(page[DOOR_NAME]);
  return {
    ask: (name, asked) => checked(name, functions[name], asked),
    onCommand: (hear) => onCommand(functions.onCommand, hear),
  };
}

const functionsSchema = z.record(
  z.string(),
  z.custom<(...given: unknown[]) => unknown>((value) => typeof value === "function"),
);

type Function = z.infer<typeof functionsSchema>[string] | undefined;

/** The schemas of the answers, each under its name's own type. */
const answers: {
  readonly [Name in DoorName]: { readonly answered: z.ZodType<DoorAnswered<Name>> };
} = doorSchemas;

async function checked<Name extends DoorName>(
  name: Name,
  ask: Function,
  asked: DoorAsked<Name>,
): Promise<DoorAnswered<Name>> {
  if (ask === undefined)
    throw new Error(`This desktop shell has no "${name}". Start the newest version of the program.`);
  const answer = answers[name].answered.safeParse(await ask(asked));
  if (answer.success) return answer.data;
  throw new Error(
    `The desktop shell answered "${name}" in a way that is not understood: ${z.prettifyError(answer.error)}`,
  );
}

/** A command that is not known belongs to a newer shell: there is nothing to do for it here. */
function onCommand(subscribe: Function, hear: (command: DoorCommand) => void): () => void {
  if (subscribe === undefined) return () => undefined;
  const stop = subscribe((said: unknown) => {
    const command = doorCommandSchema.safeParse(said);
    if (command.success) hear(command.data);
  });
  return typeof stop === "function" ? () => void stop() : () => undefined;
}
