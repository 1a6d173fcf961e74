import { createInterface } from "node:readline";

/** The lines of standard input as they come; a test gives its own. */
export function standardLines(): AsyncIterable<string> {
  return createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
}
