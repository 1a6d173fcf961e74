/** The screen stays on while a lesson is on: hands on the kit are no hands on the mouse. */
import type { LessonOn } from "./sameLesson.ts";

/**
 * Asks `keepAwake` whenever a lesson begins or ends. Returns the way to stop, which lets the screen go dark again.
 *
 * @param tell hears what went wrong: a screen that goes dark must not stop a lesson.
 */
export function stayAwake(
  log: LessonOn["log"],
  keepAwake: (on: boolean) => Promise<unknown>,
  tell: (error: unknown) => void,
): () => void {
  let isAwake = false;
  const become = (on: boolean): void => {
    if (on === isAwake) return;
    isAwake = on;
    keepAwake(on).catch(tell);
  };
  const stop = log.subscribe(() => become(log.isOn));
  become(log.isOn);
  return () => {
    stop();
    become(false);
  };
}
