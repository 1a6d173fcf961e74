/** The only thing a page can see of the computer beyond what a browser shows: a table of named functions. */
import { DOOR_NAMES, type DoorName } from "../../engine/records/index.ts";
import { channelOf, commandChannel } from "./channels.ts";

/**
 * Each function carries one question to the main process and its answer back, unread: the main process checks what
 * it is asked, the page what it is answered. No object of Electron goes through.
 */
export type Door = Readonly<Record<DoorName, (asked: unknown) => Promise<unknown>>> & {
  /** The operating system, as Node names it: "darwin", "linux", "win32". */
  readonly platform: () => string;
  /** Hears what the menu tells the page, until the function that comes back is called. */
  readonly onCommand: (hear: (command: unknown) => void) => () => void;
};

/** The name of the door on `window`. It is there in the desktop shell only. */
export const doorName = "throneside";

/** The part of Electron's `ipcRenderer` that the door uses. */
export interface Carrier {
  readonly invoke: (channel: string, asked: unknown) => Promise<unknown>;
  readonly on: (channel: string, listener: (event: unknown, command: unknown) => void) => unknown;
  readonly off: (channel: string, listener: (event: unknown, command: unknown) => void) => unknown;
}

/** The door as it stands in the preload script, which runs in `process`. */
export function doorOf(process: { readonly platform: string }, carrier: Carrier): Door {
  const ask = (name: DoorName) => (asked: unknown) => carrier.invoke(channelOf(name), asked);
  const functions = Object.fromEntries(DOOR_NAMES.map((name) => [name, ask(name)]));
  return {
    ...(functions as Record<DoorName, ReturnType<typeof ask>>),
    platform: () => process.platform,
    onCommand: (hear) => {
      // The event itself carries Electron's objects, so the page gets the command alone.
      const listener = (_event: unknown, command: unknown): void => hear(command);
      carrier.on(commandChannel, listener);
      return () => void carrier.off(commandChannel, listener);
    },
  };
}
