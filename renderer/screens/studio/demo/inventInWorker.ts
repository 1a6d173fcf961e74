import { StoreError } from "../../../store/index.ts";
import type { DemoAnswer, DemoRequest } from "./demoMessages.ts";

/** Puts the demo studio there. @throws StoreError */
export function inventInWorker(
  asked: DemoRequest,
  onProgress: (done: number, of: number) => void,
): Promise<void> {
  const worker = new Worker(new URL("./demo.worker.ts", import.meta.url), { type: "module" });
  return new Promise<void>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<DemoAnswer>) => {
      switch (data.kind) {
        case "progress":
          return onProgress(data.done, data.of);
        case "loaded":
          return resolve();
        case "failed":
          return reject(new StoreError(data.reason));
      }
    };
    worker.onerror = ({ message }) =>
      reject(new StoreError(`The demo studio could not be invented: ${message || "its part did not load"}.`));
    worker.postMessage(asked);
  }).finally(() => worker.terminate());
}
