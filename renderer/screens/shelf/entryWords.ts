/** What an entry is, in words. */
import { kindName, type ShelfEntry, styleById } from "../../../engine/catalogue/index.ts";
import { levelName, metreName } from "../../../engine/score/index.ts";

/** "80 to 120 a minute". */
export function tempoWords({ low, high }: ShelfEntry["tempoBpm"]): string {
  return low === high ? `${low} a minute` : `${low} to ${high} a minute`;
}

/** "1 bar", "12 bars". */
export function barsWords(bars: number): string {
  return bars === 1 ? "1 bar" : `${bars} bars`;
}

/** Where it came from: "imported from lesson.mid, bar 3". */
export function fromWords(from: ShelfEntry["from"]): string {
  switch (from.kind) {
    case "catalogue":
      return "of the program’s own stock";
    case "written":
      return "written here";
    case "recorded":
      return "played here";
    case "imported":
      return `imported from ${from.file}, bar ${from.bar}`;
    case "copied":
      return `copied from ${from.name}`;
  }
}

/** All that a list says of it, in one line. */
export function entryLine(entry: ShelfEntry): string {
  const style = entry.styleId === null ? undefined : styleById(entry.styleId)?.name;
  return [
    entry.name,
    ...entry.alsoNamed,
    kindName(entry.kind),
    metreName(entry.metre),
    tempoWords(entry.tempoBpm),
    ...(entry.level === null ? [] : [levelName(entry.level)]),
    ...(style === undefined || style === entry.name ? [] : [style]),
  ].join(", ");
}
