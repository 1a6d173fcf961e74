/** The kits of a lesson as they lie under one another in Replay: each with who sat there, its strikes and its own rows. */
import type { Voice } from "../../../engine/kit/index.ts";
import type { Student } from "../../../engine/records/index.ts";
import type { LessonState } from "../../../engine/session/index.ts";
import { type Strikes, strikesOfLane } from "./strikes.ts";

export interface LaneSeen {
  readonly lane: number;
  /** Who sat there: "Ottilie", "nobody in particular". */
  readonly who: string;
  /** "kit 2, Bram" */
  readonly name: string;
  readonly strikes: Strikes;
}

/** @param all strikes of the lesson. Of a lesson on one kit they are that kit's, and its rows. */
export function lanesSeen(
  { began, rounds }: LessonState,
  all: Strikes,
  students: readonly Pick<Student, "id" | "nickname">[],
): readonly LaneSeen[] {
  const lanes = began?.lanes ?? [];
  return lanes.map(({ studentId }, lane) => {
    const who = students.find(({ id }) => id === studentId)?.nickname ?? "nobody in particular";
    const name = `kit ${lane + 1}, ${who}`;
    const strikes = lanes.length === 1 ? all : strikesOfLane(all, lane, writtenVoices({ rounds }, lane));
    return { lane, who, name, strikes };
  });
}

/**
 * The voices that were written for a kit's takes: what was left out altogether has a row to be missed in.
 *
 * @param lane all kits where it is not said.
 */
export function writtenVoices({ rounds }: Pick<LessonState, "rounds">, lane?: number): readonly Voice[] {
  return rounds
    .flatMap(({ takes }) => takes)
    .filter((take) => lane === undefined || take.lane === lane)
    .flatMap(({ judgement }) => judgement?.summary.voices ?? [])
    .flatMap(({ voice, written }) => (written > 0 ? [voice] : []));
}
