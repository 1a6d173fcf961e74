/** `npm run room`: builds the room's broker where it is old, and opens a room; what follows goes to it (`--help`). */
import { join } from "node:path";
import { buildPartIfOld } from "./build.mjs";
import { root, run, runAsProgram } from "./command.mjs";
import { prepare } from "./install.mjs";

await runAsProgram(async () => {
  await prepare();
  if ((await buildPartIfOld("room")) !== 0) return 1;
  return run(process.execPath, [join(root, "dist", "broker", "room.js"), ...process.argv.slice(2)]);
});
