import type { Report } from "../../grading/index.ts";
import type { Hit } from "../../kit/index.ts";
import type { Click, Hearing } from "../../listening/index.ts";
import type { Groove } from "../../score/index.ts";

/** A take as it is handed over to be judged. */
export interface TakeToJudge {
  readonly hits: readonly Hit[];
  /** The style that was called; `null` for a free choice. */
  readonly styleId: string | null;
  /** The click the take was played to, from the first beat that counts. */
  readonly click: Click | null;
}

/** What came of it. */
export interface Judgement {
  readonly hearing: Hearing;
  /** What the take was compared with, and how it compared; `null` when there was nothing to compare with. */
  readonly compared: { readonly groove: Groove; readonly report: Report } | null;
  readonly hitCount: number;
  readonly clicked: boolean;
}
