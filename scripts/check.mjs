/**
 * `npm run check`: types, style and the arrows between folders. All three run, so that one look shows
 * everything; it fails if any of them does.
 */
import { runAsProgram, runTool, say } from "./command.mjs";
import { prepare } from "./install.mjs";

const checks = [
  { name: "types", packageName: "typescript", tool: "tsc", args: ["--noEmit", "-p", "."] },
  // `ci` is `check` without the power to write, and with messages made for a log.
  {
    name: "style",
    packageName: "@biomejs/biome",
    tool: "biome",
    args: [process.env.CI ? "ci" : "check", "."],
  },
  {
    name: "arrows",
    packageName: "dependency-cruiser",
    tool: "depcruise",
    args: [
      "--config",
      ".dependency-cruiser.cjs",
      "engine",
      "engraving",
      "renderer",
      "electron",
      "broker",
      "cli",
      "scripts",
    ],
  },
];

await runAsProgram(async () => {
  await prepare();
  const failed = [];
  for (const { name, packageName, tool, args } of checks) {
    say(`${name}: ${tool} ${args.join(" ")}`);
    if ((await runTool(packageName, tool, args)) !== 0) failed.push(name);
  }
  say(failed.length === 0 ? "types, style and arrows are in order." : `failed: ${failed.join(", ")}.`);
  return failed.length === 0 ? 0 : 1;
});
