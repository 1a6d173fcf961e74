import { expect, test, vi } from "vitest";

const exposeInMainWorld = vi.hoisted(() => vi.fn());
vi.mock("electron", () => ({ contextBridge: { exposeInMainWorld } }));

test("the page gets one door, with exactly these functions", async () => {
  await import("../../electron/preload.ts");
  expect(exposeInMainWorld).toHaveBeenCalledTimes(1);
  const [name, door] = exposeInMainWorld.mock.calls[0] ?? [];
  expect(name).toBe("throneside");
  expect(Object.keys(door)).toEqual(["platform"]);
  expect(door.platform()).toBe(process.platform);
});
