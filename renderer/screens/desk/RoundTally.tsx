import { type OwnNames, ROUND_NAMES } from "../../../engine/memory/index.ts";
import type { Outcome, RoundState } from "../../../engine/session/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import styles from "./Desk.module.css";
import { minutesWords } from "./deskWords.ts";
import { isEmptyTally, tallyOf } from "./tally.ts";

const HEADINGS = [
  ["known", "Held"],
  ["slipped", "Slipped"],
  ["new", "New"],
] as const satisfies readonly (readonly [Outcome, string])[];

/** What a round that has ended showed. */
export function RoundTally({
  round,
  ownNames,
  isOfTwo,
}: {
  readonly round: RoundState;
  readonly ownNames?: OwnNames;
  /** With two students it says whose it was. */
  readonly isOfTwo: boolean;
}) {
  const { roster } = useStudio();
  const tally = tallyOf(round, ownNames);
  const takes = round.takes.length === 1 ? "1 take" : `${round.takes.length} takes`;
  const isOfSteps = round.steps.length > 0;
  return (
    <div className={styles.tally}>
      <h3>
        {ROUND_NAMES[round.round]}, {minutesWords((round.to ?? round.from) - round.from)}
        {!isOfSteps && `, ${takes}`}
      </h3>
      {isEmptyTally(tally) ? (
        <p className={styles.soft}>Nothing was {isOfSteps ? "asked" : "called"} that could hold or slip.</p>
      ) : (
        <dl>
          {HEADINGS.filter(([outcome]) => tally[outcome].length > 0).map(([outcome, heading]) => (
            <div key={outcome}>
              <dt>{heading}</dt>
              {tally[outcome].map(({ name, studentId, words }) => (
                <dd key={`${studentId} ${name}`}>
                  <b>{name}</b>
                  {isOfTwo && `, ${roster.student(studentId)?.nickname ?? "a student"}`}
                  {words !== "" && `: ${words}`}
                </dd>
              ))}
            </div>
          ))}
        </dl>
      )}
    </div>
  );
}
