/**
 * `npm run pack`: the program packed into a folder, dist/packed, for this computer, without a network.
 * `npm run pack -- installers` makes what is handed out (deb, nsis, dmg); electron-builder fetches the tools for it.
 * `npm run pack -- signed` is the same, and fails where there is no certificate to sign with.
 */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { packed } from "../electron/packaging/packed.mjs";
import { buildIfOld } from "./build.mjs";
import { root, runAsProgram, say } from "./command.mjs";
import { prepare } from "./install.mjs";

const kinds = { folder: packed, installers: packed, signed: { ...packed, forceCodeSigning: true } };

await runAsProgram(async () => {
  const [kind = "folder"] = process.argv.slice(2);
  if (!Object.hasOwn(kinds, kind)) throw new Error("Use npm run pack, or with -- installers or -- signed.");
  await prepare();
  const electronDist = join(root, "node_modules", "electron", "dist");
  if (!existsSync(electronDist)) {
    throw new Error(
      "The desktop shell is not installed: npx install-electron fetches it once (about 120 MB). Then try again.",
    );
  }
  if ((await buildIfOld()) !== 0) return 1;
  // Not before the packages are there.
  const { build: pack } = await import("electron-builder");
  const files = await pack({
    projectDir: root,
    dir: kind === "folder",
    publish: "never",
    config: { ...kinds[kind], electronDist },
  });
  say(files.length === 0 ? "packed into dist/packed." : `made:\n${files.join("\n")}`);
  return 0;
});
