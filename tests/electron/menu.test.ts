import type { MenuItemConstructorOptions } from "electron";
import { describe, expect, test } from "vitest";
import { menuTemplate } from "../../electron/menu.ts";

const NOTHING = () => undefined;

function menuOn(platform: string, isPackaged = true) {
  return menuTemplate({ platform, isPackaged, tellPage: NOTHING, showWall: NOTHING, closeWall: NOTHING });
}

/** The items of all menus; those of a menu made of a role are the system's. */
function itemsOf(menu: readonly MenuItemConstructorOptions[]): readonly MenuItemConstructorOptions[] {
  return menu.flatMap(({ submenu }) => (Array.isArray(submenu) ? submenu : []));
}

/** The letter after the "&", which opens the item together with Alt. */
function letterOf({ label }: MenuItemConstructorOptions): string | undefined {
  return /&(\w)/.exec(label ?? "")?.[1]?.toLowerCase();
}

describe.each(["linux", "win32", "darwin"])("the menu on %s", (platform) => {
  test("each menu has a letter of its own", () => {
    const letters = menuOn(platform)
      .filter(({ role }) => role !== "appMenu")
      .map(letterOf);
    expect(letters).not.toContain(undefined);
    expect(new Set(letters).size).toBe(letters.length);
  });

  test("so has each item within its menu", () => {
    for (const { submenu } of menuOn(platform)) {
      const letters = (Array.isArray(submenu) ? submenu : [])
        .filter(({ type }) => type !== "separator")
        .map(letterOf);
      expect(letters).not.toContain(undefined);
      expect(new Set(letters).size).toBe(letters.length);
    }
  });

  test("no two items have the same keys", () => {
    const keys = itemsOf(menuOn(platform)).flatMap(({ accelerator }) => accelerator ?? []);
    expect(keys.length).toBeGreaterThan(3);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test("what is chosen by a click alone can be chosen by keys too", () => {
    for (const item of itemsOf(menuOn(platform)).filter(({ click }) => click))
      expect(item.accelerator).toMatch(/^CmdOrCtrl\+/);
  });

  test("the packed program has no tools for developers and no way to throw a round away", () => {
    const roles = itemsOf(menuOn(platform)).map(({ role }) => role);
    for (const role of ["reload", "forceReload", "toggleDevTools", "close"])
      expect(roles).not.toContain(role);
    expect(itemsOf(menuOn(platform, false)).map(({ role }) => role)).toContain("toggleDevTools");
  });

  test("the program can be ended, and text be copied", () => {
    const menu = menuOn(platform);
    expect(menu.map(({ role }) => role)).toContain("editMenu");
    const roles = [...menu, ...itemsOf(menu)].map(({ role }) => role);
    expect(roles).toContain(platform === "darwin" ? "appMenu" : "quit");
  });
});
