import { describe, expect, test } from "vitest";
import type { BrokenOff } from "../../../renderer/session/lessonBook.ts";
import { Store } from "../../../renderer/session/store.ts";
import { stayInLesson } from "../../../renderer/shell/sameLesson.ts";

/** What a window keeps as long as it is there. */
class Memory {
  readonly kept = new Map<string, string>();
  getItem(key: string): string | null {
    return this.kept.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.kept.set(key, value);
  }
  removeItem(key: string): void {
    this.kept.delete(key);
  }
}

/** A program as it was just opened in a window: no lesson is on, and what is broken off is not known yet. */
function openedIn(memory: Memory) {
  const log = new Store<
    { began: { lessonId: string } | null; isOn: boolean },
    { began: string; isOn: boolean }
  >({ began: null, isOn: false }, (_, { began, isOn }) => ({ began: { lessonId: began }, isOn }));
  const book = {
    log: {
      get: log.get,
      subscribe: log.subscribe,
      get isOn() {
        return log.get().isOn;
      },
    },
  };
  const went: string[] = [];
  const found = new Store<{ found: BrokenOff }, BrokenOff>({ found: { kind: "none" } }, (_, next) => ({
    found: next,
  }));
  const goOn = async () => {
    const { found: broken } = found.get();
    if (broken.kind === "open") went.push(broken.lessonId);
  };
  const stop = stayInLesson(book, { get: found.get, subscribe: found.subscribe, goOn }, memory);
  return {
    went,
    stop,
    begin: (lessonId: string) => log.dispatch({ began: lessonId, isOn: true }),
    end: (lessonId: string) => log.dispatch({ began: lessonId, isOn: false }),
    find: (lessonId: string) => found.dispatch({ kind: "open", lessonId, at: "2026-11-26T05:00:00Z" }),
  };
}

describe("a page that is opened again", () => {
  test("in the middle of a lesson goes on with it, once", () => {
    const memory = new Memory();
    openedIn(memory).begin("lesson-7");
    const again = openedIn(memory);
    again.find("lesson-7");
    again.find("lesson-7");
    expect(again.went).toEqual(["lesson-7"]);
  });

  test("after the lesson was ended does not", () => {
    const memory = new Memory();
    const first = openedIn(memory);
    first.begin("lesson-7");
    first.end("lesson-7");
    const again = openedIn(memory);
    again.find("lesson-7");
    expect(again.went).toEqual([]);
  });

  test("with another lesson broken off leaves that to be asked about", () => {
    const memory = new Memory();
    openedIn(memory).begin("lesson-7");
    const again = openedIn(memory);
    again.find("lesson-6");
    expect(again.went).toEqual([]);
  });

  test("in a new window, which was in no lesson, asks", () => {
    openedIn(new Memory()).begin("lesson-7");
    const fresh = openedIn(new Memory());
    fresh.find("lesson-7");
    expect(fresh.went).toEqual([]);
  });

  test("stops when told", () => {
    const memory = new Memory();
    const first = openedIn(memory);
    first.stop();
    first.begin("lesson-7");
    expect(memory.kept.size).toBe(0);
  });
});
