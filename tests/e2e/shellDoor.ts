/**
 * The desktop shell around a page, without Electron: the page's door leads to the shell's own answers in this process,
 * which write real files. Dialogs give what the test says.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { openRoom } from "../../broker/openRoom.ts";
import { answersOf } from "../../electron/answers.ts";
import { Awake } from "../../electron/awake.ts";
import { answerAt } from "../../electron/door/answerAt.ts";
import { channelOf } from "../../electron/door/channels.ts";
import { Writings } from "../../electron/files/writings.ts";
import { RoomReach } from "../../electron/network.ts";
import { RoomHere } from "../../electron/roomHere.ts";
import { DOOR_NAMES } from "../../engine/records/index.ts";

type Handler = (event: { senderFrame: object }, asked: unknown) => unknown;

export class ShellAround {
  readonly folder = mkdtempSync(join(tmpdir(), "throneside-around-"));
  /** What the next dialogs give: a path to save to, or paths that are opened. */
  readonly saveTo: string[] = [];
  readonly opened: string[][] = [];
  /** How many power-save blockers hold. */
  blockers = 0;
  /** Rooms are real ones, on this computer alone. */
  readonly #room = new RoomHere((wanted) => {
    this.roomsOpened += 1;
    return openRoom({ ...wanted, host: "127.0.0.1", port: 0 });
  });
  /** How often a room was opened. */
  roomsOpened = 0;
  readonly #handlers = new Map<string, Handler>();

  constructor() {
    const answers = answersOf({
      dialogs: { save: async () => this.saveTo.shift(), open: async () => this.opened.shift() },
      writings: new Writings(),
      awake: new Awake({
        start: () => {
          this.blockers += 1;
          return this.blockers;
        },
        stop: () => {
          this.blockers -= 1;
          return true;
        },
      }),
      room: this.#room,
      reach: new RoomReach(),
      settingsPath: join(this.folder, "shell.json"),
      documents: this.folder,
      now: () => new Date(),
      tell: console.error,
    });
    // It has the one function of `ipc` that is used; the whole needs Electron.
    const ipc = { handle: (channel: string, handler: Handler) => this.#handlers.set(channel, handler) };
    answerAt(ipc as unknown as Parameters<typeof answerAt>[0], answers);
  }

  /** Puts the door on every document of the page. Bytes go as text, for want of a better way between the two. */
  async around(page: Page): Promise<void> {
    await page.exposeFunction("askShell", async (channel: string, asked: string) => {
      const frame = { url: "app://throneside/", parent: null };
      const answer = await this.#handlers.get(channel)?.({ senderFrame: frame }, JSON.parse(asked, revived));
      return JSON.stringify(answer, replaced);
    });
    const channels = DOOR_NAMES.map((name) => [name, channelOf(name)] as const);
    await page.addInitScript((named) => {
      const toText = (_: string, value: unknown) =>
        value instanceof Uint8Array
          ? { base64: btoa(Array.from(value, (byte) => String.fromCharCode(byte)).join("")) }
          : value;
      const fromText = (_: string, value: unknown) =>
        value !== null && typeof value === "object" && "base64" in value
          ? Uint8Array.from(atob(String(value.base64)), (letter) => letter.charCodeAt(0))
          : value;
      const ask = (channel: string) => async (asked: unknown) =>
        JSON.parse(await Reflect.get(window, "askShell")(channel, JSON.stringify(asked, toText)), fromText);
      const heard = new Set<(command: unknown) => void>();
      const onCommand = (hear: (command: unknown) => void) => {
        heard.add(hear);
        return () => heard.delete(hear);
      };
      const functions = named.map(([name, channel]) => [name, ask(channel)] as const);
      Reflect.set(window, "throneside", { ...Object.fromEntries(functions), onCommand });
      Reflect.set(window, "chooseInMenu", (command: string) => {
        for (const hear of heard) hear(command);
      });
    }, channels);
  }

  /** Chooses an item of the menu. */
  async choose(page: Page, command: string): Promise<void> {
    await page.evaluate((chosen) => Reflect.get(window, "chooseInMenu")(chosen), command);
  }

  async close(): Promise<void> {
    await this.#room.close();
    rmSync(this.folder, { recursive: true });
  }
}

function replaced(_: string, value: unknown): unknown {
  return value instanceof Uint8Array ? { base64: Buffer.from(value).toString("base64") } : value;
}

function revived(_: string, value: unknown): unknown {
  return value !== null && typeof value === "object" && "base64" in value
    ? new Uint8Array(Buffer.from(String(value.base64), "base64"))
    : value;
}
