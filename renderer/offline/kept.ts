/**
 * Which files are kept, and for how long: the part of the service worker that needs no browser. It uses no package,
 * so that the worker is one small file.
 */

/** A build of the pages: its version, and its files as addresses relative to the first page. */
export interface BuildToKeep {
  readonly version: string;
  readonly files: readonly string[];
}

/** All caches of the program, each named by the version of its build. */
export const CACHE_PREFIX = "throneside-";
/** The build in use and the one before it, which another window may still show. */
const BUILDS_KEPT = 2;

/** Vite names the files in this folder by their content: two of one name are the same. */
export function isNamedByContent(file: string): boolean {
  return file.startsWith("./assets/");
}

/** The caches that are not needed any more when `current` takes over, of all there are, oldest first. */
export function namesToDrop(names: readonly string[], current: string): readonly string[] {
  const older = names.filter((name) => name.startsWith(CACHE_PREFIX) && name !== current);
  return older.slice(0, Math.max(0, older.length - (BUILDS_KEPT - 1)));
}

/** The message of a page whose user wants the new version. A type only, so that page and worker share no file. */
export type TakeOver = "take over";
