import { expect, test } from "vitest";
import type { Call } from "../../../../engine/rounds/index.ts";
import { isEachSeated, seatsFor } from "../../../../renderer/screens/say-and-strike/seats.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";

const CALL: Call = {
  strokes: [{ time: 0, voice: "kick" }],
  text: null,
  tempoBpm: 80,
  source: "struck",
  rung: null,
  of: ["bram", "noor"],
  roles: "student-strikes",
  answers: [],
  agains: 0,
};

function kits(seats: Readonly<Record<string, KitLog>> = {}) {
  const shared = new KitLog();
  return { answering: () => shared, asking: () => shared, seatOf: (id: string) => seats[id] ?? null, shared };
}

test("each is heard at the kit they sit at", () => {
  const [first, second] = [new KitLog(), new KitLog()];
  const at = kits({ bram: first, noor: second });
  expect(isEachSeated(CALL, at)).toBe(true);
  expect([...seatsFor(CALL, "bram", at)]).toEqual([
    ["bram", first],
    ["noor", second],
  ]);
});

test("who has no kit of their own strikes at the one that answers, when it is their turn", () => {
  const first = new KitLog();
  const at = kits({ bram: first });
  expect(isEachSeated(CALL, at)).toBe(false);
  expect([...seatsFor(CALL, "noor", at)]).toEqual([
    ["bram", first],
    ["noor", at.shared],
  ]);
  expect([...seatsFor(CALL, "bram", kits())].map(([player]) => player)).toEqual(["bram"]);
});

test("a kit at which somebody is heard is nobody else's", () => {
  const at = kits();
  const own = { ...at, seatOf: (id: string) => (id === "bram" ? at.shared : null) };
  expect([...seatsFor(CALL, "noor", own)]).toEqual([["bram", at.shared]]);
});
