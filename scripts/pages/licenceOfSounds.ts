/**
 * A part of the pages' build: puts the licence of the recorded kit where its recordings go, as it asks for.
 */
import { readFileSync } from "node:fs";
import type { Plugin } from "vite";

/** Beside the licences of the packages, dist/renderer/licences.md. */
const FILE = "sounds.licence.md";

export function licenceOfSounds(path: string): Plugin {
  return {
    name: "throneside-licence-of-sounds",
    apply: "build",
    generateBundle() {
      this.emitFile({ type: "asset", fileName: FILE, source: readFileSync(path, "utf8") });
    },
  };
}
