import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { BrokenOff } from "../../../renderer/session/lessonBook.ts";
import { Store } from "../../../renderer/session/store.ts";
import { settleIn } from "../../../renderer/shell/settleIn.ts";

beforeEach(() => {
  vi.stubGlobal("window", { location: { hash: "" } });
});
afterEach(() => void vi.unstubAllGlobals());

/** A program with a lesson broken off, in a window that was in it; it writes down what is done with it. */
function windowIn(lessonId: string, page: object) {
  const done: string[] = [];
  const found = new Store<{ found: BrokenOff }, never>(
    { found: { kind: "open", lessonId: "lesson-7", at: "2026-11-26T05:00:00Z" } },
    (state) => state,
  );
  const log = { get: () => ({ began: null }), subscribe: () => () => undefined, isOn: false };
  const goOn = async () => void done.push("gone on");
  const brokenOff = { get: found.get, subscribe: found.subscribe, goOn };
  const program = {
    studio: {
      load: async () => {
        done.push("studio");
        return { book: { log }, brokenOff };
      },
    },
    lesson: { load: async () => void done.push("lesson") },
  };
  const sessionStorage = { getItem: () => lessonId, setItem: () => undefined, removeItem: () => undefined };
  const told: unknown[] = [];
  // The program and the window have these parts and many more that are not used here.
  const settled = settleIn(
    program as unknown as Parameters<typeof settleIn>[0],
    { sessionStorage, ...page } as unknown as Parameters<typeof settleIn>[1],
    (error) => told.push(error),
  );
  return { done, told, settled };
}

const shell = {
  throneside: { keepAwake: async () => ({ kind: "may-sleep" }), onCommand: () => () => undefined },
};

describe("a window that settles in", () => {
  test("goes on in the shell with the lesson it was in, once what records it is there", async () => {
    const { done, told, settled } = windowIn("lesson-7", shell);
    await settled;
    await vi.waitFor(() => expect(done.at(-1)).toBe("gone on"));
    expect(done.indexOf("lesson")).toBeLessThan(done.indexOf("gone on"));
    expect(told).toEqual([]);
  });

  test("leaves another lesson to be asked about", async () => {
    const { done, settled } = windowIn("lesson-6", shell);
    await settled;
    expect(done).not.toContain("gone on");
  });

  test("does nothing in a browser, where the user opened the page anew", async () => {
    const { done, settled } = windowIn("lesson-7", {});
    await settled;
    expect(done).toEqual([]);
  });

  test("tells what goes wrong", async () => {
    const { told, settled } = windowIn("lesson-7", { throneside: "no door" });
    await settled;
    expect(told).toHaveLength(1);
  });
});
