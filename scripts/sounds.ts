/**
 * Makes the recorded kit (renderer/audio/kit/) from the sound bank:
 *
 *     npx vite build --mode sounds && node dist/scripts/sounds.js
 *
 * Its output is kept in the repository: 25 files, 1.47 MB. Making it takes seven seconds and could be done in
 * set-up; but a file that is kept is the one that was measured, whatever a later version of the synthesiser does,
 * and building the pages then needs no step before it. A test makes every file anew and compares.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { copyLicence, makeKit } from "./sounds/makeKit.ts";

const folder = "renderer/audio/kit";
mkdirSync(folder, { recursive: true });
const { manifest, files } = await makeKit();
for (const [name, bytes] of files) writeFileSync(join(folder, name), bytes);
writeFileSync(join(folder, "kit.json"), `${JSON.stringify(manifest, undefined, 2)}\n`);
copyLicence(folder);
const bytes = [...files.values()].reduce((sum, file) => sum + file.length, 0);
console.log(`${files.size} recordings, ${(bytes / 1e6).toFixed(2)} MB, written to ${folder}.`);
