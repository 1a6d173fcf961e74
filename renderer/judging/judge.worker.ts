/**
 * Listens and judges beside the page, so that no thinking ever delays a strike's paint.
 */
import { judgeTake, TakeListener } from "../../engine/rounds/index.ts";
import type { JudgeAnswer, JudgeRequest } from "./judgeMessages.ts";

let listener = new TakeListener(null);

function answer(request: JudgeRequest): JudgeAnswer | undefined {
  switch (request.kind) {
    case "begin":
      listener = new TakeListener(request.styleId);
      return undefined;
    case "add":
      for (const hit of request.hits) listener.add(hit);
      return undefined;
    case "hear":
      return { kind: "heard", id: request.id, hearing: listener.hearing() };
    case "judge":
      return { kind: "judged", id: request.id, judgement: judgeTake(request.take) };
  }
}

self.onmessage = ({ data }: MessageEvent<JudgeRequest>) => {
  try {
    const answered = answer(data);
    if (answered) self.postMessage(answered);
  } catch (error) {
    if (!("id" in data)) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    self.postMessage({ kind: "failed", id: data.id, reason } satisfies JudgeAnswer);
  }
};
