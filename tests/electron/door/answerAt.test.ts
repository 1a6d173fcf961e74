import { describe, expect, test } from "vitest";
import { type Answers, answerAt, mayAsk } from "../../../electron/door/answerAt.ts";
import { channelOf } from "../../../electron/door/channels.ts";
import { DOOR_NAMES, MOST_BYTES_AT_ONCE } from "../../../engine/records/index.ts";
import { FakeContents } from "../fakeElectron.ts";

const own = { url: "app://throneside/#/kit", parent: null };
const id = "6f1c3c0e-3b52-4c5e-9f57-0d6d5b8b4a11";

/** Answers that write down what they are asked. */
function fakeAnswers(change: Partial<Answers> = {}) {
  const asked: unknown[] = [];
  const answers: Answers = {
    openMidi: async () => ({ kind: "put-down" }),
    beginWriting: async () => ({ kind: "put-down" }),
    addToWriting: async (question) => {
      asked.push(question);
      return { kind: "added" };
    },
    endWriting: async () => ({ kind: "failed", reason: "No." }),
    giveUpWriting: async () => ({ kind: "given-up" }),
    backups: async () => ({ kind: "no-folder" }),
    chooseBackupFolder: async () => ({ kind: "put-down" }),
    readBackup: async (question) => {
      asked.push(question);
      return { kind: "no-folder" };
    },
    keepAwake: async (question) => {
      asked.push(question);
      return { kind: "awake" };
    },
    openRoom: async () => ({ kind: "failed", reason: "No." }),
    closeRoom: async () => ({ kind: "closed" }),
    reachRoom: async (question) => {
      asked.push(question);
      return { kind: "may-reach" };
    },
    ...change,
  };
  const contents = new FakeContents();
  // The fake has the one function of `ipc` that is used; the whole needs Electron.
  answerAt(contents.ipc as unknown as Parameters<typeof answerAt>[0], answers);
  return { contents, asked };
}

describe("who may ask", () => {
  test.each([
    ["the program's page", own, true],
    ["a page elsewhere", { url: "https://example.org/", parent: null }, false],
    ["a file", { url: "file:///etc/passwd", parent: null }, false],
    ["an empty page", { url: "about:blank", parent: null }, false],
    ["a frame inside the program's page", { url: own.url, parent: {} }, false],
    ["a page that is gone", null, false],
  ])("%s: %s", async (_, frame, may) => {
    expect(mayAsk(frame)).toBe(may);
    const { contents, asked } = fakeAnswers();
    const answer = contents.ask(channelOf("keepAwake"), { on: true }, frame);
    if (may) expect(await answer).toEqual({ kind: "awake" });
    else await expect(answer).rejects.toThrow("not the program’s");
    expect(asked).toHaveLength(may ? 1 : 0);
  });
});

describe("what may be asked", () => {
  test("exactly the functions of the door", () => {
    expect([...fakeAnswers().contents.handlers.keys()]).toEqual(DOOR_NAMES.map(channelOf));
  });

  test.each([
    ["keepAwake", undefined],
    ["keepAwake", { on: "yes" }],
    ["addToWriting", { id: "../../secret", bytes: new Uint8Array(1) }],
    ["addToWriting", { id, bytes: "text" }],
    ["addToWriting", { id, bytes: new Uint8Array(MOST_BYTES_AT_ONCE + 1) }],
    ["readBackup", { name: "throneside-000001-2026-11-26.zip", fromByte: -1, bytes: 1 }],
    ["readBackup", { name: "throneside-000001-2026-11-26.zip", fromByte: 0, bytes: 2 ** 40 }],
  ] as const)("%s with %j is not answered", async (name, question) => {
    const { contents, asked } = fakeAnswers();
    await expect(contents.ask(channelOf(name), question, own)).rejects.toThrow(
      `${name} was asked in a way that is not understood`,
    );
    expect(asked).toEqual([]);
  });

  test.each([
    { place: "chosen", name: "a.mid", kindName: "MIDI file", ending: "../x" },
    { place: "chosen", path: "/etc/passwd" },
    { place: "/etc" },
  ])("no file is begun for %j", async (question) => {
    const answer = fakeAnswers().contents.ask(channelOf("beginWriting"), question, own);
    await expect(answer).rejects.toThrow("beginWriting was asked in a way that is not understood");
  });

  test("what a question says beyond what it may say is not passed on", async () => {
    const { contents, asked } = fakeAnswers();
    await contents.ask(channelOf("keepAwake"), { on: true, path: "/etc/passwd" }, own);
    expect(asked).toEqual([{ on: true }]);
  });
});

test("an answer that is not what was promised does not leave", async () => {
  const { contents } = fakeAnswers({
    // What the type forbids, a fault could still bring about.
    keepAwake: async () => ({ kind: "asleep" }) as unknown as { kind: "awake" },
  });
  await expect(contents.ask(channelOf("keepAwake"), { on: true }, own)).rejects.toThrow("awake");
});
