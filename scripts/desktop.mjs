/** The desktop shell: whether it can be opened on this computer, and opening it. It is never downloaded here. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./command.mjs";

/**
 * The shell's program as `{ path }`, or the reason why it cannot be opened as `{ missing }`.
 * `folder` is where the electron package is; the rest describes the computer.
 */
export function findDesktop({ folder, platform, env, userId }) {
  const record = join(folder, "path.txt");
  const path = existsSync(record) ? join(folder, "dist", readFileSync(record, "utf8").trim()) : undefined;
  if (path === undefined || !existsSync(path)) return { missing: "the desktop shell is not installed" };
  if (platform !== "linux") return { path };
  if (!env.DISPLAY && !env.WAYLAND_DISPLAY) return { missing: "there is no display for the desktop shell" };
  // Chromium refuses to run as root with its sandbox on, and we do not turn the sandbox off.
  if (userId === 0) return { missing: "the desktop shell does not run as root" };
  return { path };
}

/** The shell of this computer, as `findDesktop` gives it. */
export function desktopHere() {
  return findDesktop({
    folder: join(root, "node_modules", "electron"),
    platform: process.platform,
    env: process.env,
    userId: process.getuid?.(),
  });
}

/** Opens the shell on the built program and gives its exit code once its window is closed. */
export function openDesktop(path) {
  return run(path, [root]);
}
