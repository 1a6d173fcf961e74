import type { PlayerId } from "../../../engine/rounds/index.ts";
import { Button } from "../../theme/index.ts";
import { usePlayerName } from "./usePlayerName.ts";
import styles from "./WhoAnswers.module.css";

/** Where several answer the same question: whose answer this is. */
export function WhoAnswers({
  still,
  now,
  onChoose,
}: {
  /** Those who have not answered yet. */
  readonly still: readonly (PlayerId | null)[];
  readonly now: PlayerId | null;
  readonly onChoose: (id: PlayerId | null) => void;
}) {
  const nameOf = usePlayerName();
  if (still.length === 1) return <p>{nameOf(now)} answers.</p>;
  return (
    <fieldset className={styles.who}>
      <legend>Who answers</legend>
      {still.map((id) => (
        <Button
          key={id}
          aria-pressed={id === now}
          data-now={id === now || undefined}
          onPress={() => onChoose(id)}
        >
          {nameOf(id)}
        </Button>
      ))}
    </fieldset>
  );
}
