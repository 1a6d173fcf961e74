import type { PlayerId } from "../../../engine/rounds/index.ts";
import { OneOf } from "../../theme/index.ts";
import { usePlayerName } from "./usePlayerName.ts";

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
    <OneOf
      label="Who answers"
      options={still.map((id) => ({ id, name: nameOf(id) }))}
      chosen={now}
      onChoose={onChoose}
    />
  );
}
