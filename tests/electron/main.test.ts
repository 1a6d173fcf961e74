import { beforeEach, describe, expect, test, vi } from "vitest";

/** Electron's main process, as far as main.ts uses it, writing down what it is told in order. */
const electron = vi.hoisted(() => {
  const log: string[] = [];
  const state = { isFirst: true, windows: [] as { options: unknown; address: string }[] };
  let becomeReady = () => {};
  class BrowserWindow {
    static getAllWindows = () => [
      { isMinimized: () => true, restore: () => log.push("restore"), focus: () => log.push("focus") },
    ];
    constructor(private readonly options: unknown) {
      log.push("window");
    }
    async loadURL(address: string) {
      log.push("load");
      state.windows.push({ options: this.options, address });
    }
  }
  const handlers = new Map<string, (...args: unknown[]) => void>();
  const app = {
    requestSingleInstanceLock: () => state.isFirst,
    enableSandbox: () => log.push("sandbox"),
    on: (name: string, handler: () => void) => handlers.set(name, handler),
    whenReady: () =>
      new Promise<void>((settle) => {
        becomeReady = settle;
      }),
    quit: () => log.push("quit"),
    exit: (code: number) => log.push(`exit ${code}`),
  };
  const protocol = {
    registerSchemesAsPrivileged: () => log.push("scheme"),
    handle: (scheme: string) => log.push(`handle ${scheme}`),
  };
  const session = {
    defaultSession: {
      setPermissionCheckHandler: () => log.push("permission check"),
      setPermissionRequestHandler: () => log.push("permission request"),
    },
  };
  return {
    log,
    state,
    handlers,
    becomeReady: () => becomeReady(),
    module: { app, BrowserWindow, protocol, session },
  };
});
vi.mock("electron", () => electron.module);

beforeEach(() => {
  vi.resetModules();
  electron.log.length = 0;
  electron.handlers.clear();
  electron.state.windows.length = 0;
  electron.state.isFirst = true;
});

describe("the main process", () => {
  test("registers the scheme before Chromium is ready, and guards everything before the page is loaded", async () => {
    await import("../../electron/main.ts");
    expect(electron.log).toEqual(["scheme", "sandbox"]);
    electron.becomeReady();
    await vi.waitFor(() => expect(electron.state.windows).toHaveLength(1));
    expect(electron.log.slice(2)).toEqual([
      "handle app",
      "permission check",
      "permission request",
      "window",
      "load",
    ]);
  });

  test("opens one window that is kept apart from Node", async () => {
    await import("../../electron/main.ts");
    electron.becomeReady();
    await vi.waitFor(() => expect(electron.state.windows).toHaveLength(1));
    expect(electron.state.windows[0]).toMatchObject({
      address: "app://throneside/",
      options: { webPreferences: { contextIsolation: true, sandbox: true, nodeIntegration: false } },
    });
  });

  test("guards the navigation of every page that is made", async () => {
    await import("../../electron/main.ts");
    const guarded: string[] = [];
    const contents = {
      on: (name: string) => guarded.push(name),
      setWindowOpenHandler: () => guarded.push("open"),
    };
    electron.handlers.get("web-contents-created")?.({}, contents);
    expect(guarded).toContain("will-frame-navigate");
    expect(guarded).toContain("open");
  });

  test("a second start brings the first window forward and ends", async () => {
    await import("../../electron/main.ts");
    electron.handlers.get("second-instance")?.();
    expect(electron.log.slice(-2)).toEqual(["restore", "focus"]);

    vi.resetModules();
    electron.log.length = 0;
    electron.state.isFirst = false;
    await import("../../electron/main.ts");
    expect(electron.log).toEqual(["quit"]);
  });
});
