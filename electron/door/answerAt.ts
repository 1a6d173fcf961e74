/** The main process's side of the door: who may ask, what may be asked, and that an answer is what was promised. */
import type { IpcMain } from "electron";
import { z } from "zod";
import {
  DOOR_NAMES,
  type DoorAnswered,
  type DoorAsked,
  type DoorName,
  doorSchemas,
} from "../../engine/records/index.ts";
import { isOwn } from "../origin.ts";
import { channelOf } from "./channels.ts";

export type Answers = {
  readonly [Name in DoorName]: (asked: DoorAsked<Name>) => Promise<DoorAnswered<Name>>;
};

/** The frame a question came from, as far as it is looked at; null once it is gone. */
export type Asking = { readonly url: string; readonly parent: object | null } | null;

/** True for the window's own page; false for a frame inside it, for any other page, and for one that is gone. */
export function mayAsk(frame: Asking): boolean {
  return frame !== null && frame.parent === null && isOwn(frame.url);
}

/** Answers at `ipc`, which is that of one window's contents: no other window is heard. */
export function answerAt(ipc: Pick<IpcMain, "handle">, answers: Answers): void {
  for (const name of DOOR_NAMES) {
    ipc.handle(channelOf(name), (event, asked: unknown) => {
      if (!mayAsk(event.senderFrame))
        throw new Error(`${name} was asked by a page that is not the program’s.`);
      return answered(name, answers, asked);
    });
  }
}

/** The schemas, each under its name's own types. */
const schemas: {
  readonly [Name in DoorName]: {
    readonly asked: z.ZodType<DoorAsked<Name>>;
    readonly answered: z.ZodType<DoorAnswered<Name>>;
  };
} = doorSchemas;

async function answered<Name extends DoorName>(
  name: Name,
  answers: Answers,
  asked: unknown,
): Promise<DoorAnswered<Name>> {
  const question = schemas[name].asked.safeParse(asked);
  if (!question.success) {
    throw new Error(`${name} was asked in a way that is not understood: ${z.prettifyError(question.error)}`);
  }
  return schemas[name].answered.parse(await answers[name](question.data));
}
