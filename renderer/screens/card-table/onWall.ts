/** The page of Card Table for the wall: what the card is is on it once everybody has answered, and not before. */
import type { Naming } from "../../../engine/catalogue/index.ts";
import {
  type AnswerToCard,
  type CardId,
  type CardTable,
  cardName,
  faceOf,
  isCardOpen,
  type OpenCard,
  type Play,
} from "../../../engine/rounds/index.ts";
import type { RoundOnWall } from "../round/framedRound.ts";
import { strokesWords } from "../round/strokesWords.ts";
import type { AtHand } from "./atHand.ts";
import { pictureById } from "./pictures/pictures.ts";

const NAME = "Card Table";

export function cardTableOnWall(
  { stage, own }: Play<CardTable>,
  { naming, atHand }: { readonly naming: Naming; readonly atHand: Pick<AtHand, "struck"> },
): RoundOnWall {
  const { open } = own;
  if (stage === "ready") return { title: NAME, sub: "Cards are turned up one by one.", says: [] };
  if (stage === "paused") return { title: NAME, sub: "Paused.", says: [] };
  if (stage === "over") return { title: NAME, sub: "The round is over.", says: [] };
  if (!open) return { title: NAME, sub: "The cards are being laid.", says: [] };
  return {
    title: cardTitle(open, naming),
    sub: NAME,
    says: isCardOpen(open) ? [...struckWords(atHand.struck)] : [...answeredWords(open, naming)],
    sheet: {
      round: "card-table",
      card: open.card,
      names: isCardOpen(open) ? open.choices.map((each) => cardName(each, naming)) : [],
    },
  };
}

/** What is asked while the card is open; what it is once it is answered. */
export function cardTitle(open: Pick<OpenCard, "card" | "of" | "answers">, naming: Naming): string {
  const face = faceOf(open.card);
  if (face?.kind === "joker") return capital(pictureById(face.picture)?.name ?? face.picture);
  if (!isCardOpen(open)) return cardName(open.card, naming);
  switch (face?.kind) {
    case "rhythm":
      return "Strike this bar.";
    case "sticking":
      return "Whose hands are these?";
    default:
      return "What is it?";
  }
}

function struckWords(struck: number): readonly string[] {
  if (struck === 0) return [];
  return [`${strokesWords(struck)}.`];
}

/** How each answer stands, in a sentence. */
export function answeredWords({ answers }: Pick<OpenCard, "answers">, naming: Naming): readonly string[] {
  return answers.map((given) => standingWords(given, naming));
}

function standingWords({ answer, outcome }: AnswerToCard, naming: Naming): string {
  if (outcome === "known") return answer.way === "struck" ? "As written." : "It is.";
  // What differed is worth hearing whether it was met before or not.
  if (outcome === "never-met" && answer.way !== "struck") return "Never met before. Now you have seen it.";
  switch (answer.way) {
    case "struck":
      return answer.words;
    case "choice":
      return takenFor(answer.meant, naming);
    case "word":
      return answer.meant === null ? `You said ${answer.given}.` : takenFor(answer.meant, naming);
    case "said":
      return "Not this time.";
  }
}

function takenFor(card: CardId, naming: Naming): string {
  return `You said: ${cardName(card, naming).toLowerCase()}.`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
