/** Invents the demo studio beside the page, which stays awake meanwhile. */
import { StudioDatabase, storeErrorOf } from "../../../store/index.ts";
import type { DemoAnswer, DemoRequest } from "./demoMessages.ts";
import { loadDemoStudio } from "./demoStudio.ts";

self.onmessage = async ({ data }: MessageEvent<DemoRequest>) => {
  const answer = (message: DemoAnswer): void => self.postMessage(message);
  const database = new StudioDatabase();
  try {
    await loadDemoStudio(database, data, (done, of) => answer({ kind: "progress", done, of }));
    answer({ kind: "loaded" });
  } catch (error) {
    answer({ kind: "failed", reason: storeErrorOf(error).message });
  } finally {
    database.close();
  }
};
