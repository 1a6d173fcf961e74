/** Thrown when a command is not understood; the message is for the person who typed it. */
export class UsageError extends Error {
  override readonly name = "UsageError";
}
