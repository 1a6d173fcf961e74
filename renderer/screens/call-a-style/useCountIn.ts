import { useEffect, useState } from "react";
import { numberWord } from "../../../engine/grading/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import { sessionNow } from "./useHandPlace.ts";

/** The bar that is counted before a take: the moment of the first beat that counts, and the beats before it. */
export interface CountIn {
  readonly until: Seconds;
  readonly beatSeconds: Seconds;
  readonly beats: number;
}

/**
 * What is counted at a moment; `undefined` once the take has begun.
 *
 * @example
 * countWord({ until: 4, beatSeconds: 1, beats: 4 }, 1.5) // => "two"
 */
export function countWord({ until, beatSeconds, beats }: CountIn, now: Seconds): string | undefined {
  const left = Math.ceil((until - now) / beatSeconds);
  if (left <= 0) return undefined;
  return left > beats ? "ready" : numberWord(beats - left + 1);
}

/**
 * The count before the first beat, for the eye; `undefined` when nothing is counted.
 *
 * @param now the session clock; another window's, on the wall.
 */
export function useCountIn(count: CountIn | undefined, now: () => Seconds = sessionNow): string | undefined {
  const [word, setWord] = useState<string>();
  useEffect(() => {
    let frame = 0;
    const look = (): void => {
      const counted = count && countWord(count, now());
      setWord(counted);
      if (counted !== undefined) frame = requestAnimationFrame(look);
    };
    look();
    return () => cancelAnimationFrame(frame);
  }, [count, now]);
  return word;
}
