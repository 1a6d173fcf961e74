import { describe, expect, test } from "vitest";
import { guardPermissions, isPermitted } from "../../electron/permissions.ts";

const own = "app://throneside/";

type Guarded = Parameters<typeof guardPermissions>[0];
type CheckHandler = NonNullable<Parameters<Guarded["setPermissionCheckHandler"]>[0]>;
type RequestHandler = NonNullable<Parameters<Guarded["setPermissionRequestHandler"]>[0]>;

/** A session that keeps the handlers it is given. */
function fakeSession() {
  const kept: { check?: CheckHandler | null; request?: RequestHandler | null } = {};
  const session: Guarded = {
    setPermissionCheckHandler: (handler) => {
      kept.check = handler;
    },
    setPermissionRequestHandler: (handler) => {
      kept.request = handler;
    },
  };
  return { session, kept };
}

describe("what a page may use", () => {
  test.each([
    ["midi", own, true],
    ["midi", "app://throneside", true],
    ["midiSysex", own, false],
    ["media", own, false],
    ["geolocation", own, false],
    ["notifications", own, false],
    ["clipboard-read", own, false],
    ["fileSystem", own, false],
    ["hid", own, false],
    ["serial", own, false],
    ["usb", own, false],
    ["openExternal", own, false],
    ["unknown", own, false],
    ["midi", "https://example.org/", false],
    ["midi", "app://elsewhere/", false],
    ["midi", "file:///etc/passwd", false],
    ["midi", "", false],
  ])("%s for %s: %s", (permission, origin, permitted) => {
    expect(isPermitted(permission, origin)).toBe(permitted);
  });
});

describe("the two questions of Chromium", () => {
  test.each([
    ["midi", own, true],
    ["midiSysex", own, false],
    ["midi", "https://example.org/", false],
  ] as const)("%s for %s is answered %s to both", (permission, origin, permitted) => {
    const { session, kept } = fakeSession();
    guardPermissions(session);
    const answers: boolean[] = [];
    const details = { requestingUrl: origin, isMainFrame: true };
    // The handlers do not look at the contents; a window cannot be made without Electron.
    const contents = null as unknown as Parameters<RequestHandler>[0];
    kept.request?.(contents, permission, (granted) => answers.push(granted), details);
    expect(kept.check?.(null, permission, origin, details)).toBe(permitted);
    expect(answers).toEqual([permitted]);
  });
});
