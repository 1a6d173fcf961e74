/**
 * A set-up: what is struck and where the sound comes out. Each has a delay of its own, and keeps it until a cable,
 * a module or an output is changed.
 */
import { z } from "zod";

/** Where the click is heard. Browsers do not say, so the player does. */
export const OUTPUTS = ["loudspeakers", "headphones", "wireless"] as const;
export type Output = (typeof OUTPUTS)[number];

export const setUpSchema = z
  .strictObject({
    /** Name of the MIDI input as the system gives it, or {@link COMPUTER_KEYS}. */
    input: z.string().min(1).max(200),
    output: z.enum(OUTPUTS),
  })
  .readonly();

export type SetUp = z.infer<typeof setUpSchema>;

/** The keys of this computer, as an input. */
export const COMPUTER_KEYS = "the keys of this computer";

export function isSameSetUp(a: SetUp, b: SetUp): boolean {
  return a.input === b.input && a.output === b.output;
}

/** As a list shows it. */
export function outputName(output: Output): string {
  switch (output) {
    case "loudspeakers":
      return "loudspeakers";
    case "headphones":
      return "headphones on a cable";
    case "wireless":
      return "headphones without a cable";
  }
}
