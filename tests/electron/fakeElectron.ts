/** Electron's main process as far as the shell uses it: it writes down what it is told, in order, and opens nothing. */
import { EventEmitter } from "node:events";

export interface FakeFrame {
  url: string;
  parent: object | null;
}
type Handler = (event: { senderFrame: FakeFrame | null }, asked: unknown) => unknown;

export class FakeContents extends EventEmitter {
  readonly handlers = new Map<string, Handler>();
  readonly sent: unknown[][] = [];
  readonly loaded: string[] = [];
  address = "";
  crashes = 0;
  openHandler: ((details: { url: string; frameName: string }) => unknown) | undefined;

  readonly ipc = {
    handle: (channel: string, handler: Handler) => {
      if (this.handlers.has(channel)) throw new Error(`${channel} is handled twice.`);
      this.handlers.set(channel, handler);
    },
  };
  setWindowOpenHandler(handler: FakeContents["openHandler"]): void {
    this.openHandler = handler;
  }
  send(...message: unknown[]): void {
    this.sent.push(message);
  }
  getURL(): string {
    return this.address;
  }
  async loadURL(address: string): Promise<void> {
    this.address = address;
    this.loaded.push(address);
  }
  reload(): void {
    this.loaded.push(this.address);
  }
  forcefullyCrashRenderer(): void {
    this.crashes++;
    this.emit("render-process-gone", {}, { reason: "killed", exitCode: 9 });
  }

  /** What a page of this window is answered; structured clones both ways, as between processes. */
  async ask(channel: string, asked: unknown, frame: FakeFrame | null = { url: this.address, parent: null }) {
    const handler = this.handlers.get(channel);
    if (!handler) throw new Error(`No handler registered for '${channel}'`);
    return structuredClone(await handler({ senderFrame: frame }, structuredClone(asked)));
  }
}

export class FakeWindow extends EventEmitter {
  readonly webContents = new FakeContents();
  readonly options: { readonly webPreferences?: object; readonly fullscreen?: boolean; readonly x?: number };
  isClosed = false;
  isSmall = false;
  constructor(options: FakeWindow["options"]) {
    super();
    this.options = options;
    fake.log.push("window");
    fake.windows.push(this);
    fake.app.emit("web-contents-created", {}, this.webContents);
  }
  async loadURL(address: string): Promise<void> {
    fake.log.push(`load ${address}`);
    await this.webContents.loadURL(address);
  }
  isMinimized(): boolean {
    return this.isSmall;
  }
  restore(): void {
    this.isSmall = false;
    fake.log.push("restore");
  }
  focus(): void {
    fake.log.push(`focus ${fake.windows.indexOf(this)}`);
  }
  getBounds(): object {
    return { x: 0, y: 0, width: 1280, height: 800 };
  }
  close(): void {
    this.isClosed = true;
    this.emit("closed");
  }
}

class FakeApp extends EventEmitter {
  isPackaged = true;
  isFirst = true;
  becomeReady: () => void = () => undefined;
  #ready = Promise.resolve();
  startAgain(): void {
    this.removeAllListeners();
    this.isFirst = true;
    this.#ready = new Promise((ready) => {
      this.becomeReady = ready;
    });
  }
  requestSingleInstanceLock(): boolean {
    return this.isFirst;
  }
  whenReady(): Promise<void> {
    return this.#ready;
  }
  enableSandbox(): void {
    fake.log.push("sandbox");
  }
  getPath(name: string): string {
    return `${fake.folder}/${name}`;
  }
  quit(): void {
    fake.log.push("quit");
  }
  exit(code: number): void {
    fake.log.push(`exit ${code}`);
  }
}

interface MenuItem {
  readonly label?: string;
  readonly role?: string;
  readonly accelerator?: string;
  readonly click?: () => void;
  readonly submenu?: readonly MenuItem[];
}

export const fake = {
  log: [] as string[],
  windows: [] as FakeWindow[],
  app: new FakeApp(),
  /** Where `app.getPath` finds its folders. */
  folder: "",
  menu: [] as readonly MenuItem[],
  displays: [{ id: 1, bounds: { x: 0, y: 0, width: 1920, height: 1080 } }],
  /** The ids of the power-save blockers that hold. */
  blockers: new Set<number>(),
  openAnswers: [] as { canceled: boolean; filePaths: string[] }[],
  saveAnswers: [] as { canceled: boolean; filePath: string }[],
  boxAnswers: [] as number[],
  asked: [] as unknown[],
  startAgain(): void {
    fake.log.length = 0;
    fake.windows.length = 0;
    fake.displays.length = 1;
    fake.blockers.clear();
    fake.asked.length = 0;
    fake.app.startAgain();
  },
};

function nextOf<Answer>(answers: Answer[], what: string): Answer {
  const answer = answers.shift();
  if (answer === undefined) throw new Error(`A ${what} was shown, and the test has no answer for it.`);
  return answer;
}

let blockerId = 0;

export const electronModule = {
  app: fake.app,
  BrowserWindow: FakeWindow,
  dialog: {
    showOpenDialog: async (_window: unknown, options: unknown) => {
      fake.asked.push(options);
      return nextOf(fake.openAnswers, "dialog for opening");
    },
    showSaveDialog: async (_window: unknown, options: unknown) => {
      fake.asked.push(options);
      return nextOf(fake.saveAnswers, "dialog for saving");
    },
    showMessageBox: async (options: unknown) => {
      fake.asked.push(options);
      return { response: nextOf(fake.boxAnswers, "message") };
    },
  },
  Menu: {
    buildFromTemplate: (template: readonly MenuItem[]) => template,
    setApplicationMenu: (menu: readonly MenuItem[]) => {
      fake.menu = menu;
    },
  },
  powerSaveBlocker: {
    start: (kind: string) => {
      fake.log.push(`block ${kind}`);
      fake.blockers.add(++blockerId);
      return blockerId;
    },
    stop: (id: number) => fake.blockers.delete(id),
  },
  protocol: {
    registerSchemesAsPrivileged: () => fake.log.push("scheme"),
    handle: (scheme: string) => fake.log.push(`handle ${scheme}`),
  },
  screen: {
    getAllDisplays: () => fake.displays,
    getDisplayMatching: () => fake.displays[0],
  },
  session: {
    defaultSession: {
      setPermissionCheckHandler: () => fake.log.push("permission check"),
      setPermissionRequestHandler: () => fake.log.push("permission request"),
      setDevicePermissionHandler: () => fake.log.push("devices"),
      setDisplayMediaRequestHandler: () => fake.log.push("screen picture"),
      setSpellCheckerEnabled: (on: boolean) => fake.log.push(`spelling ${on}`),
      webRequest: { onBeforeRequest: () => fake.log.push("network") },
    },
  },
};
