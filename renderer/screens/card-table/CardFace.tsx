import { useMemo } from "react";
import { rudimentGroove } from "../../../engine/catalogue/index.ts";
import { type CardId, faceOf } from "../../../engine/rounds/index.ts";
import { metreName } from "../../../engine/score/index.ts";
import { type CardDrawing, engraveCard } from "../../../engraving/index.ts";
import { EngravedPaths } from "../../notation/index.ts";
import styles from "./CardFace.module.css";
import { JokerPicture } from "./pictures/JokerPicture.tsx";

/** Pixels between two lines of the staff before the picture is fitted to the card. */
const SPACE = 24;

/** What is on a card, as large as the card allows. To who cannot see it, what is seen is said, and not its name. */
export function CardFace({ card }: { readonly card: CardId }) {
  const face = useMemo(() => drawnFace(card), [card]);
  const picture = useMemo(() => face && engraveCard(face.drawn, SPACE), [face]);
  if (card.startsWith("joker:")) return <JokerPicture id={card.slice("joker:".length)} />;
  if (!face || !picture) return null;
  return (
    <svg
      className={styles.face}
      viewBox={`0 0 ${picture.width} ${picture.height}`}
      // A single sign is drawn at one size; a bar may fill the card.
      style={{ width: `${(picture.width / SPACE) * SPACES_TO_REM}rem` }}
      role="img"
      aria-label={`On the card: ${face.seen}`}
    >
      <EngravedPaths paths={picture.paths} />
    </svg>
  );
}

/** A staff space is so high at most. */
const SPACES_TO_REM = 1.75;

function drawnFace(card: CardId): { readonly drawn: CardDrawing; readonly seen: string } | null {
  const face = faceOf(card);
  switch (face?.kind) {
    case "sign":
      return { drawn: face.sign.drawn, seen: face.sign.seen };
    case "rhythm": {
      const { groove, name } = face.rhythm;
      return { drawn: { kind: "groove", groove }, seen: `a bar of ${metreName(groove.metre)}: ${name}` };
    }
    case "sticking": {
      const { rudiment } = face;
      const groove = rudimentGroove(rudiment);
      const hands = groove.notes.map(({ hand, ornament }) =>
        [ornament === "flam" ? "flam" : ornament === "drag" ? "drag" : "", hand === "L" ? "left" : "right"]
          .join(" ")
          .trim(),
      );
      return { drawn: { kind: "groove", groove }, seen: `hands: ${hands.join(", ")}` };
    }
    default:
      return null;
  }
}
