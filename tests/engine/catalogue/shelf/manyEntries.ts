import {
  inBars,
  musicOf,
  type ShelfEntry,
  shelfEntry,
  stockEntries,
  type Written,
} from "../../../../engine/catalogue/index.ts";
import { type Groove, LEVELS, type Part } from "../../../../engine/score/index.ts";

const PLACES = ["mill", "loft", "yard", "stair", "window", "bench", "wheel", "lamp", "river", "attic"];
const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday"];
const KINDS: readonly ((music: Groove) => Written)[] = [
  (music) => ({ kind: "groove", music }),
  (music) => ({ kind: "phrase", music: { ...music, role: "answer" } }),
  (music) => ({ kind: "part", music: partOf(music) }),
];

function partOf(groove: Groove): Part {
  const passages = [{ groove, bars: 8 }];
  const { id, name, tempoBpm } = groove;
  return { id, name, sections: [{ name: "Verse", tempoBpm: tempoBpm.low, times: 1, passages }] };
}

/** A made-up studio's library: the stock's own music under many names. */
export function manyEntries(count: number): readonly ShelfEntry[] {
  const stock = stockEntries().map((entry) => ({ entry, music: inBars(musicOf(entry)) }));
  return Array.from({ length: count }, (_, index) => {
    const { entry, music } = stock[index % stock.length] ?? stock[0] ?? never();
    return shelfEntry((KINDS[index % KINDS.length] ?? never())(music), {
      id: `own/${index}`,
      name: `${entry.name} of the ${PLACES[index % 10]}, ${DAYS[index % 5]} ${index}`,
      alsoNamed: index % 7 === 0 ? [`the one from lesson ${index}`] : [],
      styleId: entry.styleId,
      level: LEVELS[index % LEVELS.length] ?? null,
      from: { kind: "imported", file: `take-${index}.mid`, bar: 1 + (index % 9) },
      madeAtMs: index,
    });
  });
}

function never(): never {
  throw new Error("The stock is empty.");
}
