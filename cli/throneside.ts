#!/usr/bin/env node
/** The engine without a screen. */
import { benchCommand } from "./commands/bench.ts";
import { catalogueCommand } from "./commands/catalogue.ts";
import { compareCommand } from "./commands/compare.ts";
import { exportCommand } from "./commands/export.ts";
import { gradeCommand } from "./commands/grade.ts";
import { identifyCommand } from "./commands/identify.ts";
import { listenCommand } from "./commands/listen.ts";
import { recallCommand } from "./commands/recall.ts";
import { stickingCommand } from "./commands/sticking.ts";
import { syllablesCommand } from "./commands/syllables.ts";
import { type Outlet, standardOutlet } from "./outlet.ts";
import { USAGE } from "./usage.ts";
import { UsageError } from "./usageError.ts";

const COMMANDS: Readonly<Record<string, (args: readonly string[], outlet: Outlet) => Promise<boolean>>> = {
  identify: identifyCommand,
  listen: listenCommand,
  grade: gradeCommand,
  catalogue: catalogueCommand,
  export: exportCommand,
  recall: recallCommand,
  sticking: stickingCommand,
  compare: compareCommand,
  syllables: syllablesCommand,
  bench: benchCommand,
};

/** Exit codes: 0 all done, 1 some take could not be read, 2 the command itself was not understood. */
async function main(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === "--help" || name === "-h" || rest.includes("--help")) {
    process.stdout.write(USAGE);
    return name === undefined ? 2 : 0;
  }
  const command = COMMANDS[name];
  try {
    if (!command) throw new UsageError(`There is no command "${name}".`);
    return (await command(rest, standardOutlet)) ? 0 : 1;
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    process.stderr.write(`${error.message} See --help.\n`);
    return 2;
  }
}

// A reader that has seen enough (head, say) closes the pipe: that is no error of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit(0);
});

process.exitCode = await main(process.argv.slice(2));
