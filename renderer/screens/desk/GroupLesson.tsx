import { MOST_PLAYERS } from "../../../engine/rounds/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Choice } from "../../theme/index.ts";
import { beginGroupLesson } from "./beginLesson.ts";

/** A lesson of a group of the Roster, at one kit: rounds ask its students in turn, or all of them at once. */
export function GroupLesson({ isBlocked }: { readonly isBlocked: boolean }) {
  const program = useProgram();
  const studio = useStudio();
  const { groups, students } = useWatched(studio.roster);
  const here = groups
    .map((group) => ({
      ...group,
      studentIds: group.studentIds.filter((id) => students?.some((each) => each.id === id && !each.archived)),
    }))
    .filter(({ studentIds }) => studentIds.length > 1 && studentIds.length <= MOST_PLAYERS);
  if (here.length === 0 || isBlocked) return null;
  return (
    <Choice
      label="Begin a lesson with a group"
      options={here.map(({ id, name }) => ({ id, name }))}
      chosen={null}
      onChoose={(id) => {
        const group = here.find((each) => each.id === id);
        if (group) void beginGroupLesson(program, studio, group.studentIds);
      }}
    />
  );
}
