/** The page of Say & Strike for the wall: the phrase is on it once it is answered, and not before. */
import {
  isCalled,
  type Play,
  type PlayerId,
  type SayAndStrike,
  voicesWords,
} from "../../../engine/rounds/index.ts";
import { comparisonWords } from "../../../engine/trading/index.ts";
import type { RoundOnWall } from "../round/framedRound.ts";
import type { Doing } from "./doing.ts";

const NAME = "Say & Strike";

export function sayAndStrikeOnWall(
  { stage, own }: Play<SayAndStrike>,
  { calling, proposal }: Doing,
  {
    isListening,
    nicknameOf,
  }: { readonly isListening: boolean; readonly nicknameOf: (player: PlayerId) => string | undefined },
): RoundOnWall {
  const plain = (title: string, says: readonly string[] = []): RoundOnWall => ({
    title,
    sub: NAME,
    says: [...says],
  });
  if (stage === "ready") return plain("Listen first. Then strike.");
  if (stage === "paused") return plain("Paused.");
  if (stage === "over") return plain("The round is over.");
  const { call, roles } = own;
  if (proposal) return plain("One moment.");
  if (isListening) return plain("Say it.");
  if (calling !== null) return plain("Listen.", ["A phrase is struck."]);
  if (!call) return plain("Listen.");
  if (isCalled(call))
    return plain(roles === "student-strikes" ? "Strike what was said." : "Say what was struck.");
  return plain(
    call.text ?? voicesWords(call.strokes),
    call.answers.map(({ by, comparison }) => {
      const name = call.answers.length > 1 && by !== null ? nicknameOf(by) : undefined;
      return `${name === undefined ? "" : `${name}: `}${comparisonWords(comparison)}`;
    }),
  );
}
