import { expect, test } from "vitest";
import { byItem, type ItemId, nameStanding, type Result } from "../../../engine/memory/index.ts";

const SAMBA = { name: "style-name:samba", played: "style:samba" } as const;

function result(item: ItemId, outcome: Result["outcome"], day: string): Result {
  return {
    item,
    outcome,
    studentId: "bram",
    at: `${day}T15:00:00.000Z`,
    day,
    evidence: { words: "", roundId: "r1" },
  };
}

function standing(results: readonly Result[], on: string): number | null {
  return nameStanding(byItem(results), SAMBA, on);
}

test("what was never met has no standing", () => {
  expect(standing([], "2026-03-02")).toBeNull();
  expect(standing([result("style-name:polka", "known", "2026-03-02")], "2026-03-02")).toBeNull();
});

test("a name that held fades; one that was never heard is met by now", () => {
  const held = [result("style-name:samba", "known", "2026-03-02")];
  expect(standing(held, "2026-03-02")).toBe(0);
  expect(standing(held, "2026-04-02")).toBeGreaterThan(standing(held, "2026-03-09") ?? 1);
  const fresh = [result("style-name:samba", "new", "2026-03-02")];
  expect(standing(fresh, "2026-04-02")).toBeGreaterThan(standing(held, "2026-04-02") ?? 1);
});

test("what was played only may be known by name or not", () => {
  expect(standing([result("style:samba", "known", "2026-03-02")], "2026-03-09")).toBe(0.5);
});
