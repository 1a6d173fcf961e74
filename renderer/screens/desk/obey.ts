/** What a command does that was struck with the sticks in hand. */
import type { Sitting } from "../../../engine/rounds/index.ts";
import type { Command } from "../../session/commandStrike.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { StyleRound } from "../call-a-style/styleRound.ts";
import { doCommand } from "../round/doCommand.ts";
import type { CommandActs, FramedRound } from "../round/framedRound.ts";
import { flagThisMoment } from "./flag.ts";

type Round = Pick<StyleRound, "again" | "stop" | "dispatch"> & { readonly get: () => Sitting };

/**
 * Does it where there is something to be done, and writes it into the lesson that is on.
 *
 * @param round the round that is on the page, whichever kit the command was struck on.
 */
export function obey(
  command: Command,
  round: Pick<FramedRound, "commands">,
  book: Pick<LessonBook, "log" | "remark">,
): void {
  if (command === "flag") flagThisMoment(book, "strike");
  else doCommand(command, "strike", round, book);
}

/**
 * What the commands mean in a round of Call a Style. It has no roles that could be turned round.
 *
 * @param next what "next" does where styles were dealt; `undefined` where none were.
 */
export function styleCommands(
  round: Round,
  next: () => (() => void) | undefined = () => undefined,
): Pick<FramedRound, "commands"> {
  return { commands: () => actsOf(round, next()) };
}

function actsOf(round: Round, next: (() => void) | undefined): CommandActs {
  const { at } = round.get();
  const again = (): void => round.again();
  switch (at.stage) {
    case "before":
      return { again, ...(next ? { next } : {}) };
    case "playing":
      return { stop: () => void round.stop() };
    case "after":
    case "failed":
      return { again, next: next ?? (() => round.dispatch({ kind: "another-style" })) };
    case "judging":
      return at.isAgainAsked ? {} : { again };
  }
}
