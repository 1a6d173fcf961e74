/** The menu: all of it by keyboard (Alt and the underlined letter, or the keys shown), with no key that ends a lesson. */
import type { MenuItemConstructorOptions } from "electron";
import type { DoorCommand } from "../engine/records/index.ts";

export interface MenuPlace {
  /** As Node names it. */
  readonly platform: string;
  /** Whether this is the packed program, which has no tools for developers. */
  readonly isPackaged: boolean;
  readonly tellPage: (command: DoorCommand) => void;
  readonly showWall: () => void;
  readonly closeWall: () => void;
}

export function menuTemplate(place: MenuPlace): MenuItemConstructorOptions[] {
  const isMac = place.platform === "darwin";
  return [
    ...(isMac ? [{ role: "appMenu" } as const] : []),
    fileMenu(place, isMac),
    { role: "editMenu", label: "&Edit" },
    viewMenu(place),
    wallMenu(place),
  ];
}

function fileMenu({ tellPage }: MenuPlace, isMac: boolean): MenuItemConstructorOptions {
  return {
    label: "&File",
    submenu: [
      { label: "&Open MIDI files…", accelerator: "CmdOrCtrl+O", click: () => tellPage("open-midi") },
      { label: "&Backups…", accelerator: "CmdOrCtrl+B", click: () => tellPage("show-backups") },
      ...(isMac ? [] : [{ type: "separator" } as const, { role: "quit", label: "&Quit" } as const]),
    ],
  };
}

/** The packed program has no "reload": it would throw away what a round holds in memory. */
function viewMenu({ isPackaged }: MenuPlace): MenuItemConstructorOptions {
  return {
    label: "&View",
    submenu: [
      { role: "zoomIn", label: "&Larger" },
      { role: "zoomOut", label: "&Smaller" },
      { role: "resetZoom", label: "As it &was" },
      { role: "togglefullscreen", label: "&Full screen" },
      { role: "minimize", label: "&Minimise" },
      ...(isPackaged ? [] : [{ role: "reload" } as const, { role: "toggleDevTools" } as const]),
    ],
  };
}

/** The key that closes windows elsewhere closes the wall here, and never the book. */
function wallMenu({ showWall, closeWall }: MenuPlace): MenuItemConstructorOptions {
  return {
    label: "&Wall",
    submenu: [
      { label: "&Show the wall", accelerator: "CmdOrCtrl+Shift+W", click: showWall },
      { label: "&Close the wall", accelerator: "CmdOrCtrl+W", click: closeWall },
    ],
  };
}
