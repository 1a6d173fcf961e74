import type { Session } from "electron";
import { isOwn } from "./origin.ts";

/**
 * What a page may use. Hearing a kit needs MIDI; system exclusive messages ("midiSysex"), which can rewrite a
 * module's settings, and everything else a browser can ask for are not needed, so they are not there.
 */
export function isPermitted(permission: string, origin: string): boolean {
  return permission === "midi" && isOwn(origin);
}

/** Answers both of Chromium's questions about permissions, "may it?" and "it asks for", from the same rule. */
export function guardPermissions(
  session: Pick<Session, "setPermissionCheckHandler" | "setPermissionRequestHandler">,
): void {
  session.setPermissionCheckHandler((_contents, permission, origin) => isPermitted(permission, origin));
  session.setPermissionRequestHandler((_contents, permission, answer, details) =>
    answer(isPermitted(permission, details.requestingUrl)),
  );
}
