import { describe, expect, test } from "vitest";
import type { Delay, Person } from "../../../../engine/rooms/index.ts";
import { FIRST_SET } from "../../../../engine/rounds/index.ts";
import { farFormFrom, wayOf } from "../../../../renderer/screens/trading/farForm.ts";
import type { FarPlace } from "../../../../renderer/screens/trading/tradingPlace.ts";

const BRAM: Person = {
  id: "bram-0002",
  name: "Bram",
  shownName: "Bram",
  program: "0.1.0",
  role: "player",
  isHere: true,
  hasLeft: false,
  quietSeconds: 0,
  clock: { offset: 0, uncertainty: 0.01, oneWay: 0.02, worstOneWay: 0.05 },
  strikes: 0,
  lost: 0,
  heard: null,
};
/** A bar is two seconds. */
const SET = { ...FIRST_SET, kits: "far", tempoBpm: 120, groove: true } as const;

function place(delay: Delay | null, partner: Person | null = BRAM): FarPlace {
  return {
    partner,
    delayFor: () => delay,
    holdDelay: () => {},
    presence: { kind: "there", quietSeconds: 0 },
    sayForm: () => {},
    leaveForm: () => {},
    onForm: () => () => {},
    onFormLeft: () => () => {},
  };
}

test("a form begins at a bar that is counted, the other place told before, and without a groove at once", () => {
  const far = place({ kind: "half-bar", seconds: 1, distance: "city" });
  expect(farFormFrom(far, { set: SET, calls: true }, 50)).toEqual({
    kind: "begins",
    said: { set: { ...SET, groove: false }, calls: true, beginsAt: 54, delaySeconds: 1 },
  });
});

test.each([
  ["nobody is there", place(null, null), SET, /^Nobody far away is here yet/],
  ["the room was never joined", undefined, SET, /^Nobody far away is here yet/],
  ["their clock has not answered", place(null), SET, /^The clock of Bram has not answered yet/],
  [
    "the first player would give the pulse",
    place(null),
    { ...SET, time: "first-player" as const },
    /keeps the time for itself/,
  ],
  [
    "not even a bar is enough",
    place({ kind: "too-far", neededSeconds: 2.5, distance: "continent" }),
    SET,
    /Choose 96 beats a minute or fewer\.$/,
  ],
] as const)("where %s, that is said", (_, far, set, sentence) => {
  expect(farFormFrom(far, { set, calls: true }, 0)).toEqual({
    kind: "trouble",
    sentence: expect.stringMatching(sentence),
  });
});

describe("what goes out", () => {
  test.each([
    [0, true, 0, "call"],
    [1, true, 1, "call"],
    [2, true, 2, "call"],
    [1, false, 1, "answer"],
  ] as const)("%d s later there, is answered here so many bars later", (delaySeconds, calls, bars, after) => {
    expect(wayOf({ set: SET, calls, delaySeconds })).toEqual({ bars, after });
  });
});
