import type { ListenedFor } from "../../engine/catalogue/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import type { Hearing } from "../../engine/listening/index.ts";
import type { Judgement, OwnTakes, TakeToJudge } from "../../engine/rounds/index.ts";

/** Requests to the worker that listens and judges, answered in order. */
export type JudgeRequest =
  /** What of the Shelf is listened for from now on. */
  | { readonly kind: "shelf"; readonly shelf: ListenedFor }
  | { readonly kind: "begin"; readonly styleId: string | null; readonly own: readonly OwnTakes[] }
  | { readonly kind: "add"; readonly hits: readonly Hit[] }
  | { readonly kind: "hear"; readonly id: number }
  | { readonly kind: "judge"; readonly id: number; readonly take: TakeToJudge };

export type JudgeAnswer =
  | { readonly kind: "heard"; readonly id: number; readonly hearing: Hearing }
  | { readonly kind: "judged"; readonly id: number; readonly judgement: Judgement }
  | { readonly kind: "failed"; readonly id: number; readonly reason: string };
