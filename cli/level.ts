import { LEVELS, type Level } from "../engine/score/index.ts";
import { UsageError } from "./usageError.ts";

/** A level option. @throws UsageError when there is no such level. */
export function readLevel(text: string): Level {
  const level = LEVELS.find((known) => known === text);
  if (!level) throw new UsageError(`--level ${text}: say one of ${LEVELS.join(", ")}.`);
  return level;
}
