import { CHART_TASKS, isOfLooks, MOST_LOOK_SECONDS } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Choice, NumberBox, Toggle } from "../../theme/index.ts";
import { TASK_NAMES } from "./chartWords.ts";
import { HandPadsNote } from "./HandPadsNote.tsx";
import styles from "./WallChart.module.css";

const TASKS = CHART_TASKS.map((id) => ({ id, name: TASK_NAMES[id] }));
const PARTS = [
  { id: "1-40", name: "The whole chart" },
  { id: "1-10", name: "1 to 10" },
  { id: "11-20", name: "11 to 20" },
  { id: "21-30", name: "21 to 30" },
  { id: "31-40", name: "31 to 40" },
] as const;

/** What can be chosen before the round begins. */
export function BeforeRound() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { wanted } = round;
  const answering = useWatched(round.answering);
  const { task, from, to, longSeconds, shortSeconds } = useWatched(wanted);
  const part = PARTS.find(({ id }) => id === `${from}-${to}`)?.id ?? null;
  return (
    <div className={styles.before}>
      <Choice label="What" options={TASKS} chosen={task} onChoose={(task) => wanted.dispatch({ task })} />
      <Choice
        label="How much of it"
        options={PARTS}
        chosen={part}
        onChoose={(id) => {
          const [first = 1, last = 40] = id.split("-").map(Number);
          wanted.dispatch({ from: first, to: last });
        }}
      />
      {isOfLooks(task) && (
        <div className={styles.boxes}>
          <NumberBox
            label="First look, seconds"
            value={longSeconds}
            least={5}
            most={MOST_LOOK_SECONDS}
            onChange={(longSeconds) => wanted.dispatch({ longSeconds })}
          />
          <NumberBox
            label="Later looks, seconds"
            value={shortSeconds}
            least={5}
            most={MOST_LOOK_SECONDS}
            onChange={(shortSeconds) => wanted.dispatch({ shortSeconds })}
          />
        </div>
      )}
      {round.players().length > 1 && (
        <Toggle
          isOn={answering === "all-at-once"}
          onChange={(isOn) => round.answering.dispatch(isOn ? "all-at-once" : "in-turn")}
        >
          {isOfLooks(task) ? "Everybody looks at once" : "Everybody answers each rudiment"}
        </Toggle>
      )}
      {task === "played" && <HandPadsNote />}
    </div>
  );
}
