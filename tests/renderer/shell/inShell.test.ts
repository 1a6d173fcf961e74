import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { DoorCommand } from "../../../engine/records/index.ts";
import type { Chosen } from "../../../renderer/screens/shelf/import/chosenFiles.ts";
import { Store } from "../../../renderer/session/store.ts";
import { stayAwake } from "../../../renderer/shell/awake.ts";
import { type ShellDoor, shellDoorOf } from "../../../renderer/shell/index.ts";
import { startInShell } from "../../../renderer/shell/inShell.ts";

const page = { location: { hash: "#/desk" } };
beforeEach(() => {
  page.location.hash = "#/desk";
  vi.stubGlobal("window", page);
});
afterEach(() => void vi.unstubAllGlobals());

/** A lesson log that is on or not. */
class Log extends Store<{ began: null; isOn: boolean }, boolean> {
  constructor() {
    super({ began: null, isOn: false }, (_, isOn) => ({ began: null, isOn }));
  }
  get isOn(): boolean {
    return this.get().isOn;
  }
}

/** A shell that answers as told, and a program with what the shell uses of it. */
async function started(midi: unknown = { kind: "put-down" }, view = "browse") {
  const log = new Log();
  const awake: boolean[] = [];
  const told: unknown[] = [];
  const imported: Chosen[] = [];
  const views: string[] = [];
  let hear: (command: unknown) => void = () => undefined;
  const door = shellDoorOf({
    throneside: {
      keepAwake: async ({ on }: { on: boolean }) => {
        awake.push(on);
        return { kind: on ? "awake" : "may-sleep" };
      },
      openMidi: async () => midi,
      onCommand: (listener: typeof hear) => {
        hear = listener;
        return () => undefined;
      },
    },
  });
  if (!door) throw new Error("There is no door.");
  const shelfDesk = { get: () => ({ view: { at: view } }), import: () => views.push("import") };
  const shelfImport = { start: async (chosen: Chosen) => void imported.push(chosen) };
  const program = {
    studio: { load: async () => ({ book: { log } }) },
    lesson: { load: async () => ({ shelfDesk, shelfImport }) },
  };
  // The program has these parts and many more that the shell does not use.
  await startInShell(door, program as unknown as Parameters<typeof startInShell>[1], (error) =>
    told.push(error),
  );
  return { log, awake, told, imported, views, choose: (command: DoorCommand) => hear(command) };
}

describe("in the shell", () => {
  test("the screen stays on while a lesson is on", async () => {
    const { log, awake } = await started();
    for (const isOn of [false, true, true, false]) log.dispatch(isOn);
    expect(awake).toEqual([true, false]);
  });

  test("the menu's backups are on the Studio page", async () => {
    const { choose } = await started();
    choose("show-backups");
    expect(page.location.hash).toBe("#/studio");
  });

  test("files chosen from the menu are imported onto the Shelf; one that was not read says why", async () => {
    const bytes = new TextEncoder().encode("MThd");
    const { choose, imported, views } = await started({
      kind: "chosen",
      files: [{ path: "mine/one.mid", bytes }],
      leftOut: [{ path: "mine/two.mid", reason: "two.mid is larger than 16 MB." }],
      passedOver: 3,
    });
    choose("open-midi");
    await vi.waitFor(() => expect(imported).toHaveLength(1));
    expect(page.location.hash).toBe("#/shelf");
    expect(views).toEqual(["import"]);
    const [one, two] = imported[0]?.files ?? [];
    const file = await one?.file();
    expect([one?.path, file?.name, await file?.text()]).toEqual(["mine/one.mid", "one.mid", "MThd"]);
    await expect(two?.file()).rejects.toThrow("larger than 16 MB");
    expect(imported[0]?.passedOver).toBe(3);
  });

  test("an entry that lies open on the Shelf stays open", async () => {
    const { choose, imported, views } = await started(
      { kind: "chosen", files: [], leftOut: [], passedOver: 0 },
      "open",
    );
    choose("open-midi");
    await vi.waitFor(() => expect(imported).toHaveLength(1));
    expect(views).toEqual([]);
  });

  test("a closed dialog changes nothing", async () => {
    const { choose, imported, told } = await started({ kind: "put-down" });
    choose("open-midi");
    await new Promise((settled) => setImmediate(settled));
    expect([imported, told, page.location.hash]).toEqual([[], [], "#/desk"]);
  });

  test("what cannot be opened is told", async () => {
    const { choose, told } = await started({ kind: "failed", reason: "mine could not be opened." });
    choose("open-midi");
    await vi.waitFor(() => expect(told).toEqual([new Error("mine could not be opened.")]));
  });
});

describe("staying awake", () => {
  test("a lesson that is on already counts, and the end of it all lets the screen go dark", () => {
    const log = new Log();
    log.dispatch(true);
    const asked: boolean[] = [];
    const ask = async (on: boolean) => asked.push(on);
    const stop = stayAwake(log, ask, () => expect.unreachable());
    stop();
    expect(asked).toEqual([true, false]);
  });

  test("a shell that does not answer is told, and nothing else happens", async () => {
    const log = new Log();
    const told: unknown[] = [];
    const silent: ShellDoor["ask"] = () => Promise.reject(new Error("No shell."));
    stayAwake(
      log,
      (on) => silent("keepAwake", { on }),
      (error) => told.push(error),
    );
    log.dispatch(true);
    await vi.waitFor(() => expect(told).toEqual([new Error("No shell.")]));
  });
});
