import type { GapDrift, Report } from "../../grading/index.ts";
import type { Hit } from "../../kit/index.ts";
import type { Click, Hearing } from "../../listening/index.ts";
import type { Groove, Level, PlayedClick } from "../../score/index.ts";

/** The click a take was played to, from the first beat that counts: all of how it went, where that is known. */
export type TakeClick = Click | PlayedClick;

/** A take as it is handed over to be judged. */
export interface TakeToJudge {
  readonly hits: readonly Hit[];
  /** The style that was called; `null` for a free choice. */
  readonly styleId: string | null;
  readonly click: TakeClick | null;
  /** Of the student who played: it sets the band. Steady unless said. */
  readonly level?: Level;
}

/** What came of it. */
export interface Judgement {
  readonly hearing: Hearing;
  /** What the take was compared with, and how it compared; `null` when there was nothing to compare with. */
  readonly compared: {
    readonly groove: Groove;
    readonly report: Report;
    /** What happened while the click was silent, one for each silence it came back from. */
    readonly gapDrifts: readonly GapDrift[];
  } | null;
  readonly hitCount: number;
  /** The click the take was played to, from the bar the player came in on (`cameIn.ts`); `null` without one. */
  readonly click: TakeClick | null;
}
