/**
 * The page's side of the worker that listens and judges.
 */
import { type ListenedFor, NOTHING_OF_SHELF } from "../../engine/catalogue/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import type { Hearing } from "../../engine/listening/index.ts";
import type { Judgement, OwnTakes, TakeToJudge } from "../../engine/rounds/index.ts";
import type { JudgeAnswer, JudgeRequest } from "./judgeMessages.ts";

/** Thrown when the worker could not think a take over. */
export class JudgeError extends Error {
  override readonly name = "JudgeError";
}

type Asked = {
  readonly answered: (answer: JudgeAnswer) => void;
  readonly failed: (error: JudgeError) => void;
};

export class Judge {
  #worker: Worker | undefined;
  readonly #asked = new Map<number, Asked>();
  #lastId = 0;
  /** What the worker was told of the Shelf. */
  #shelf: ListenedFor = NOTHING_OF_SHELF;

  /**
   * A new take of the called style (`null`: a free choice) begins: nothing of the last one is heard any more.
   *
   * @param own earlier takes of this player, by which the styles are also known.
   * @param shelf what of the Shelf is listened for as well; the same object while it is the same.
   */
  begin(styleId: string | null, own: readonly OwnTakes[], shelf: ListenedFor = NOTHING_OF_SHELF): void {
    if (this.#shelf !== shelf) this.#post({ kind: "shelf", shelf });
    this.#shelf = shelf;
    this.#post({ kind: "begin", styleId, own });
  }

  /** More of the take. Cheap: nothing is thought over until asked. */
  add(hits: readonly Hit[]): void {
    if (hits.length > 0) this.#post({ kind: "add", hits });
  }

  /** What is heard in the latest bars of the take. */
  async hear(): Promise<Hearing> {
    const answer = await this.#ask((id) => ({ kind: "hear", id }));
    if (answer.kind !== "heard") throw new JudgeError(sentence(answer));
    return answer.hearing;
  }

  /** All that is said of a whole take. */
  async judge(take: TakeToJudge): Promise<Judgement> {
    const answer = await this.#ask((id) => ({ kind: "judge", id, take }));
    if (answer.kind !== "judged") throw new JudgeError(sentence(answer));
    return answer.judgement;
  }

  #ask(request: (id: number) => JudgeRequest): Promise<JudgeAnswer> {
    this.#lastId += 1;
    const id = this.#lastId;
    return new Promise((answered, failed) => {
      this.#asked.set(id, { answered, failed });
      this.#post(request(id));
    });
  }

  #post(request: JudgeRequest): void {
    this.#worker ??= this.#started();
    this.#worker.postMessage(request);
  }

  #started(): Worker {
    const worker = new Worker(new URL("./judge.worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<JudgeAnswer>) => {
      this.#asked.get(data.id)?.answered(data);
      this.#asked.delete(data.id);
    };
    worker.onerror = (event) => {
      const error = new JudgeError(
        `Listening stopped: ${event.message || "its part of the program did not load"}.`,
      );
      for (const { failed } of this.#asked.values()) failed(error);
      this.#asked.clear();
      worker.terminate();
      // The next request starts a fresh one.
      this.#worker = undefined;
      this.#shelf = NOTHING_OF_SHELF;
    };
    return worker;
  }
}

function sentence(answer: JudgeAnswer): string {
  return answer.kind === "failed"
    ? answer.reason
    : `an answer of the kind ${answer.kind} came where another was due`;
}
