import { type OwnNames, ROUND_NAMES } from "../../../engine/memory/index.ts";
import type { RoundState } from "../../../engine/session/index.ts";
import { BUILT_ROUNDS, hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useIsTaking } from "../../app/useIsTaking.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import styles from "./Desk.module.css";
import { lessonClock } from "./deskWords.ts";
import { RoundTally } from "./RoundTally.tsx";

/** More than these are for Replay. Our choice: what can be taken in at a glance. */
const MOST_TAKES = 8;

/** The rounds of the lesson that is on, the latest first: the one that goes on with its takes, the others with their tally. */
export function RoundsSoFar({ ownNames }: { readonly ownNames?: OwnNames }) {
  const { book } = useStudio();
  const { rounds, began } = useWatched(book.log);
  if (rounds.length === 0) return null;
  const isOfTwo = (began?.studentIds.length ?? 0) > 1;
  return (
    <section className={styles.part}>
      <h2>Rounds so far</h2>
      {rounds
        .toReversed()
        .map((round) =>
          round.to === null && round.steps.length > 0 ? (
            <OpenSteps key={round.roundId} round={round} />
          ) : round.to === null ? (
            <OpenRound key={round.roundId} round={round} />
          ) : (
            <RoundTally
              key={round.roundId}
              round={round}
              isOfTwo={isOfTwo}
              {...(ownNames ? { ownNames } : {})}
            />
          ),
        )}
    </section>
  );
}

/** A round that is kept step by step has no takes: its page tells how it stands. */
function OpenSteps({ round }: { readonly round: RoundState }) {
  const { book } = useStudio();
  const page = BUILT_ROUNDS.find(({ id }) => id === round.round);
  return (
    <div className={styles.tally}>
      <h3>
        {ROUND_NAMES[round.round]}, since {lessonClock(round.from)}
      </h3>
      <div className={styles.acts}>
        {page && (
          <a className={styles.way} href={hrefOf(page.id)}>
            Back to {page.name}
          </a>
        )}
        <Button onPress={() => book.endRound(round.lane)}>End the round</Button>
      </div>
    </div>
  );
}

function OpenRound({ round }: { readonly round: RoundState }) {
  const { book, roster } = useStudio();
  const isTaking = useIsTaking();
  const takes = round.takes.toReversed();
  return (
    <div className={styles.tally}>
      <h3>
        {ROUND_NAMES[round.round]}, since {lessonClock(round.from)}
      </h3>
      <table>
        <thead>
          <tr>
            <th scope="col">what</th>
            <th scope="col">who</th>
            <th scope="col">to work on</th>
          </tr>
        </thead>
        <tbody>
          {takes.slice(0, MOST_TAKES).map(({ takeId, judgement, called, studentId }) => (
            <tr key={takeId}>
              <th scope="row">{judgement?.summary.groove?.name ?? called?.name ?? "Free choice"}</th>
              <td>{studentId === null ? "the teacher" : roster.student(studentId)?.nickname}</td>
              <td>
                {judgement?.summary.workOn?.words ?? (judgement ? "nothing to compare" : "not judged yet")}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {takes.length > MOST_TAKES && <p className={styles.soft}>And {takes.length - MOST_TAKES} before.</p>}
      <Button isDisabled={isTaking} onPress={() => void book.endRound(round.lane)}>
        End the round
      </Button>
    </div>
  );
}
