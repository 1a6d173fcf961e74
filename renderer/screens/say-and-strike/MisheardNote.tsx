import { misheardBy, playerInTurn } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note } from "../../app/Page.tsx";
import { useWatched } from "../../session/store.ts";
import { usePlayerName } from "../round/usePlayerName.ts";

/** How often a sound was taken for another: a skill of its own, beside rhythm. */
export function MisheardNote() {
  const { framed } = useLesson();
  const play = useWatched(framed["say-and-strike"]);
  const nameOf = usePlayerName();
  const isOfAll = play.answering === "all-at-once" && play.players.length > 1;
  const lines = (isOfAll ? play.players : [playerInTurn(play)]).flatMap((player) => {
    const { sounds, misheard } = misheardBy(play.own, player);
    if (sounds === 0) return [];
    const words =
      misheard === 0
        ? `All ${sounds} sounds were taken for what they were.`
        : `Of ${sounds} sounds ${misheard} ${misheard === 1 ? "was" : "were"} taken for another.`;
    return [{ player, words: isOfAll ? `${nameOf(player)}: ${words}` : words }];
  });
  if (lines.length === 0) return null;
  return (
    <Note heading="Heard as said">
      {lines.map(({ player, words }) => (
        <p key={player}>{words}</p>
      ))}
    </Note>
  );
}
