import { expect, test } from "vitest";
import { KEY_OF_VOICE } from "../../../../renderer/players/keyboardPlayer.ts";
import { LIST_KEYS } from "../../../../renderer/screens/next-time/useListKeys.ts";

test("no key of the list strikes a drum", () => {
  const drums = new Set(Object.values(KEY_OF_VOICE));
  expect(Object.keys(LIST_KEYS).length).toBeGreaterThan(3);
  for (const code of Object.keys(LIST_KEYS)) expect(drums).not.toContain(code);
});
