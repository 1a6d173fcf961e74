/**
 * Long human takes on a shelf: three windows of eight bars are the reference, a later or intervening window of
 * eight bars, at another tempo (±25 %), must find its own take. Data: development part of the Groove MIDI Dataset.
 * Twenty takes a shelf, drawn at random; many takes of the data set are the same groove by the same player, so
 * with more of them on one shelf the right answer is soon not the only right one.
 */
import { describe, expect, test } from "vitest";
import type { Hit } from "../../engine/kit/index.ts";
import { hear, shelfStock } from "../../engine/listening/index.ts";
import { type Chance, seededChance } from "../../engine/units/index.ts";
import {
  DEVELOPMENT_TAKES_ARE_HERE,
  type DevelopmentTake,
  developmentGrooves,
  stretchOf,
  strikesOfTake,
} from "./developmentTakes.ts";

const SHELVES = 5;
const TAKES_ON_A_SHELF = 20;
const WINDOW_BARS = 8;

interface LongTake {
  readonly id: string;
  readonly windows: readonly (readonly Hit[])[];
}

function windowsOf(take: DevelopmentTake): readonly (readonly Hit[])[] {
  const hits = strikesOfTake(take);
  const seconds = (WINDOW_BARS * take.beatsInBar * 60) / take.bpm;
  const count = Math.floor((hits.at(-1)?.time ?? 0) / seconds + 0.02);
  return Array.from({ length: count }, (_, index) =>
    stretchOf(hits, index * seconds - 0.05, (index + 1) * seconds - 0.05),
  );
}

function drawn<T>(from: readonly T[], count: number, chance: Chance): readonly T[] {
  return from
    .map((one) => ({ one, order: chance() }))
    .sort((a, b) => a.order - b.order)
    .slice(0, count)
    .map(({ one }) => one);
}

describe.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)("windows of long takes", () => {
  test("find their own take among twenty: ≥ 85 %", () => {
    const chance = seededChance(948);
    const long: readonly LongTake[] = developmentGrooves()
      .map((take) => ({ id: take.id, windows: windowsOf(take) }))
      .filter(({ windows }) => windows.length >= 4);
    let right = 0;
    let asked = 0;
    for (let shelfNumber = 0; shelfNumber < SHELVES; shelfNumber += 1) {
      const takes = drawn(long, TAKES_ON_A_SHELF, chance);
      // Reference windows and asked windows are disjoint: the even ones (three at most) and the odd ones.
      const shelf = shelfStock(
        takes.map(({ id, windows }) => ({
          id,
          name: id,
          takes: [0, 2, 4].flatMap((at) => (windows[at] ? [windows[at]] : [])),
        })),
      );
      for (const { id, windows } of takes) {
        const odd = windows.filter((_, index) => index % 2 === 1);
        const asking = odd[Math.floor(chance() * odd.length)] ?? [];
        const slower = 0.75 + 0.5 * chance();
        const hearing = hear(
          asking.map((hit) => ({ ...hit, time: hit.time * slower })),
          shelf,
        );
        asked += 1;
        if (hearing.kind === "heard" && hearing.candidates[0]?.id === id) right += 1;
      }
    }
    console.log(
      `${right} of ${asked} windows found their own take among ${TAKES_ON_A_SHELF} (of ${long.length} long takes).`,
    );
    expect(long.length).toBeGreaterThan(80);
    expect(right / asked).toBeGreaterThanOrEqual(0.85);
  }, 180_000);
});
