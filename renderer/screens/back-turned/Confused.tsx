import { confusionTable } from "../../../engine/ear/index.ts";
import { type BackTurned, heardAsBy, type PlayerId } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note } from "../../app/Page.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { ConfusionTable } from "./ConfusionTable.tsx";

/** Those who have answered. */
export function playersOf({ past }: Pick<BackTurned, "past">): readonly (PlayerId | null)[] {
  return [...new Set(past.flatMap(({ answers }) => answers.map(({ by }) => by)))];
}

/**
 * What was taken for what, by player: in the margin what was confused in this round; once it is over all that sounded, those of
 * earlier lessons too.
 */
export function Confused({
  round,
  isWhole = false,
}: {
  readonly round: BackTurned;
  readonly isWhole?: boolean;
}) {
  const { roster } = useStudio();
  const { framed } = useLesson();
  const players = playersOf(round);
  const nameOf = (by: PlayerId | null): string =>
    by === null ? "nobody in particular" : (roster.student(by)?.nickname ?? "a student");
  return players.map((by) => {
    const rows = confusionTable(
      isWhole ? framed["back-turned"].listener(by).heard() : heardAsBy(round, by),
    ).filter(({ instead }) => isWhole || instead.length > 0);
    if (rows.length === 0) return null;
    const heading =
      players.length > 1 || isWhole
        ? `Taken for what${isWhole ? ", so far" : ""}: ${nameOf(by)}`
        : "Taken for what";
    const table = <ConfusionTable rows={rows} isWhole={isWhole} />;
    return isWhole ? (
      <section key={by}>
        <h2>{heading}</h2>
        {table}
      </section>
    ) : (
      <Note key={by} heading={heading}>
        {table}
      </Note>
    );
  });
}
