/** Why something could not be kept or read, in a sentence for the teacher. */
export class StoreError extends Error {
  override readonly name: string = "StoreError";
}

/** Another entry goes by that name; the storage itself is well. */
export class NameTakenError extends StoreError {}

const SENTENCES: Readonly<Record<string, string>> = {
  QuotaExceededError:
    "There is no room left on this computer for what the studio keeps. Nothing of this was kept, and nothing else is lost. Free some space, or put away what is not needed; then try again.",
  MissingAPIError:
    "This browser keeps nothing on this computer (a private window does so). What is made here can be used until the window is closed, but not kept.",
};
const UNAVAILABLE = new Set([
  "OpenFailedError",
  "InvalidStateError",
  "SecurityError",
  "UnknownError",
  "DatabaseClosedError",
]);

/** The names of an error and of all that it was caused by; the storage wraps one in the other. */
function namesOf(error: unknown): readonly string[] {
  if (typeof error !== "object" || error === null) return [];
  const name = "name" in error && typeof error.name === "string" ? [error.name] : [];
  const inner = "inner" in error && error.inner !== error ? namesOf(error.inner) : [];
  return [...inner, ...name];
}

/**
 * The error as a sentence. What is thrown by intention passes through.
 *
 * @example
 * storeErrorOf(new DOMException("", "QuotaExceededError")).message // => "There is no room left …"
 */
export function storeErrorOf(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const names = namesOf(error);
  const known = names.map((name) => SENTENCES[name]).find((sentence) => sentence !== undefined);
  if (known !== undefined) return new StoreError(known, { cause: error });
  const said = error instanceof Error ? error.message : String(error);
  const sentence = names.some((name) => UNAVAILABLE.has(name))
    ? `The storage of this computer cannot be used (${said}). Nothing was changed. Close other windows of the program and open it again.`
    : `The storage of this computer did not take it (${said}). Nothing of this was kept; try again.`;
  return new StoreError(sentence, { cause: error });
}
