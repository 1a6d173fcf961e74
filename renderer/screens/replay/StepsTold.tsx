/** Rounds that are kept step by step, told in sentences; each leads to its moment. What is still to come at the cursor is soft. */

import { useMemo, useSyncExternalStore } from "react";
import { stepByStep } from "../../../engine/rounds/index.ts";
import type { RoundState } from "../../../engine/session/index.ts";
import { namingHere } from "../../session/cardSettings.ts";
import styles from "./replay.module.css";
import type { OpenLesson } from "./replayDesk.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { momentSpoken, momentWords, roundName } from "./replayWords.ts";

export function StepsTold({
  lesson,
  player,
}: {
  readonly lesson: OpenLesson;
  readonly player: ReplayPlayer;
}) {
  const { rounds } = lesson.moments.whole;
  return rounds
    .filter(({ steps }) => steps.length > 0)
    .map((round) =>
      // What was sounded is not told to one who may still have to name it.
      round.to === null && lesson.on !== null ? (
        <section key={round.roundId}>
          <h2>{roundName(round.round)}, step by step</h2>
          <p>It goes on. Its steps are told when it is over.</p>
        </section>
      ) : (
        <StepsOfRound key={round.roundId} round={round} player={player} />
      ),
    );
}

function StepsOfRound({ round, player }: { readonly round: RoundState; readonly player: ReplayPlayer }) {
  const lines = useMemo(() => linesOf(round), [round]);
  /** How many of them had happened at the cursor. */
  const reached = useSyncExternalStore(
    player.subscribe,
    () => lines.filter(({ time }) => time <= player.get().cursor).length,
  );
  return (
    <section className={styles.told}>
      <h2>{roundName(round.round)}, step by step</h2>
      <ol className={styles.steps}>
        {lines.map(({ time, words, place }, index) => (
          <li key={place} data-to-come={index >= reached || undefined}>
            <button
              type="button"
              className={styles.moment}
              aria-label={momentSpoken(time)}
              onClick={() => player.do({ kind: "put", at: time })}
            >
              {momentWords(time, 1)}
            </button>{" "}
            {words}
          </li>
        ))}
      </ol>
    </section>
  );
}

interface Line {
  readonly time: number;
  readonly words: string;
  /** Among the steps of the round. */
  readonly place: number;
}

function linesOf({ steps }: RoundState): readonly Line[] {
  const [first] = steps;
  if (!first) return [];
  return stepByStep(
    first.step.round,
    steps.map(({ step }) => step),
    namingHere(),
  ).flatMap(({ words }, place) => (words === null ? [] : [{ time: steps[place]?.time ?? 0, words, place }]));
}
