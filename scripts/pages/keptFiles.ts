/**
 * A part of the pages' build: writes into the service worker which files it keeps.
 */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import type { BuildToKeep } from "../../renderer/offline/kept.ts";

/** Where the built service worker lies: beside the first page, because it answers for its own folder only. */
export const WORKER_FILE = "service-worker.js";
/** Stands in the worker's source for what is written here. */
const PLACE = "FILES_OF_THIS_BUILD";

/** A file of the build, by its path from the first page. */
export interface BuiltFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** The build that these files are: all but the worker itself and texts that no page shows. */
export function buildOf(files: readonly BuiltFile[]): BuildToKeep {
  const kept = files
    .filter(({ path }) => path !== WORKER_FILE && !path.endsWith(".map") && !path.endsWith(".md"))
    .toSorted((a, b) => (a.path < b.path ? -1 : 1));
  const hash = createHash("sha256");
  for (const { path, content } of kept) hash.update(`${path}\n`).update(content);
  return {
    version: hash.digest("hex").slice(0, 16),
    files: kept.map(({ path }) => (path === "index.html" ? "./" : `./${path}`)),
  };
}

/**
 * @param publicFolder files that are copied as they are.
 */
export function keptFiles(publicFolder: string): Plugin {
  return {
    name: "throneside-kept-files",
    enforce: "post",
    apply: "build",
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        const worker = bundle[WORKER_FILE];
        if (worker?.type !== "chunk" || !worker.code.includes(PLACE))
          this.error(`The build has no ${WORKER_FILE} in which ${PLACE} could be replaced.`);
        const built = Object.values(bundle).map(
          (file): BuiltFile => ({
            path: file.fileName,
            content: file.type === "chunk" ? file.code : file.source,
          }),
        );
        const build = buildOf([...built, ...filesIn(publicFolder)]);
        worker.code = worker.code.replaceAll(PLACE, JSON.stringify(build));
      },
    },
  };
}

function filesIn(folder: string): readonly BuiltFile[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return { path: path.slice(folder.length + 1).replaceAll("\\", "/"), content: readFileSync(path) };
    });
}
