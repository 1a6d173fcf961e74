import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { catalogueStock, hear } from "../../../engine/listening/index.ts";
import type { Groove } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);

function swingOf(groove: Groove, tempoBpm: number) {
  const hits = played(groove, {
    ...{ tempoBpm, bars: 8, leanMs: 6, spreadMs: 10, leftOut: 0.04, added: 0.03 },
    chance: seededChance(11),
  });
  const hearing = hear(hits, stock);
  if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
  return hearing.swing;
}

describe("long to short, within 0.15 of what was meant", () => {
  const swung = [
    { id: "shuffle", tempoBpm: 112, written: "triplets" },
    { id: "shuffle-3", tempoBpm: 96, written: "triplets" },
    { id: "swing", tempoBpm: 132, written: "triplets" },
    { id: "jazz-waltz", tempoBpm: 130, written: "triplets" },
    { id: "rock-eighths", tempoBpm: 92, written: "eighths" },
    { id: "rock-eighths-4", tempoBpm: 104, written: "eighths" },
  ] as const;
  test.each(swung.flatMap((one) => [1, 1.5, 2, 2.5, 3].map((ratio) => ({ ...one, ratio }))))(
    "$id at $tempoBpm, $ratio to 1",
    ({ id, tempoBpm, written, ratio }) => {
      const groove = { ...writtenGrooveOf(id), feel: { kind: "swung", ratio, written } as const };
      const heard = swingOf(groove, tempoBpm);
      expect(heard?.of).toBe("eighths");
      expect(Math.abs((heard?.ratio ?? 0) - ratio)).toBeLessThan(0.15);
    },
  );
});

describe("swung sixteenths", () => {
  test.each([
    { id: "rock-sixteenths", tempoBpm: 84, ratio: 1.5 },
    { id: "rock-sixteenths", tempoBpm: 88, ratio: 2 },
    { id: "steppers-2", tempoBpm: 76, ratio: 1.8 },
  ])("$id at $tempoBpm, $ratio to 1", ({ id, tempoBpm, ratio }) => {
    const groove = {
      ...writtenGrooveOf(id),
      feel: { kind: "swung", ratio, written: "sixteenths" } as const,
    };
    const heard = swingOf(groove, tempoBpm);
    expect(heard?.of).toBe("sixteenths");
    expect(Math.abs((heard?.ratio ?? 0) - ratio)).toBeLessThan(0.15);
  });
});

test.each([
  ["rock-eighths", 110],
  ["disco", 120],
  ["bossa-nova", 130],
  ["rock-sixteenths", 84],
  ["d-beat", 180],
  ["funk-sixteenths", 96],
  ["samba", 100],
] as const)("straight: %s at %i is within a tenth of 1", (id, tempoBpm) => {
  const heard = swingOf(writtenGrooveOf(id), tempoBpm);
  expect(Math.abs((heard?.ratio ?? 0) - 1)).toBeLessThan(0.1);
});

test.each([
  ["two-beat", 120, "hands on the beats alone"],
  ["twelve-eight-blues", 60, "a metre in threes"],
  ["bembe", 120, "a bell in threes"],
] as const)("%s at %i, %s: there is no long and short", (id, tempoBpm, _why) => {
  expect(swingOf(writtenGrooveOf(id), tempoBpm)).toBeNull();
});
