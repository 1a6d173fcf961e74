/** The lesson's takes, judged again as they are looked at. */
import { useEffect, useState } from "react";
import type { Level } from "../../../engine/score/index.ts";
import type { TakeState } from "../../../engine/session/index.ts";
import { Judge } from "../../judging/judge.ts";
import type { Moments } from "./moments.ts";
import type { OpenLesson } from "./replayDesk.ts";
import { type TakeAgain, TakesAgain } from "./takeAgain.ts";

/** Where nobody in particular played, the band is that of a steady player: as in the round itself. */
const ANYBODY: Level = "steady";

/** One for all lessons that are opened: its worker starts with the first take. The round has a judge of its own. */
const JUDGE = new Judge();

/** What judges them. */
export function useTakesAgain({ students }: OpenLesson): TakesAgain {
  const [takes] = useState(() => {
    const levelOf = (id: string | null) => students.find((student) => student.id === id)?.level ?? ANYBODY;
    return new TakesAgain(JUDGE, levelOf);
  });
  return takes;
}

export interface Judged {
  readonly again: TakeAgain | undefined;
  /** Why it could not be judged again. */
  readonly trouble: string | null;
}

export const NOT_YET: Judged = { again: undefined, trouble: null };

/** Takes as they are judged again, by their ids; those that are still listened to are not among them. */
export function useTakesJudged(
  takes: TakesAgain,
  wanted: readonly TakeState[],
  moments: Moments,
): ReadonlyMap<string, Judged> {
  const [known, setKnown] = useState<ReadonlyMap<string, Judged>>(new Map());
  useEffect(() => {
    let isWanted = true;
    for (const take of wanted) {
      // Of one that goes on more is to come.
      if (take.to === null) continue;
      const keep = (judged: Judged): void => {
        if (isWanted) setKnown((all) => new Map([...all, [take.takeId, judged]]));
      };
      takes.of(take, moments).then(
        (again) => keep({ again, trouble: null }),
        (error: unknown) =>
          keep({
            again: undefined,
            trouble: `This take could not be thought over: ${error instanceof Error ? error.message : String(error)} Its strikes are shown all the same.`,
          }),
      );
    }
    return () => {
      isWanted = false;
    };
  }, [takes, wanted, moments]);
  return known;
}
