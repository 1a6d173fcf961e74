import { useEffect, useState } from "react";
import type { LessonLog } from "../../session/lessonLog.ts";

/** Our choice: minutes are shown, so that every few seconds is enough. */
const LOOK_EVERY_MS = 5000;

/** Our choice: seconds are not shown, but the last minute is. */
const LOOK_SOON_MS = 1000;

/** This moment on the lesson's clock, every second. */
export function useSecondsNow(log: LessonLog): number {
  const [seconds, setSeconds] = useState(() => log.now);
  useEffect(() => {
    const timer = setInterval(() => setSeconds(log.now), LOOK_SOON_MS);
    return () => clearInterval(timer);
  }, [log]);
  return seconds;
}

/** How long the lesson has been on, by its own clock: whatever is done to the calendar. */
export function useLessonSeconds(log: LessonLog): number {
  const [seconds, setSeconds] = useState(() => log.now);
  useEffect(() => {
    const look = (): void => setSeconds(log.now);
    look();
    const timer = setInterval(look, LOOK_EVERY_MS);
    const stop = log.subscribe(() => {
      if (log.events.length === 1) look();
    });
    return () => {
      clearInterval(timer);
      stop();
    };
  }, [log]);
  return Math.max(0, seconds);
}
