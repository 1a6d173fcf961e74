/** The page of Back Turned for the wall: what was sounded is on it once everybody has answered, and not before. */
import { momentsWords, type Surface, surfaceName } from "../../../engine/ear/index.ts";
import { type BackTurned, isOpen, type Play } from "../../../engine/rounds/index.ts";
import type { RoundOnWall } from "../round/framedRound.ts";
import { askedWords, capital } from "./backTurnedWords.ts";
import type { Collecting } from "./collecting.ts";

const NAME = "Back Turned";

interface Beside {
  readonly collecting: Collecting;
  readonly refreshing: Surface | null;
  /** What may be said. */
  readonly names: readonly Surface[];
}

export function backTurnedOnWall(
  { stage, own }: Play<BackTurned>,
  { collecting, refreshing, names }: Beside,
): RoundOnWall {
  const plain = (title: string, says: readonly string[] = []): RoundOnWall => ({
    title,
    sub: NAME,
    says: [...says],
  });
  if (stage === "ready") return plain("Turn your back to the kit.");
  if (stage === "paused") return plain("Paused.");
  if (stage === "over") return plain("The round is over.");
  const { question, roles } = own;
  if (collecting.what === "question")
    return plain(roles === "teacher-names" ? "Sound something." : "Listen.");
  if (!question) return plain(refreshing === null ? "Listen." : capital(surfaceName(refreshing)));
  if (isOpen(question))
    return {
      ...plain(askedWords(question)),
      sheet: {
        round: "back-turned",
        names: names.map(surfaceName),
        given: collecting.what === "answer" ? collecting.moments.map((moment) => momentsWords([moment])) : [],
      },
    };
  const missed = question.answers.filter(({ right }) => !right);
  return plain(
    capital(momentsWords(question.moments)),
    missed.length === 0 ? ["Heard."] : missed.map(({ moments }) => `Taken for ${momentsWords(moments)}.`),
  );
}
