/** The page of Spotting for the wall: what was played is on it once everybody has answered, and not before. */
import {
  isNameDue,
  type Play,
  type Spottable,
  type Spotting,
  type SpottingKey,
} from "../../../engine/rounds/index.ts";
import type { RoundOnWall } from "../round/framedRound.ts";
import type { HearingNow } from "./hearing.ts";
import { answerWords, askedWords } from "./spottingWords.ts";

const NAME = "Spotting";

interface Beside {
  readonly hearing: HearingNow;
  /** Whether the program is sounding it now. */
  readonly isSounding: boolean;
  readonly spottable: (key: SpottingKey) => Spottable | undefined;
}

export function spottingOnWall(
  { stage, own }: Play<Spotting>,
  { hearing, isSounding, spottable }: Beside,
): RoundOnWall {
  const plain = (title: string, says: readonly string[] = []): RoundOnWall => ({
    title,
    sub: NAME,
    says: [...says],
  });
  if (stage === "ready") return plain("Listen, and name it.");
  if (stage === "paused") return plain("Paused.");
  if (stage === "over") return plain("The round is over.");
  const { question, roles, about } = own;
  if (!question) return plain(roles === "teacher-names" ? "Play something." : "Listen.");
  if (isNameDue(question)) {
    if (roles === "teacher-names") return plain("Play it. The teacher names it.");
    const isPlayed = isSounding || hearing.what === "question";
    return plain(isPlayed ? "Listen." : askedWords(question, about), [
      isPlayed ? askedWords(question, about) : "Say its name, or play it back.",
    ]);
  }
  const { thing } = question.key;
  const said = spottable(question.key)?.said ?? null;
  return plain(thing?.name ?? "Nobody knows this one yet.", [
    ...(said === null ? [] : [`Said: ${said}`]),
    ...question.answers.map(({ answer }) => answerWords(question, answer)),
  ]);
}
