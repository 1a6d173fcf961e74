import type { DoorName } from "../../engine/records/index.ts";

/** The name under which a question of the page reaches the main process. */
export function channelOf(name: DoorName): string {
  return `throneside:${name}`;
}

/** The name under which the menu's commands reach the page. */
export const commandChannel = "throneside:command";
