import { describe, expect, test } from "vitest";
import { HandPads } from "../../../renderer/session/handPads.ts";

function place(kept?: string) {
  const items = new Map(kept === undefined ? [] : [["throneside.hands", kept]]);
  return {
    items,
    getItem: (key: string) => items.get(key) ?? null,
    setItem: (key: string, value: string) => void items.set(key, value),
  };
}

test("each hand has its own pad, and both are found again", () => {
  const here = place();
  const pads = new HandPads(here);
  expect(pads.get()).toEqual({ L: null, R: null });
  expect(pads.set("L", 38)).toBe(true);
  expect(pads.set("R", 43)).toBe(true);
  expect(new HandPads(here).get()).toEqual({ L: 38, R: 43 });
});

test("the two hands never have the same pad: which of them struck could not be told", () => {
  const pads = new HandPads(place());
  pads.set("L", 38);
  expect(pads.set("R", 38)).toBe(false);
  expect(pads.get()).toEqual({ L: 38, R: null });
  // The same hand may be given its own pad again, or another one.
  expect(pads.set("L", 38)).toBe(true);
  expect(pads.set("L", 40)).toBe(true);
  expect(pads.set("R", 38)).toBe(true);
});

test("cleared, neither has one, here and when the page is opened again", () => {
  const here = place();
  const pads = new HandPads(here);
  pads.set("L", 38);
  pads.clear();
  expect(pads.get()).toEqual({ L: null, R: null });
  expect(new HandPads(here).get()).toEqual({ L: null, R: null });
});

test("who watches is told", () => {
  const pads = new HandPads(place());
  let told = 0;
  pads.subscribe(() => {
    told += 1;
  });
  pads.set("L", 38);
  pads.set("R", 38);
  expect(told).toBe(1);
});

describe("what is kept and cannot be read gives no pads", () => {
  test.each([
    ["damaged text", "{"],
    ["another version", '{"version":2,"pads":{"L":38,"R":43}}'],
    ["a note there is not", '{"version":1,"pads":{"L":128,"R":43}}'],
    ["half a note", '{"version":1,"pads":{"L":38.5,"R":43}}'],
    ["nothing at all", "null"],
  ])("%s", (_, kept) => {
    expect(new HandPads(place(kept)).get()).toEqual({ L: null, R: null });
  });

  test("a place that refuses to be read or written: they hold until the page is closed", () => {
    const refuse = (): never => {
      throw new Error("The quota has been exceeded.");
    };
    const pads = new HandPads({ getItem: refuse, setItem: refuse });
    pads.set("R", 43);
    expect(pads.get()).toEqual({ L: null, R: 43 });
  });
});
