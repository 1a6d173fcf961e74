import { type KitMap, parseKitMap } from "../engine/kit/index.ts";
import generalMidi1 from "../kit-maps/general-midi-1.json" with { type: "json" };
import generalMidi2 from "../kit-maps/general-midi-2.json" with { type: "json" };
import wideNinePiece from "../kit-maps/wide-nine-piece.json" with { type: "json" };
import { UsageError } from "./usageError.ts";

export const GENERAL_MIDI = parseKitMap(generalMidi1, "general-midi-1.json");
/** The map a take is read with unless another is named: it names every key of General MIDI 1 and the edges too. */
const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");

export const KIT_MAPS: readonly KitMap[] = [
  WIDE,
  GENERAL_MIDI,
  parseKitMap(generalMidi2, "general-midi-2.json"),
];

/** The map with this id, or the wide one. @throws UsageError when there is no such map. */
export function readMap(id: string | undefined): KitMap {
  if (id === undefined) return WIDE;
  const map = KIT_MAPS.find((known) => known.id === id);
  if (!map)
    throw new UsageError(`--map ${id}: the maps are ${KIT_MAPS.map((known) => known.id).join(", ")}.`);
  return map;
}
