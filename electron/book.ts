/** The book: the program's first window, the one the teacher works in. Its page alone has a door that is answered. */
import { join } from "node:path";
import { app, BrowserWindow, dialog, Menu, powerSaveBlocker, screen } from "electron";
import { openRoom } from "../broker/openRoom.ts";
import type { DoorCommand } from "../engine/records/index.ts";
import { answersOf } from "./answers.ts";
import { Awake } from "./awake.ts";
import { answerAt } from "./door/answerAt.ts";
import { commandChannel } from "./door/channels.ts";
import { dialogsOver } from "./files/dialogs.ts";
import { Writings } from "./files/writings.ts";
import { menuTemplate } from "./menu.ts";
import type { RoomReach } from "./network.ts";
import { firstPage } from "./origin.ts";
import { RoomHere } from "./roomHere.ts";
import { wallName, wallOptions, wallPage } from "./wall.ts";
import { windowOptions } from "./window.ts";

export class Book {
  readonly #preload: string;
  readonly #window: BrowserWindow;
  #wall: BrowserWindow | undefined;

  /** `preload` is the path of the preload script. */
  constructor(preload: string, reach: RoomReach) {
    this.#preload = preload;
    this.#window = new BrowserWindow(windowOptions(preload));
    this.#answer(reach);
    this.#setMenu();
    this.#window.webContents.on("did-create-window", (wall, { frameName }) => {
      if (frameName === wallName) this.#keepWall(wall);
    });
    this.#window.on("closed", () => this.closeWall());
  }

  async open(): Promise<void> {
    await this.#window.loadURL(firstPage);
  }

  /** A second start means "show me the program": the book comes forward. */
  show(): void {
    if (this.#window.isMinimized()) this.#window.restore();
    this.#window.focus();
  }

  /** How a wall opened at this moment looks: screens come and go. */
  wallOptions() {
    const ofBook = screen.getDisplayMatching(this.#window.getBounds());
    return wallOptions(this.#preload, screen.getAllDisplays(), ofBook);
  }

  async showWall(): Promise<void> {
    if (this.#wall !== undefined) return this.#wall.focus();
    const wall = new BrowserWindow(this.wallOptions());
    this.#keepWall(wall);
    await wall.loadURL(wallPage);
  }

  closeWall(): void {
    this.#wall?.close();
  }

  /** One wall: a new one takes the place of the one before. */
  #keepWall(wall: BrowserWindow): void {
    this.#wall?.close();
    this.#wall = wall;
    wall.on("closed", () => {
      if (this.#wall === wall) this.#wall = undefined;
    });
  }

  #answer(reach: RoomReach): void {
    const { webContents } = this.#window;
    const writings = new Writings();
    const awake = new Awake(powerSaveBlocker);
    const room = new RoomHere(openRoom);
    const answers = answersOf({
      dialogs: dialogsOver(this.#window, dialog),
      writings,
      awake,
      room,
      reach,
      settingsPath: join(app.getPath("userData"), "shell.json"),
      documents: app.getPath("documents"),
      now: () => new Date(),
      tell: (sentence) => console.error(sentence),
    });
    answerAt(webContents.ipc, answers);
    // A page that is gone, or begins anew, ends nothing that it began.
    const letGo = (): void => {
      awake.set(false);
      writings
        .giveUpAll()
        .catch((error: unknown) => console.error("A file that was begun could not be given up:", error));
    };
    webContents.on("render-process-gone", letGo);
    webContents.on("did-start-navigation", ({ isMainFrame, isSameDocument }) => {
      if (isMainFrame && !isSameDocument) letGo();
    });
    this.#window.on("closed", letGo);
  }

  #setMenu(): void {
    const tellPage = (command: DoorCommand): void => this.#window.webContents.send(commandChannel, command);
    const template = menuTemplate({
      platform: process.platform,
      isPackaged: app.isPackaged,
      tellPage,
      showWall: () => {
        this.showWall().catch((error: unknown) => console.error("The wall could not be opened:", error));
      },
      closeWall: () => this.closeWall(),
    });
    Menu.setApplicationMenu(Menu.buildFromTemplate(template));
  }
}
