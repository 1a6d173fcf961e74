import { expect, test } from "vitest";
import { chartList, FIRST_SETTINGS } from "../../../../engine/rounds/index.ts";
import { namedEntry, typedName } from "../../../../renderer/screens/wall-chart/typedName.ts";

const ALL = { settings: FIRST_SETTINGS, named: [] };

test("a name is taken however it is spelt, and told when it comes again", () => {
  expect(typedName(ALL, "paradidle")).toMatchObject({ as: "named", given: "paradidle" });
  const taken = typedName(ALL, "flam tap");
  if (taken.as !== "named") throw new Error("It is on the chart.");
  expect(typedName({ ...ALL, named: [taken.entry] }, "Flam Tap")).toEqual({
    as: "repeated",
    given: "Flam Tap",
    entry: taken.entry,
  });
});

test("what may be several is asked about, among those that are on the chart now; what is none is told", () => {
  const both = ["drag-paradiddle-1", "drag-paradiddle-2"];
  const unclear = typedName(ALL, "drag paradiddle");
  expect(unclear.as === "unclear" ? new Set(unclear.perhaps) : unclear.as).toEqual(new Set(both));
  const one = typedName(
    { ...ALL, settings: { ...FIRST_SETTINGS, these: ["drag-paradiddle-2"] } },
    "drag paradiddle",
  );
  expect(one).toEqual({ as: "unclear", given: "drag paradiddle", perhaps: ["drag-paradiddle-2"] });
  expect(typedName(ALL, "cheese sandwich")).toEqual({ as: "none", given: "cheese sandwich" });
});

test("an entry of another part of the chart is told as that", () => {
  const firstTen = { settings: { ...FIRST_SETTINGS, to: 10 }, named: [] };
  const [first] = chartList(firstTen.settings);
  const last = chartList(FIRST_SETTINGS).at(-1);
  if (first === undefined || last === undefined) throw new Error("The chart is empty.");
  expect(namedEntry(firstTen, first, "")).toEqual({ as: "named", given: "", entry: first });
  expect(namedEntry(firstTen, last, "")).toEqual({ as: "elsewhere", given: "", entry: last });
  expect(namedEntry(ALL, last, "")).toMatchObject({ as: "named" });
});
