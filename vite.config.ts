import { builtinModules } from "node:module";
import { parse, resolve } from "node:path";
import react from "@vitejs/plugin-react";
import { defineConfig, type UserConfig } from "vite";
import { keptFiles, WORKER_FILE } from "./scripts/pages/keptFiles.ts";
import { licenceOfSounds } from "./scripts/pages/licenceOfSounds.ts";

/** Node's own modules and Electron's are there at run time; everything else goes into the bundle. */
const atRunTime = ["electron", ...builtinModules, ...builtinModules.map((name) => `node:${name}`)];

const REQUIRE_AS_BEFORE =
  'import { createRequire as requireFrom } from "node:module"; const require = requireFrom(import.meta.url);';

/**
 * A single file for Node (`es`) or for Electron's sandboxed preload (`cjs`). `packagesApart` stay in node_modules:
 * those that read files of their own there.
 */
function nodeBundle(
  entry: string,
  outDir: string,
  format: "es" | "cjs",
  packagesApart: readonly string[] = [],
): UserConfig {
  const name = parse(entry).name;
  return {
    // As Node itself would take them, not as a page would.
    ...(format === "es"
      ? { resolve: { conditions: ["node", "module"], mainFields: ["module", "main"] } }
      : {}),
    build: {
      outDir,
      emptyOutDir: false,
      minify: false,
      target: "node20",
      license: { fileName: `${name}.licences.md` },
      lib: {
        entry: resolve(entry),
        formats: [format],
        fileName: () => `${name}.${format === "cjs" ? "cjs" : "js"}`,
      },
      rollupOptions: {
        external: (id) =>
          atRunTime.includes(id) || packagesApart.some((name) => id === name || id.startsWith(`${name}/`)),
        // Packages of the older kind ask for Node's own modules by this name, which a module of the newer kind lacks.
        output: format === "es" ? { banner: REQUIRE_AS_BEFORE } : {},
      },
    },
    ssr: { noExternal: true },
  };
}

const renderer: UserConfig = {
  root: "renderer",
  base: "./",
  plugins: [
    react(),
    licenceOfSounds(resolve("renderer/audio/kit/licence.md")),
    keptFiles(resolve("renderer/public")),
  ],
  // The licence texts of the bundled packages go where the bundle goes.
  build: {
    outDir: "../dist/renderer",
    emptyOutDir: true,
    target: "chrome120",
    license: { fileName: "licences.md" },
    rollupOptions: {
      input: { index: resolve("renderer/index.html"), worker: resolve("renderer/offline/serviceWorker.ts") },
      output: {
        entryFileNames: ({ name }) => (name === "worker" ? WORKER_FILE : "assets/[name]-[hash].js"),
      },
    },
  },
};

const builds: Readonly<Record<string, UserConfig>> = {
  cli: nodeBundle("cli/throneside.ts", "dist/cli", "es"),
  learn: nodeBundle("scripts/learn.ts", "dist/scripts", "es"),
  room: nodeBundle("broker/room.ts", "dist/broker", "es"),
  sounds: nodeBundle("scripts/sounds.ts", "dist/scripts", "es", ["spessasynth_core", "libflacjs"]),
  "electron-main": nodeBundle("electron/main.ts", "dist/electron", "es"),
  "electron-preload": nodeBundle("electron/preload.ts", "dist/electron", "cjs"),
};

/** `vite build --mode cli` and so on; without one of those modes, the renderer. */
export default defineConfig(({ mode }) => builds[mode] ?? renderer);
