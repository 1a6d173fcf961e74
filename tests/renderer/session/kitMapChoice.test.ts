import { expect, test } from "vitest";
import { KitMapError, learntMap, NEW_LEARNING, struck } from "../../../engine/kit/index.ts";
import {
  type KeepingPlace,
  KitMapStore,
  readKitMapChoice,
  SHIPPED_MAPS,
} from "../../../renderer/session/kitMapChoice.ts";

class MemoryPlace implements KeepingPlace {
  kept: string | null;
  constructor(kept: string | null = null) {
    this.kept = kept;
  }
  getItem(): string | null {
    return this.kept;
  }
  setItem(_key: string, value: string): void {
    this.kept = value;
  }
}

const [first, , wide] = SHIPPED_MAPS;

test("three maps come with the program", () => {
  expect(SHIPPED_MAPS.map(({ id }) => id)).toEqual(["general-midi-1", "general-midi-2", "wide-nine-piece"]);
});

test("the first shipped map is used where nothing is kept, without a word", () => {
  expect(readKitMapChoice(new MemoryPlace())).toEqual({ map: first });
});

test("a choice is kept and read again", () => {
  const place = new MemoryPlace();
  new KitMapStore(place).choose("wide-nine-piece");
  expect(readKitMapChoice(place)).toEqual({ map: wide });
});

test("a learnt map is used, kept, and stays in the list when another is chosen", () => {
  const place = new MemoryPlace();
  const store = new KitMapStore(place);
  const map = learntMap(struck(NEW_LEARNING, 96), "learnt here", store.get().map);
  store.learn(map);
  expect(readKitMapChoice(place).map.pads[0]).toMatchObject({ note: 96, voice: "snare" });
  store.choose("general-midi-2");
  expect(readKitMapChoice(place)).toMatchObject({ map: { id: "general-midi-2" }, learnt: { id: "learnt" } });
});

test.each([
  ["text that is no JSON", "{", "its text is damaged"],
  ["another version", '{"version":2,"chosen":"general-midi-1"}', "version"],
  ["a map there is not", '{"version":1,"chosen":"gone"}', "there is no map called gone"],
  [
    "a learnt map that breaks the schema",
    '{"version":1,"chosen":"learnt","learnt":{"id":"learnt","pads":[]}}',
    "pads",
  ],
])("%s falls back to the first map and says why", (_, kept, reason) => {
  const choice = readKitMapChoice(new MemoryPlace(kept));
  expect(choice.map).toBe(first);
  expect(choice.trouble).toContain(reason);
  expect(choice.trouble).toContain("General MIDI 1 is used instead");
});

test("a browser that keeps nothing is said so, and the choice still holds for now", () => {
  const store = new KitMapStore({
    getItem: () => null,
    setItem: () => {
      throw new Error("no room");
    },
  });
  store.choose("wide-nine-piece");
  expect(store.get().map).toBe(wide);
  expect(store.get().trouble).toContain("no room");
});

test("choosing a map there is not is an error", () => {
  expect(() => new KitMapStore(new MemoryPlace()).choose("gone")).toThrow(KitMapError);
});
