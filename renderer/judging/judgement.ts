import type { Report } from "../../engine/grading/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import type { Hearing } from "../../engine/listening/index.ts";
import type { Groove } from "../../engine/score/index.ts";
import type { Bpm, Milliseconds, Seconds } from "../../engine/units/index.ts";

/** The click the take was played to. */
export interface TakeClick {
  readonly tempoBpm: Bpm;
  /** Session-clock time of the first beat that counts, after the count-in. */
  readonly from: Seconds;
}

/** A take as it is handed over to be judged. */
export interface TakeToJudge {
  readonly hits: readonly Hit[];
  /** The style that was called; `null` for a free choice. */
  readonly styleId: string | null;
  readonly click: TakeClick | null;
}

/** What came of it. */
export interface Judgement {
  readonly hearing: Hearing;
  /** What the take was compared with, and how it compared; `null` when there was nothing to compare with. */
  readonly compared: { readonly groove: Groove; readonly report: Report } | null;
  readonly hitCount: number;
  readonly clicked: boolean;
  readonly tookMs: Milliseconds;
}

/** Requests to the worker that listens and judges, answered in order. */
export type JudgeRequest =
  | { readonly kind: "begin"; readonly styleId: string | null }
  | { readonly kind: "add"; readonly hits: readonly Hit[] }
  | { readonly kind: "hear"; readonly id: number }
  | { readonly kind: "judge"; readonly id: number; readonly take: TakeToJudge };

export type JudgeAnswer =
  | { readonly kind: "heard"; readonly id: number; readonly hearing: Hearing }
  | { readonly kind: "judged"; readonly id: number; readonly judgement: Judgement }
  | { readonly kind: "failed"; readonly id: number; readonly reason: string };
