import { useMemo } from "react";
import { signNames } from "../../../engine/memory/index.ts";
import { cardTableRules, faceOf, isCardOpen, type OpenCard } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { RoundFrame } from "../round/RoundFrame.tsx";
import { BeforeCards } from "./BeforeCards.tsx";
import { OnTheTable } from "./OnTheTable.tsx";
import { SlipIn } from "./SlipIn.tsx";

const CARD = [
  "A card is turned up: a sign, a bar, the hands of a rudiment, now and then a picture.",
  "Say its name, type it, or choose it; a bar is struck, on any surface.",
  "What slipped comes again next time; what was never met is a new topic.",
] as const;

/** Card Table: cards are turned up one by one, and named, or struck. */
export function CardTable() {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const { own, stage } = useWatched(round);
  const { isLaying, trouble } = useWatched(round.atHand);
  const { naming } = useWatched(round.settings);
  const names = useMemo(() => signNames(naming), [naming]);
  const left = own.deck.length;
  const isTurned = own.roles === "teacher-answers";
  return (
    <RoundFrame
      round={round}
      title="Card Table"
      sub={
        stage === "running"
          ? `${isTurned ? "Turned round: the student shows, the teacher answers. " : ""}${leftWords(left)}`
          : undefined
      }
      card={CARD}
      names={{
        next: stage === "running" && left === 0 && !isLaying ? "To the tally" : "Next card",
        again: againName(own.open),
      }}
      before={<BeforeCards />}
      shown={cardTableRules.shown(own)}
      ownNames={names}
      margin={
        <>
          {trouble !== null && <p role="alert">{trouble} The deck is laid without what is remembered.</p>}
          {stage === "running" && <SlipIn />}
        </>
      }
    >
      {!own.open ? (
        <p role="status">{isLaying ? "The cards are being laid." : "No card lies open."}</p>
      ) : (
        <OnTheTable open={own.open} />
      )}
    </RoundFrame>
  );
}

/** A bar is begun again; a card that was answered comes once more, a few cards later. */
function againName(open: OpenCard | null): string {
  if (open === null || open.of.length === 0) return "Again";
  if (!isCardOpen(open)) return "Put it back";
  return faceOf(open.card)?.kind === "rhythm" ? "The bar again" : "Again";
}

function leftWords(left: number): string {
  if (left === 0) return "The last card.";
  return left === 1 ? "One more card lies in the deck." : `${left} more cards lie in the deck.`;
}
