import { FILLS } from "../fills.ts";
import { STYLES } from "../styles.ts";
import { type ShelfEntry, shelfEntry } from "./entry.ts";

const OF_STOCK = { from: { kind: "catalogue" }, madeAtMs: 0 } as const;

/** The program's own stock as entries: read only, copied to be changed. A style's ways stand beside one another. */
export function stockEntries(): readonly ShelfEntry[] {
  const grooves = STYLES.flatMap((style) =>
    style.variants.map((music, index) =>
      shelfEntry(
        { kind: "groove", music },
        {
          ...OF_STOCK,
          id: `style/${music.id}`,
          name: index === 0 ? style.name : `${style.name}, way ${index + 1}`,
          styleId: style.id,
        },
      ),
    ),
  );
  const fills = FILLS.map((music) =>
    shelfEntry({ kind: "fill", music }, { ...OF_STOCK, id: `fill/${music.id}`, name: music.name }),
  );
  return [...grooves, ...fills];
}
