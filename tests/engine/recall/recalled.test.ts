import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { namedInOrder, recallCurve } from "../../../engine/recall/index.ts";

const LIST = ["a", "b", "c", "d", "e", "f"];
const someNames = fc.array(fc.constantFrom(...LIST), { maxLength: 12 });

describe("looks", () => {
  test("what a second look gained and what was gone after it", () => {
    expect(recallCurve([{ named: ["a", "b", "a"] }, { named: ["b", "c", "d"] }, { named: [] }])).toEqual([
      { count: 2, gained: ["a", "b"], gone: [], soFar: 2 },
      { count: 3, gained: ["c", "d"], gone: ["a"], soFar: 4 },
      { count: 0, gained: [], gone: ["b", "c", "d"], soFar: 4 },
    ]);
  });

  test("what was ever named only grows, by what was gained", () => {
    fc.assert(
      fc.property(fc.array(someNames.map((named) => ({ named }))), (looks) => {
        let sum = 0;
        for (const { gained, soFar, count } of recallCurve(looks)) {
          sum += gained.length;
          expect(soFar).toBe(sum);
          expect(count).toBeGreaterThanOrEqual(gained.length);
        }
      }),
    );
  });
});

describe("order", () => {
  test.each([
    ["abcdef", "abcdef", "", ""],
    ["acbdef", "abdef", "c at 2 for 3", ""],
    ["fabcde", "abcde", "f at 1 for 6", ""],
    ["bcdefa", "bcdef", "a at 6 for 1", ""],
    ["abef", "abef", "", "cd"],
    ["aabxc", "abc", "", "def"],
    ["", "", "", "abcdef"],
  ])("%s", (named, inOrder, moved, leftOut) => {
    const found = namedInOrder([...named], LIST);
    expect({
      inOrder: found.inOrder.join(""),
      moved: found.moved.map(({ id, at, belongsAt }) => `${id} at ${at} for ${belongsAt}`).join(", "),
      leftOut: found.leftOut.join(""),
    }).toEqual({ inOrder, moved, leftOut });
  });

  test("every name of the list is in order, moved or left out, and what is in order rises", () => {
    fc.assert(
      fc.property(someNames, (named) => {
        const { inOrder, moved, leftOut } = namedInOrder(named, LIST);
        expect([...inOrder, ...moved.map(({ id }) => id), ...leftOut].sort()).toEqual(LIST);
        expect([...inOrder]).toEqual(LIST.filter((id) => inOrder.includes(id)));
      }),
    );
  });
});
