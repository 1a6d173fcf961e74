import { useEffect, useState } from "react";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { OpenLesson } from "./replayDesk.ts";
import { lessonHref } from "./replayPlace.ts";
import { ReplayPlayer } from "./replayPlayer.ts";
import type { Strikes } from "./strikes.ts";
import type { Written } from "./useAddress.ts";

/**
 * One player for an open lesson; it falls silent when the page is left. A new address puts the cursor elsewhere. One that the
 * page itself wrote does not: it may be read late, when the cursor has gone on.
 */
export function usePlayer(
  { lessonId, moments, on }: OpenLesson,
  { strikes, of }: { readonly strikes: Strikes; readonly of: string },
  { seconds, written }: { readonly seconds: number | null; readonly written: Written },
  sound: SoundDesk,
): ReplayPlayer {
  const length = moments.seconds;
  const goesOn = on !== null;
  const [player] = useState(
    () =>
      new ReplayPlayer(sound, strikes, {
        seconds: length,
        // One who looks at a lesson that is on wants to see what is played now.
        cursor: seconds ?? (goesOn ? length : 0),
        goesOn,
      }),
  );
  useEffect(() => player.do({ kind: "grew", seconds: length, goesOn }), [player, length, goesOn]);
  useEffect(() => {
    if (seconds === null || lessonHref(lessonId, seconds) === written.current) return;
    player.do({ kind: "put", at: seconds });
  }, [player, lessonId, seconds, written]);
  useEffect(() => player.listenTo(strikes, of), [player, strikes, of]);
  useEffect(() => () => player.stop(), [player]);
  return player;
}
