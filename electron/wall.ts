/** The wall view: the round shown large for the student, on the second screen where there is one. */
import type { BrowserWindowConstructorOptions, Display } from "electron";
import { firstPage } from "./origin.ts";
import { windowOptions } from "./window.ts";

/** The name under which the page opens the wall view. */
export const wallName = "throneside-wall";

export const wallPage = `${firstPage}#/wall`;

type Screen = Pick<Display, "id" | "bounds">;

/** A window that fills the first screen which is not the book's; on a computer with one screen, a window beside it. */
export function wallOptions(
  preload: string,
  screens: readonly Screen[],
  ofBook: Pick<Screen, "id">,
): BrowserWindowConstructorOptions {
  const shut = { ...windowOptions(preload), title: "Throneside, the wall", autoHideMenuBar: true };
  const other = screens.find(({ id }) => id !== ofBook.id);
  return other === undefined ? shut : { ...shut, ...other.bounds, fullscreen: true };
}
