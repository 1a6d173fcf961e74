/** Writes music down beside the page: files one by one, and what was just played. */
import { readFile } from "./readFile.ts";
import { writeDown } from "./writeDown.ts";
import type { WritingAnswer, WritingRequest } from "./writingMessages.ts";

function answer(request: WritingRequest): WritingAnswer {
  switch (request.kind) {
    case "file":
      return { kind: "file", read: readFile(new Uint8Array(request.bytes), request.maps) };
    case "take":
      return { kind: "take", written: writeDown(request.hits, request.click, request.later) };
  }
}

self.onmessage = ({ data }: MessageEvent<WritingRequest>) => {
  self.postMessage(answer(data));
};
