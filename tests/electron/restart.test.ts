import { describe, expect, test, vi } from "vitest";
import { restartAfterCrash, type StoppedPage } from "../../electron/restart.ts";
import { FakeContents } from "./fakeElectron.ts";

/** A page at `address`, a clock, and a user who answers `again` to every question. */
function watchedPage(address: string, again = true) {
  const contents = new FakeContents();
  contents.address = address;
  const clock = { nowMs: 0 };
  const asked: StoppedPage[] = [];
  const told: string[] = [];
  // The fake has the functions that are used; the whole needs Electron.
  restartAfterCrash(contents as unknown as Parameters<typeof restartAfterCrash>[0], {
    nowMs: () => clock.nowMs,
    ask: async (why) => {
      asked.push(why);
      return again;
    },
    tell: (sentence) => told.push(sentence),
  });
  const crash = (reason = "crashed") =>
    contents.emit("render-process-gone", {}, { reason, exitCode: reason === "clean-exit" ? 0 : 5 });
  return { contents, clock, asked, told, crash };
}

const lesson = "app://throneside/index.html#/call-a-style?lesson=7";

describe("a page that crashes", () => {
  test.each(["crashed", "oom", "killed", "abnormal-exit", "launch-failed", "integrity-failure"])(
    "(%s) is opened where it was",
    async (reason) => {
      const { contents, crash, told } = watchedPage(lesson);
      crash(reason);
      await vi.waitFor(() => expect(contents.loaded).toEqual([lesson]));
      expect(told).toEqual([`The page stopped (${reason}, code 5) and is opened again.`]);
    },
  );

  test("that was closed is left closed", () => {
    const { contents, crash, told } = watchedPage(lesson);
    crash("clean-exit");
    expect([contents.loaded, told]).toEqual([[], []]);
  });

  test.each(["", "about:blank", "https://example.org/#/lesson"])(
    "at %j, which is no page of ours, opens the first page",
    async (address) => {
      const { contents, crash } = watchedPage(address);
      crash();
      await vi.waitFor(() => expect(contents.loaded).toEqual(["app://throneside/"]));
    },
  );

  test("a fourth time within a minute asks first; a no leaves it", async () => {
    const { contents, crash, asked } = watchedPage(lesson, false);
    for (let time = 0; time < 4; time++) crash();
    await vi.waitFor(() => expect(asked).toEqual(["crashes again and again"]));
    expect(contents.loaded).toHaveLength(3);
  });

  test("and a yes begins the count anew", async () => {
    const { contents, crash, asked } = watchedPage(lesson, true);
    for (let time = 0; time < 4; time++) crash();
    await vi.waitFor(() => expect(contents.loaded).toHaveLength(4));
    crash();
    await vi.waitFor(() => expect(contents.loaded).toHaveLength(5));
    expect(asked).toHaveLength(1);
  });

  test("now and then over a long day never asks", async () => {
    const { contents, crash, clock, asked } = watchedPage(lesson);
    for (let time = 0; time < 20; time++) {
      crash();
      clock.nowMs += 30_000;
    }
    await vi.waitFor(() => expect(contents.loaded).toHaveLength(20));
    expect(asked).toEqual([]);
  });

  test("and cannot be opened again is told", async () => {
    const { contents, crash, told } = watchedPage("about:blank");
    contents.loadURL = async () => {
      throw new Error("gone");
    };
    crash();
    await vi.waitFor(() => expect(told.at(-1)).toBe("The page could not be opened again:"));
  });
});

describe("a page that does not answer", () => {
  test("is opened again if that is wanted", async () => {
    const { contents, asked } = watchedPage(lesson, true);
    contents.emit("unresponsive");
    await vi.waitFor(() => expect(contents.loaded).toEqual([lesson]));
    expect([contents.crashes, asked]).toEqual([1, ["does not answer"]]);
  });

  test("else it is waited for", async () => {
    const { contents, asked } = watchedPage(lesson, false);
    contents.emit("unresponsive");
    await vi.waitFor(() => expect(asked).toHaveLength(1));
    expect(contents.crashes).toBe(0);
  });
});
