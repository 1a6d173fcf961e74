import { expect, test } from "vitest";
import { KitEar, type Voice } from "../../../engine/kit/index.ts";
import { KEY_OF_VOICE, type KeyPress, keyCap, keyMessage } from "../../../renderer/players/keyboardPlayer.ts";
import { SHIPPED_MAPS } from "../../../renderer/session/kitMapChoice.ts";

function press(code: string, held: Partial<KeyPress> = {}): KeyPress {
  return {
    code,
    repeat: false,
    ctrlKey: false,
    metaKey: false,
    shiftKey: false,
    altKey: false,
    timeStamp: 2500,
    ...held,
  };
}

const keys = Object.entries(KEY_OF_VOICE) as [Voice, string][];

test.each(SHIPPED_MAPS.flatMap((map) => keys.map(([voice, code]) => [map.name, voice, code, map] as const)))(
  "%s: the key of the %s is heard as that voice",
  (_, voice, code, map) => {
    const timed = keyMessage(press(code), map);
    expect(timed?.time).toBe(2.5);
    const event = timed && new KitEar(map).hear(timed.message, timed.time);
    expect(event).toMatchObject({ kind: "hit", hit: { voice, time: 2.5 } });
  },
);

const [map] = SHIPPED_MAPS;

test("Shift is an accent, Alt a ghost, neither is plain", () => {
  if (!map) throw new Error("No map is shipped.");
  const strength = (held: Partial<KeyPress>): number => {
    const message = keyMessage(press("KeyF", held), map)?.message;
    return message?.kind === "note-on" ? message.velocity : Number.NaN;
  };
  expect(strength({ altKey: true })).toBe(32);
  expect(strength({})).toBe(80);
  expect(strength({ shiftKey: true })).toBe(114);
});

test.each([
  ["a key that is no drum", press("KeyZ")],
  ["a held key", press("KeyF", { repeat: true })],
  ["a command of the browser", press("KeyF", { ctrlKey: true })],
  ["a command of the system", press("KeyF", { metaKey: true })],
])("%s is no strike", (_, pressed) => {
  if (!map) throw new Error("No map is shipped.");
  expect(keyMessage(pressed, map)).toBeUndefined();
});

test("every key plays one voice, and has a cap of one character", () => {
  const codes = keys.map(([, code]) => code);
  expect(new Set(codes).size).toBe(codes.length);
  expect(codes.map(keyCap).every((cap) => cap.length === 1)).toBe(true);
});
