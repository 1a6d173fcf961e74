import { describe, expect, test } from "vitest";
import { shellDoorOf } from "../../../renderer/shell/index.ts";

/** A page of a shell whose function `name` gives `answer`. */
function doorThat(name: string, answer: unknown) {
  const door = shellDoorOf({ throneside: { [name]: async () => answer } });
  if (!door) throw new Error("There is no door.");
  return door;
}

describe("the door as the page sees it", () => {
  test("is not there in a browser", () => {
    expect(shellDoorOf({})).toBeUndefined();
  });

  test("gives an answer that is as it should be", async () => {
    expect(await doorThat("keepAwake", { kind: "awake" }).ask("keepAwake", { on: true })).toEqual({
      kind: "awake",
    });
  });

  test.each([undefined, null, {}, { kind: "asleep" }, "awake"])(
    "does not take %j for an answer",
    async (answer) => {
      await expect(doorThat("keepAwake", answer).ask("keepAwake", { on: true })).rejects.toThrow(
        'The desktop shell answered "keepAwake" in a way that is not understood',
      );
    },
  );

  test("says so when an older shell has no such function", async () => {
    await expect(doorThat("keepAwake", { kind: "awake" }).ask("backups", {})).rejects.toThrow(
      'This desktop shell has no "backups".',
    );
  });

  test("hears the commands it knows, and stops when told", () => {
    const listeners = new Set<(command: unknown) => void>();
    const onCommand = (listener: (command: unknown) => void) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    };
    const heard: string[] = [];
    const stop = shellDoorOf({ throneside: { onCommand } })?.onCommand((command) => heard.push(command));
    for (const command of ["show-backups", "format-disk", { kind: "open-midi" }, "open-midi"])
      for (const listener of listeners) listener(command);
    expect(heard).toEqual(["show-backups", "open-midi"]);
    stop?.();
    expect(listeners.size).toBe(0);
  });
});
