/** A card: a sign, a rhythm or a sticking by its item of memory, or a joker, a picture that has no business there. */
import { z } from "zod";
import {
  type Naming,
  type Rhythm,
  type Rudiment,
  rhythmById,
  rhythmName,
  rudimentById,
  type Sign,
  signById,
  signName,
} from "../../catalogue/index.ts";

/** `joker:teapot` names a picture; the other two are items as `engine/memory` knows them. */
export const cardIdSchema = z.templateLiteral([
  z.enum(["symbol", "sticking", "joker"]),
  ":",
  z.string().min(1).max(120),
]);
export type CardId = z.infer<typeof cardIdSchema>;

/** What is on a card. */
export type CardFace =
  | { readonly kind: "sign"; readonly sign: Sign }
  /** To be struck. */
  | { readonly kind: "rhythm"; readonly rhythm: Rhythm }
  /** The hands of a rudiment, whose name is asked. */
  | { readonly kind: "sticking"; readonly rudiment: Rudiment }
  | { readonly kind: "joker"; readonly picture: string };

/**
 * What is on a card; `undefined` where the stock has it no longer.
 *
 * @example
 * faceOf("symbol:quarter-note")?.kind // => "sign"
 */
export function faceOf(card: CardId): CardFace | undefined {
  const at = card.indexOf(":");
  const subject = card.slice(at + 1);
  switch (card.slice(0, at)) {
    case "joker":
      return { kind: "joker", picture: subject };
    case "sticking": {
      const rudiment = rudimentById(subject);
      return rudiment && { kind: "sticking", rudiment };
    }
    default: {
      const sign = signById(subject);
      if (sign) return { kind: "sign", sign };
      const rhythm = rhythmById(subject);
      return rhythm && { kind: "rhythm", rhythm };
    }
  }
}

/** What is answered to a card, where these names are used; what is written, for a rhythm. */
export function cardName(card: CardId, naming: Naming): string {
  const face = faceOf(card);
  switch (face?.kind) {
    case "sign":
      return signName(face.sign, naming);
    case "rhythm":
      return rhythmName(face.rhythm, naming);
    case "sticking":
      return face.rudiment.name;
    case "joker":
      return face.picture.replaceAll("-", " ");
    case undefined:
      return card;
  }
}

/** Whether it has a name to be said: a rhythm is struck, a joker is laughed at. */
export function isNamed(card: CardId): boolean {
  const kind = faceOf(card)?.kind;
  return kind === "sign" || kind === "sticking";
}
