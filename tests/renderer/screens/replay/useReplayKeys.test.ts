import { expect, test } from "vitest";
import { KEY_OF_VOICE } from "../../../../renderer/players/keyboardPlayer.ts";
import { actionOf } from "../../../../renderer/screens/replay/useReplayKeys.ts";

const press = (key: string, code: string, shiftKey = false) => ({ key, code, shiftKey });

test.each([
  [press(" ", "Space"), "toggle"],
  [press("ArrowLeft", "ArrowLeft"), "second-back"],
  [press("ArrowRight", "ArrowRight", true), "strike-on"],
  [press("ArrowUp", "ArrowUp", true), "kit-back"],
  [press("ArrowDown", "ArrowDown", true), "kit-on"],
  // Alone it scrolls the page.
  [press("ArrowDown", "ArrowDown"), undefined],
  [press("PageUp", "PageUp"), "take-back"],
  [press("Home", "Home"), "home"],
  [press("End", "End"), "end"],
  [press("[", "BracketLeft"), "loop-from"],
  // On a German board the bracket stands on the eight.
  [press("]", "Digit9"), "loop-to"],
  [press("=", "Equal"), "nearer"],
  [press("+", "Equal", true), "nearer"],
  [press("-", "Minus"), "further"],
  [press("m", "KeyM"), "remark"],
  [press("M", "KeyM", true), undefined],
  [press("q", "KeyQ"), undefined],
] as const)("%j means %s", (event, action) => {
  expect(actionOf(event)).toBe(action);
});

test("no letter of Replay plays the kit", () => {
  const letters = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].map((letter) => `Key${letter}`);
  const used = letters.filter((code) => actionOf(press("", code)) !== undefined);
  expect(used).toEqual(["KeyB", "KeyC", "KeyM", "KeyN", "KeyW", "KeyX", "KeyZ"]);
  const playing: readonly string[] = Object.values(KEY_OF_VOICE);
  expect(playing.length).toBeGreaterThan(10);
  expect(used.filter((code) => playing.includes(code))).toEqual([]);
});
