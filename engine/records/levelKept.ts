/** Version 2 of takes, and 3 of the events that judge them: the student's level then is kept. Of earlier ones it is not known. */
import { z } from "zod";
import type { Step } from "./step.ts";

export const levelOfTake: Step = (row) => ({ ...row, version: 2, level: null });

const judged = z.looseObject({
  event: z.looseObject({ kind: z.literal("judgement"), summary: z.looseObject({}) }),
});

export const levelOfJudgement: Step = (row) => {
  const { data } = judged.safeParse(row);
  if (!data) return { ...row, version: 3 };
  const { event } = data;
  return { ...row, version: 3, event: { ...event, summary: { ...event.summary, level: null } } };
};
