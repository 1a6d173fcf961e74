/**
 * Listens and judges beside the page, so that no thinking ever delays a strike's paint.
 */
import { type ListenedFor, NOTHING_OF_SHELF } from "../../engine/catalogue/index.ts";
import { judgeTake, stockOfPlayer, TakeListener, withShelf } from "../../engine/rounds/index.ts";
import type { JudgeAnswer, JudgeRequest } from "./judgeMessages.ts";

/** What of the Shelf is listened for besides the catalogue. */
let shelf: ListenedFor = NOTHING_OF_SHELF;
/** All that is listened for, as this player has it. */
let stock = stockOfPlayer([]);
let listener = new TakeListener(null, stock);

function answer(request: JudgeRequest): JudgeAnswer | undefined {
  switch (request.kind) {
    case "shelf":
      shelf = request.shelf;
      return undefined;
    case "begin":
      stock = stockOfPlayer(request.own, withShelf(shelf, request.styleId));
      listener = new TakeListener(request.styleId, stock);
      return undefined;
    case "add":
      for (const hit of request.hits) listener.add(hit);
      return undefined;
    case "hear":
      return { kind: "heard", id: request.id, hearing: listener.hearing() };
    case "judge":
      return { kind: "judged", id: request.id, judgement: judgeTake(request.take, stock) };
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
