import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import { beginningWords } from "./beginningWords.ts";
import styles from "./SayAndStrike.module.css";

/** Before the first phrase: how hard it will be for each, and why. */
export function WhereItBegins() {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { stage, players: playing } = useWatched(round);
  const { trouble } = useWatched(round.phrases);
  const nameOf = usePlayerName();
  const players = stage === "ready" ? round.players() : playing;
  const words = (player: string | null): string =>
    beginningWords(player === null ? null : nameOf(player), round.levelOf(player), round.leftOff(player));
  return (
    <section aria-labelledby="where-it-begins" className={styles.part}>
      <h2 id="where-it-begins">How hard the program’s phrases are</h2>
      {players.length === 0 && <p>{words(null)}</p>}
      {players.map((player) => (
        <p key={player}>{words(player)}</p>
      ))}
      {trouble !== null && <p role="alert">{trouble}</p>}
    </section>
  );
}
