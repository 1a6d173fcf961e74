/** The only thing a page can see of the computer beyond what a browser shows: a table of named functions. */
export interface Door {
  /** The operating system, as Node names it: "darwin", "linux", "win32". */
  readonly platform: () => string;
}

/** The name of the door on `window`. It is there in the desktop shell only. */
export const doorName = "throneside";

/** The door as it stands in the preload script, which runs in `process`. */
export function doorOf(process: { readonly platform: string }): Door {
  return { platform: () => process.platform };
}
