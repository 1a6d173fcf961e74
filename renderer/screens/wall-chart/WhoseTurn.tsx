import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { WhoAnswers } from "../round/WhoAnswers.tsx";

/** Where several play: whose names, or hands, are taken in now. */
export function WhoseTurn() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { players } = useWatched(round);
  const still = round.still();
  const [now = null] = still;
  if (players.length < 2) return null;
  return <WhoAnswers still={still} now={now} onChoose={(by) => round.turnToPlayer(by)} />;
}
