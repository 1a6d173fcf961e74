import { type ChartStage, isOfLooks, wallChartRules } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import type { TallyPart } from "../../out/print/sheet.ts";
import { useWatched } from "../../session/store.ts";
import { RoundFrame } from "../round/RoundFrame.tsx";
import { usePlayerName } from "../round/usePlayerName.ts";
import { Answered } from "./Answered.tsx";
import { Asked } from "./Asked.tsx";
import { BeforeRound } from "./BeforeRound.tsx";
import { allLooks, LOOK_COLUMNS, lookRows, partWords, TASK_NAMES } from "./chartWords.ts";
import { Looking } from "./Looking.tsx";
import { Naming } from "./Naming.tsx";
import { LookByLook, Told } from "./Told.tsx";

const CARD = [
  "Look at the chart of rudiments for as long as the teacher gives you. Then it is hidden.",
  "Name as many as you can. A shorter look, and name them again: what it gained is shown.",
  "Later in order, and their hands: said, or played on two pads.",
] as const;

/** What next does where the round is. */
const NEXT_NAMES = {
  before: "Begin",
  looking: "Hide it",
  naming: "That is all",
  told: "Next look",
  asked: "Another",
  answered: "Next",
} as const;

const AGAIN_NAMES: Readonly<Partial<Record<ChartStage["at"], string>>> = {
  asked: "From its beginning",
  answered: "The same again",
};

function nextName(stage: ChartStage, isPlayed: boolean, isOfNextPlayer: boolean): string {
  if (stage.at === "told" && isOfNextPlayer) return "The next player";
  if (stage.at === "naming" && stage.others.length > 0) return "That is all of these";
  if (stage.at === "asked" && isPlayed) return "That was it";
  return NEXT_NAMES[stage.at];
}

/** Wall Chart: the forty rudiments looked at, hidden, and named. */
export function WallChart() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { own, players, answering } = useWatched(round);
  const { at } = own.stage;
  const nameOf = usePlayerName();
  const isPlayed = own.settings.task === "played";
  return (
    <RoundFrame
      round={round}
      title="Wall Chart"
      sub={
        own.roles === "teacher-names"
          ? "Turned round: the student examines, the teacher names."
          : at === "before"
            ? undefined
            : isOfLooks(own.settings.task)
              ? `${partWords(own.settings)}.`
              : `${TASK_NAMES[own.settings.task]}.`
      }
      card={CARD}
      names={{
        next: nextName(own.stage, isPlayed, players.length > 1 && answering === "in-turn"),
        again: AGAIN_NAMES[at] ?? "A short look",
      }}
      before={<BeforeRound />}
      shown={wallChartRules.shown(own)}
      tally={<LookByLook />}
      tables={() =>
        allLooks(own).flatMap((looks): readonly TallyPart[] => {
          const [first] = looks;
          if (!first) return [];
          const whose = players.length > 1 || first.ofTeacher ? `${nameOf(first.by)}: ` : "";
          const part = partWords(first.settings);
          const heading = `${whose}Look by look, ${part.charAt(0).toLowerCase()}${part.slice(1)}`;
          return [{ kind: "table", heading, columns: LOOK_COLUMNS, rows: lookRows(looks) }];
        })
      }
    >
      {at === "looking" && <Looking />}
      {at === "naming" && <Naming />}
      {at === "told" && <Told />}
      {at === "asked" && <Asked />}
      {at === "answered" && <Answered />}
    </RoundFrame>
  );
}
