import { EventEmitter } from "node:events";
import { beforeAll, describe, expect, test, vi } from "vitest";
import type { Door } from "../../electron/door/door.ts";
import { DOOR_NAMES } from "../../engine/records/index.ts";

const { exposeInMainWorld, ipcRenderer, invoked } = await vi.hoisted(async () => {
  const { EventEmitter } = await import("node:events");
  const invoked: unknown[][] = [];
  const invoke = async (...question: unknown[]) => {
    invoked.push(question);
    return "answer";
  };
  return { exposeInMainWorld: vi.fn(), invoked, ipcRenderer: Object.assign(new EventEmitter(), { invoke }) };
});
vi.mock("electron", () => ({ contextBridge: { exposeInMainWorld }, ipcRenderer }));

let door: Door;
beforeAll(async () => {
  await import("../../electron/preload.ts");
  door = exposeInMainWorld.mock.calls[0]?.[1];
});

describe("the page gets one door", () => {
  test("with exactly these functions, and nothing of Electron", () => {
    expect(exposeInMainWorld.mock.calls.map(([name]) => name)).toEqual(["throneside"]);
    expect(Object.keys(door).sort()).toEqual([...DOOR_NAMES, "onCommand", "platform"].sort());
    for (const each of Object.values(door)) expect(each).toBeTypeOf("function");
    expect(door.platform()).toBe(process.platform);
  });

  test.each(DOOR_NAMES)("%s carries one question over its own channel, and nothing more", async (name) => {
    invoked.length = 0;
    const more: readonly unknown[] = ["more"];
    expect(await Reflect.apply(door[name], undefined, [{ on: true }, ...more])).toBe("answer");
    expect(invoked).toEqual([[`throneside:${name}`, { on: true }]]);
  });

  test("a command comes without the event that brought it, until the page has heard enough", () => {
    const heard: unknown[][] = [];
    const stop = door.onCommand((...all) => heard.push(all));
    ipcRenderer.emit("throneside:command", { sender: "an object of Electron" }, "show-backups");
    stop();
    ipcRenderer.emit("throneside:command", {}, "open-midi");
    expect(heard).toEqual([["show-backups"]]);
    expect(EventEmitter.listenerCount(ipcRenderer, "throneside:command")).toBe(0);
  });
});
