/** Hears syllables beside the page. What it is given it forgets with the answer. */
import { examplesIn, hearSyllables, SoundRefusal } from "../../engine/speech/index.ts";
import type { HearingAnswer, HearingRequest } from "./hearingMessages.ts";

function answer(request: HearingRequest): HearingAnswer {
  const { id } = request;
  try {
    return request.kind === "examples"
      ? { kind: "examples", id, examples: examplesIn(request.syllable, request.sound) }
      : { kind: "heard", id, heard: hearSyllables(request.sound, request.enrolment) };
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return { kind: error instanceof SoundRefusal ? "refused" : "failed", id, reason };
  }
}

self.onmessage = ({ data }: MessageEvent<HearingRequest>) => self.postMessage(answer(data));
