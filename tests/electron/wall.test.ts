import { describe, expect, test } from "vitest";
import { wallOptions } from "../../electron/wall.ts";

const left = { id: 1, bounds: { x: 0, y: 0, width: 1920, height: 1080 } };
const right = { id: 2, bounds: { x: 1920, y: -200, width: 2560, height: 1440 } };
const third = { id: 3, bounds: { x: 4480, y: 0, width: 1024, height: 768 } };

describe("where the wall opens", () => {
  test.each([
    ["the right one", [left, right], left, right],
    ["the left one, when the book is on the right", [left, right], right, left],
    ["the first of two others", [left, right, third], left, right],
  ])("%s", (_, screens, ofBook, expected) => {
    expect(wallOptions("/preload.cjs", screens, ofBook)).toMatchObject({
      ...expected.bounds,
      fullscreen: true,
    });
  });

  test("one screen: a window", () => {
    const options = wallOptions("/preload.cjs", [left], left);
    expect(options).toMatchObject({ width: 1280, height: 800 });
    expect(options).not.toHaveProperty("fullscreen");
    expect(options).not.toHaveProperty("x");
  });

  test("it is as shut in as the book", () => {
    expect(wallOptions("/preload.cjs", [left, right], left)).toMatchObject({
      webPreferences: { contextIsolation: true, sandbox: true, nodeIntegration: false, webSecurity: true },
    });
  });
});
