import { describe, expect, test } from "vitest";
import { guardPermissions, isPermitted } from "../../electron/permissions.ts";

const own = "app://throneside/";

type Guarded = Parameters<typeof guardPermissions>[0];
type CheckHandler = NonNullable<Parameters<Guarded["setPermissionCheckHandler"]>[0]>;
type RequestHandler = NonNullable<Parameters<Guarded["setPermissionRequestHandler"]>[0]>;

type DeviceHandler = NonNullable<Parameters<Guarded["setDevicePermissionHandler"]>[0]>;
type ScreenHandler = NonNullable<Parameters<Guarded["setDisplayMediaRequestHandler"]>[0]>;

/** A session that keeps the handlers it is given. */
function fakeSession() {
  const kept: {
    check?: CheckHandler | null;
    request?: RequestHandler | null;
    device?: DeviceHandler | null;
    screen?: ScreenHandler | null;
  } = {};
  const session: Guarded = {
    setPermissionCheckHandler: (handler) => {
      kept.check = handler;
    },
    setPermissionRequestHandler: (handler) => {
      kept.request = handler;
    },
    setDevicePermissionHandler: (handler) => {
      kept.device = handler;
    },
    setDisplayMediaRequestHandler: (handler) => {
      kept.screen = handler;
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
    ["persistent-storage", own, true],
    ["persistent-storage", "https://example.org/", false],
    ["clipboard-sanitized-write", own, true],
    ["clipboard-read", own, false],
    ["display-capture", own, false],
    ["local-network", own, false],
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

describe("of sound and picture", () => {
  test.each([
    [["audio"], own, true],
    [["video"], own, false],
    [["audio", "video"], own, false],
    [["unknown"], own, false],
    [[], own, false],
    [["audio"], "https://example.org/", false],
  ])("%j for %s: %s", (media, origin, permitted) => {
    expect(isPermitted("media", origin, media)).toBe(permitted);
  });

  test.each([
    ["audio", true],
    ["video", false],
  ] as const)("%s is answered %s to both questions", (kind, permitted) => {
    const { session, kept } = fakeSession();
    guardPermissions(session);
    const answers: boolean[] = [];
    const details = { requestingUrl: own, securityOrigin: own, isMainFrame: true };
    const contents = null as unknown as Parameters<RequestHandler>[0];
    kept.request?.(contents, "media", (granted) => answers.push(granted), { ...details, mediaTypes: [kind] });
    expect(kept.check?.(null, "media", own, { ...details, mediaType: kind })).toBe(permitted);
    expect(answers).toEqual([permitted]);
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

test("no device is given out, and no picture of the screen", () => {
  const { session, kept } = fakeSession();
  guardPermissions(session);
  const device = { deviceType: "usb", origin: own, device: {} } as unknown as Parameters<DeviceHandler>[0];
  expect(kept.device?.(device)).toBe(false);
  const answers: unknown[] = [];
  kept.screen?.({} as Parameters<ScreenHandler>[0], (streams) => answers.push(streams));
  expect(answers).toEqual([null]);
});
