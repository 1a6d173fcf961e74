import { describe, expect, test } from "vitest";
import { RoomReach, shutNetwork, staysHere } from "../../electron/network.ts";

const cases: readonly (readonly [string, boolean])[] = [
  ["app://throneside/index.html", true],
  ["blob:app://throneside/6f1c3c0e", true],
  ["data:image/png;base64,AA==", true],
  ["devtools://devtools/bundled/inspector.html", true],
  ["https://example.org/", false],
  ["http://127.0.0.1:4173/", false],
  ["ws://127.0.0.1:1883/", false],
  ["wss://example.org/", false],
  ["file:///etc/passwd", false],
  ["ftp://example.org/", false],
  ["app://elsewhere/", false],
  ["https://example.org/?blob:", false],
  ["", false],
];

test.each(cases)("%s stays on this computer: %s", (address, stays) => {
  expect(staysHere(address)).toBe(stays);
});

test("everything else is stopped below the page, and no dictionaries are fetched", () => {
  type Session = Parameters<typeof shutNetwork>[0];
  const kept: { stop?: (details: { url: string }, answer: (said: { cancel?: boolean }) => void) => void } =
    {};
  const spelling: boolean[] = [];
  const session = {
    setSpellCheckerEnabled: (on: boolean) => spelling.push(on),
    webRequest: {
      onBeforeRequest: (listener: NonNullable<typeof kept.stop>) => {
        kept.stop = listener;
      },
    },
  };
  // The fake has the two functions that are used; the whole needs Electron.
  shutNetwork(session as unknown as Session, new RoomReach());
  const answers: unknown[] = [];
  for (const [url] of cases) kept.stop?.({ url }, ({ cancel }) => answers.push(cancel));
  expect(answers).toEqual(cases.map(([, stays]) => !stays));
  expect(spelling).toEqual([false]);
});

describe("the room that was joined", () => {
  const reach = new RoomReach();
  test("is reached by nobody before it is asked for", () => {
    expect(reach.leadsThere("ws://192.168.1.20:4177/")).toBe(false);
  });

  test.each([
    ["ws://192.168.1.20:4177/", true],
    ["ws://192.168.1.20:4177/mqtt", true],
    ["ws://192.168.1.20:4178/", false],
    ["wss://192.168.1.20:4177/", false],
    ["http://192.168.1.20:4177/", false],
    ["ws://192.168.1.21:4177/", false],
    ["", false],
  ])("%s: %s", (address, leads) => {
    reach.allow("ws://192.168.1.20:4177");
    expect(reach.leadsThere(address)).toBe(leads);
  });

  test("is one: the next takes its place, and what is none lets nothing through", () => {
    reach.allow("wss://broker.example/mqtt");
    expect(reach.leadsThere("ws://192.168.1.20:4177/")).toBe(false);
    expect(reach.leadsThere("wss://broker.example/mqtt")).toBe(true);
    reach.allow("https://example.org/");
    expect(reach.leadsThere("https://example.org/")).toBe(false);
  });
});
