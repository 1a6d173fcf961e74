import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { findDesktop } from "../../scripts/desktop.mjs";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "throneside-desktop-"));
  for (const name of ["whole", "halved"]) mkdirSync(join(folder, name, "dist"), { recursive: true });
  mkdirSync(join(folder, "bare"));
  for (const name of ["whole", "halved"]) writeFileSync(join(folder, name, "path.txt"), "electron");
  writeFileSync(join(folder, "whole", "dist", "electron"), "");
});
afterAll(() => rmSync(folder, { recursive: true }));

test.each([
  ["whole", "linux", { DISPLAY: ":0" }, 1000, undefined],
  ["whole", "linux", { WAYLAND_DISPLAY: "wayland-0" }, 1000, undefined],
  ["whole", "darwin", {}, 501, undefined],
  ["whole", "win32", {}, undefined, undefined],
  ["whole", "linux", {}, 1000, "there is no display for the desktop shell"],
  ["whole", "linux", { DISPLAY: ":0" }, 0, "the desktop shell does not run as root"],
  ["bare", "linux", { DISPLAY: ":0" }, 1000, "the desktop shell is not installed"],
  ["halved", "darwin", {}, 501, "the desktop shell is not installed"],
])("a %s installation on %s with %j as user %s: %s", (name, platform, env, userId, missing) => {
  const found = findDesktop({ folder: join(folder, name), platform, env, userId });
  expect(found).toEqual(
    missing === undefined ? { path: join(folder, name, "dist", "electron") } : { missing },
  );
});
