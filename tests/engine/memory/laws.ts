/** Arbitrary results and changes, for laws. */
import fc from "fast-check";
import { daysAfter, type ItemId, type ListChange, type Result } from "../../../engine/memory/index.ts";
import { OUTCOMES } from "../../../engine/session/index.ts";
import { result } from "./results.ts";

export const ITEMS: readonly ItemId[] = [
  "style:samba",
  "style:bossa-nova",
  "fill-name:own/3",
  "rudiment:flam-tap",
  "sticking:flam-tap",
  "symbol:fermata",
  "sound:floor-tom",
  "syllable:ka",
  "skill:time",
];

export const aDay = fc.integer({ min: 0, max: 400 }).map((days) => daysAfter("2026-01-05", days));
export const anItem = fc.constantFrom(...ITEMS);
export const aResult: fc.Arbitrary<Result> = fc
  .tuple(anItem, fc.constantFrom(...OUTCOMES), aDay, fc.integer({ min: 0, max: 59 }))
  .map((parts) => result(...parts));
export const someResults = fc.array(aResult, { maxLength: 60 });

const section = fc.constantFrom("refresh" as const, "new" as const);

interface Draft {
  readonly kind: ListChange["kind"];
  readonly item: ItemId;
  readonly section: "refresh" | "new";
  readonly before: ItemId | null;
  readonly back: number;
}

function changeOf({ kind, item, section, before, back }: Draft, at: number, day: string): ListChange {
  const made = {
    version: 1 as const,
    id: `change-${at}`,
    studentId: "ottilie",
    at: `${day}T18:${String(at).padStart(2, "0")}:00.000Z`,
    day,
  };
  if (kind === "added") return { ...made, kind, item, section, words: null };
  if (kind === "crossed-off") return { ...made, kind, item };
  if (kind === "moved") return { ...made, kind, item, section, before };
  return { ...made, kind, changeId: `change-${at - back}` };
}

/** Changes with ids of their own, in some order of making; an undo takes back one made before it, or nothing. */
export const someChanges: fc.Arbitrary<readonly ListChange[]> = fc
  .array(
    fc.record({
      kind: fc.constantFrom("added" as const, "crossed-off" as const, "moved" as const, "undone" as const),
      item: anItem,
      section,
      before: fc.option(anItem),
      back: fc.integer({ min: 1, max: 4 }),
      day: aDay,
    }),
    { maxLength: 12 },
  )
  .map((drafts) => {
    const days = drafts.map(({ day }) => day).sort();
    return drafts.map((draft, at) => changeOf(draft, at, days[at] ?? "2026-01-05"));
  });
