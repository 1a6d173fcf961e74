/** The page's side of the worker that hears syllables. */
import type { Enrolment, HeardSyllable, Sound } from "../../engine/speech/index.ts";
import type { HearingAnswer, HearingRequest } from "./hearingMessages.ts";

/** Thrown where it cannot be told what was said; the message says why and what to do. */
export class NotHeardError extends Error {
  override readonly name = "NotHeardError";
}

export class SyllableThinking {
  #worker: Worker | undefined;
  readonly #asked = new Map<number, (answer: HearingAnswer) => void>();
  #lastId = 0;

  /** The examples of a syllable in a recording. @throws NotHeardError */
  async examples(syllable: string, sound: Sound): Promise<Enrolment> {
    const answer = await this.#ask((id) => ({ kind: "examples", id, syllable, sound }));
    return answer.kind === "examples" ? answer.examples : [];
  }

  /** The syllables in a recording. @throws NotHeardError */
  async hear(sound: Sound, enrolment: Enrolment): Promise<readonly HeardSyllable[]> {
    const answer = await this.#ask((id) => ({ kind: "hear", id, sound, enrolment }));
    return answer.kind === "heard" ? answer.heard : [];
  }

  #ask(request: (id: number) => HearingRequest): Promise<HearingAnswer> {
    this.#lastId += 1;
    const id = this.#lastId;
    return new Promise((resolve, reject) => {
      this.#asked.set(id, (answer) => {
        if (answer.kind === "refused") reject(new NotHeardError(answer.reason));
        else if (answer.kind === "failed")
          reject(new NotHeardError(`The syllables could not be heard (${answer.reason}). Say it again.`));
        else resolve(answer);
      });
      this.#started().postMessage(request(id));
    });
  }

  #started(): Worker {
    if (this.#worker) return this.#worker;
    const worker = new Worker(new URL("./hearing.worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<HearingAnswer>) => {
      this.#asked.get(data.id)?.(data);
      this.#asked.delete(data.id);
    };
    worker.onerror = ({ message }) => {
      for (const [id, answered] of this.#asked) answered({ kind: "failed", id, reason: message });
      this.#asked.clear();
      this.#worker?.terminate();
      this.#worker = undefined;
    };
    this.#worker = worker;
    return worker;
  }
}
