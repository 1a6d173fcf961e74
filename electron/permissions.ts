import type { Session } from "electron";
import { isOwn } from "./origin.ts";

/**
 * What a page may use. Hearing a kit needs MIDI; what is kept must not be cleared away when the disk fills
 * ("persistent-storage"); a link to a moment is copied ("clipboard-sanitized-write": text, after a press); measuring
 * how late a set-up is can use the microphone, so "media" is permitted for sound alone (`media` lists what is asked
 * for). System exclusive messages ("midiSysex"), which can rewrite a module's settings, the camera, and everything
 * else a browser can ask for are not needed, so they are not there.
 */
export function isPermitted(permission: string, origin: string, media: readonly string[] = []): boolean {
  if (!isOwn(origin)) return false;
  if (permission === "media") return media.length > 0 && media.every((kind) => kind === "audio");
  return PERMITTED.has(permission);
}

const PERMITTED: ReadonlySet<string> = new Set(["midi", "persistent-storage", "clipboard-sanitized-write"]);

type Guarded = Pick<
  Session,
  | "setPermissionCheckHandler"
  | "setPermissionRequestHandler"
  | "setDevicePermissionHandler"
  | "setDisplayMediaRequestHandler"
>;

/**
 * Answers both of Chromium's questions about permissions, "may it?" and "it asks for", from the same rule; and gives
 * out no device (USB, HID, serial) and no picture of the screen.
 */
export function guardPermissions(session: Guarded): void {
  session.setPermissionCheckHandler((_contents, permission, origin, { mediaType }) =>
    isPermitted(permission, origin, mediaType === undefined ? [] : [mediaType]),
  );
  session.setPermissionRequestHandler((_contents, permission, answer, details) =>
    answer(
      isPermitted(
        permission,
        details.requestingUrl,
        "mediaTypes" in details ? details.mediaTypes : undefined,
      ),
    ),
  );
  session.setDevicePermissionHandler(() => false);
  session.setDisplayMediaRequestHandler((_request, answer) => answer(null));
}
