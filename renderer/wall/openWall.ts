import { hrefOf } from "../app/route.ts";

/** Opens the wall view in a second window; false when the browser kept it shut. */
export function openWall(): boolean {
  return window.open(hrefOf("wall"), "throneside-wall", "popup,width=1280,height=720") !== null;
}
