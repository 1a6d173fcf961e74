import { expect, test } from "vitest";
import { CardSettings, namingHere, readCardSettings } from "../../../renderer/session/cardSettings.ts";

function place(kept?: string) {
  const items = new Map(kept === undefined ? [] : [["throneside.cards", kept]]);
  return {
    items,
    getItem: (key: string) => items.get(key) ?? null,
    setItem: (key: string, value: string) => void items.set(key, value),
  };
}

test("what is set is found again", () => {
  const here = place();
  new CardSettings(here).set({ naming: "uk", jokersInTen: 4 });
  expect(readCardSettings(here)).toMatchObject({ naming: "uk", jokersInTen: 4, cards: 12 });
});

test.each(["{", '{"version":1,"naming":"fr"}', "[]"])(
  "what is broken is said, and cards are laid as usual: %s",
  (kept) => {
    const state = readCardSettings(place(kept));
    expect(state.trouble).toMatch(/cannot be read/);
    expect(state.naming).toBe("us");
  },
);

test("a browser that keeps nothing is told of", () => {
  const settings = new CardSettings({
    getItem: () => null,
    setItem: () => {
      throw new Error("full");
    },
  });
  settings.set({ naming: "uk" });
  expect(settings.get()).toMatchObject({
    naming: "uk",
    trouble: expect.stringContaining("could not keep it"),
  });
});

test("a setting beyond its limits is refused", () => {
  expect(() => new CardSettings(place()).set({ jokersInTen: 99 })).toThrow();
});

test("lists use the names that are set here, and those of the United States where nothing is kept", () => {
  const here = place();
  expect(namingHere(here)).toBe("us");
  new CardSettings(here).set({ naming: "uk" });
  expect(namingHere(here)).toBe("uk");
  expect(namingHere(undefined)).toBe("us");
});
