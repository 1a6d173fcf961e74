import { describe, expect, test } from "vitest";
import {
  ItemError,
  type ItemId,
  itemName,
  itemOf,
  memoryItemSchema,
  minutesOf,
  ROUND_NAMES,
  roundOf,
  skillOf,
} from "../../../engine/memory/index.ts";
import { ITEM_KINDS, itemIdSchema, ROUND_KINDS } from "../../../engine/session/index.ts";

test.each<[ItemId, string, string]>([
  ["style:bossa-nova", "Bossa nova", "played"],
  ["style-name:bossa-nova", "Bossa nova", "by name"],
  ["sticking:flam-tap", "Flam Tap", "the hands"],
  ["rudiment:drag-paradiddle-1", "Drag Paradiddle #1", "by name"],
  ["order:lesson-25", "Lesson 25", "its place in the chart"],
  ["rudiment:not-of-the-sheet", "Not of the sheet", "by name"],
  ["sound:floor-tom", "Floor tom", "by ear"],
  ["symbol:dotted-quarter-rest", "Dotted quarter rest", "read"],
  ["symbol:fermata", "Fermata", "read"],
  ["symbol:rhythm-triplet-on-two", "A triplet on two", "read"],
  ["skill:time", "Steady time", "while playing"],
  ["style:own/the-one-from-march", "The one from march", "played"],
])("%s is called %s, %s", (item, name, aspect) => {
  expect(itemName(item)).toEqual({ name, aspect });
});

test("the studio's own names come before those of the stock", () => {
  const own = new Map<ItemId, string>([["style:own/3", "Lesson three"]]);
  expect(itemName("style:own/3", own).name).toBe("Lesson three");
});

test.each(["samba", "recipe:pancakes", "style:", "constructor:x", ":x"])("%s is no item", (text) => {
  expect(memoryItemSchema.safeParse(text).success).toBe(false);
  expect(() => itemOf(text as ItemId)).toThrow(ItemError);
});

describe.each(ITEM_KINDS)("every kind the log knows: %s", (kind) => {
  test("memory knows it too, with a round of a round's length and a skill", () => {
    const item = `${kind}:x` as const;
    expect(memoryItemSchema.parse(itemIdSchema.parse(item))).toBe(item);
    expect(ROUND_KINDS).toContain(roundOf(item));
    expect(minutesOf(item)).toBeGreaterThan(0);
    expect(skillOf(item)).not.toBeNull();
  });
});

test("the teacher's own words are asked in no round and belong to no skill", () => {
  expect([roundOf("own:a"), skillOf("own:a"), skillOf("skill:nonsense")]).toEqual([null, null, null]);
  expect(skillOf("skill:time")).toBe("time");
});

test("every round has a name", () => {
  expect(Object.keys(ROUND_NAMES)).toEqual([...ROUND_KINDS]);
});
