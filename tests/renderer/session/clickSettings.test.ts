import { expect, test } from "vitest";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import { ClickSettings } from "../../../renderer/session/clickSettings.ts";

function newPlace(text?: string) {
  const kept = new Map<string, string>(text === undefined ? [] : [["throneside.click", text]]);
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
}

const SEVEN = { numerator: 7, denominator: 8 };

test("a plain click until it is set; then as it was set, in the next lesson, too", () => {
  const place = newPlace();
  const click = new ClickSettings(place);
  expect(click.wayIn(undefined)).toEqual({
    metre: FOUR_FOUR,
    every: 1,
    accents: [1],
    gaps: { kind: "none" },
  });
  click.set({ every: 2, gaps: { kind: "regular", sounding: 4, silent: 2 } });
  click.setAccents(SEVEN, [6, 1, 4]);
  const next = new ClickSettings(place);
  expect(next.wayIn(SEVEN)).toEqual({
    metre: SEVEN,
    every: 2,
    accents: [1, 4, 6],
    gaps: { kind: "regular", sounding: 4, silent: 2 },
  });
  expect(next.wayIn(FOUR_FOUR).accents).toEqual([1]);
  expect(next.get().trouble).toBeUndefined();
});

test("a called style brings its metre; a free choice has the one that was set", () => {
  const click = new ClickSettings(newPlace());
  click.set({ metre: { numerator: 3, denominator: 4 } });
  expect(click.wayIn(undefined).metre).toEqual({ numerator: 3, denominator: 4 });
  expect(click.wayIn(FOUR_FOUR).metre).toEqual(FOUR_FOUR);
});

test.each(["{broken", '{"version":1}', '{"version":1,"metre":{"numerator":4,"denominator":3},"every":1}'])(
  "%s is no click: it is plain, and why is said",
  (text) => {
    const click = new ClickSettings(newPlace(text));
    expect(click.wayIn(undefined).metre).toEqual(FOUR_FOUR);
    expect(click.get().trouble).toContain("It is plain again");
  },
);

test("where nothing can be kept it is set now, and that is said", () => {
  const click = new ClickSettings({
    getItem: () => null,
    setItem: () => {
      throw new DOMException("full", "QuotaExceededError");
    },
  });
  click.set({ every: 4 });
  expect(click.wayIn(undefined).every).toBe(4);
  expect(click.get().trouble).toContain("could not keep it");
});
