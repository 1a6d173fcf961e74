import type { LessonBook } from "../../session/lessonBook.ts";
import type { CommandWay, FramedRound, RoundCommand } from "./framedRound.ts";

/** Does what a command means in a round now, and writes it into the lesson that is on. Returns whether it meant anything. */
export function doCommand(
  command: RoundCommand,
  by: CommandWay,
  round: Pick<FramedRound, "commands">,
  book: Pick<LessonBook, "log">,
): boolean {
  const act = round.commands()[command];
  if (!act) return false;
  book.log.add({ kind: "command", command, by });
  act();
  return true;
}
