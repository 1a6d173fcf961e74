import fc from "fast-check";
import { expect, test } from "vitest";
import type { TallyPart } from "../../../../renderer/out/print/sheet.ts";
import { tallyPages } from "../../../../renderer/out/print/tallyPages.ts";

const word = fc.string({ maxLength: 120 });
const anyPart: fc.Arbitrary<TallyPart> = fc.oneof(
  fc.record({
    kind: fc.constant("lines" as const),
    heading: fc.constantFrom("Held", "Missed"),
    lines: fc.array(fc.record({ key: word, name: word, remark: word }), { minLength: 1, maxLength: 80 }),
  }),
  fc.record({
    kind: fc.constant("table" as const),
    heading: fc.constantFrom("Look by look", "Taken for what"),
    columns: fc.constant(["look", "named"]),
    rows: fc.array(fc.tuple(word, word), { minLength: 1, maxLength: 80 }),
  }),
);

test("nothing is lost, nothing is twice, all is in its order, and no sheet but the first is empty", () => {
  fc.assert(
    fc.property(fc.array(anyPart, { maxLength: 5 }), (parts) => {
      const pages = tallyPages(parts);
      const told = (of: readonly TallyPart[]) =>
        of.flatMap((part): readonly unknown[] => (part.kind === "lines" ? part.lines : part.rows));
      expect(told(pages.flat())).toEqual(told(parts));
      expect(pages.slice(1).filter((page) => page.length === 0)).toEqual([]);
    }),
    { numRuns: 100 },
  );
});

test("what fits one sheet is on one; a hundred lines go on over others under the same heading", () => {
  const lines = (count: number): TallyPart => ({
    kind: "lines",
    heading: "Missed",
    lines: Array.from({ length: count }, (_, at) => ({
      key: String(at),
      name: "Single Flammed Mill",
      remark: "Not named.",
    })),
  });
  expect(tallyPages([lines(26)])).toHaveLength(1);
  const pages = tallyPages([lines(100)]);
  expect(pages.length).toBeGreaterThan(2);
  expect(pages.every((page) => page.every(({ heading }) => heading === "Missed"))).toBe(true);
});

test("a tally of nothing is a sheet all the same", () => {
  expect(tallyPages([])).toEqual([[]]);
});
