/** The signs over and under the notes of one staff of a system: each note's stack grows outwards from its stem. */
import type { StaffTuplet } from "../engine/score/index.ts";
import type { Difference } from "./differences.ts";
import { drawHeadDifference, drawWedge } from "./drawDifference.ts";
import { circle, type Drawing } from "./drawing.ts";
import { extentOf } from "./glyphs.ts";
import type { PlacedSymbol } from "./placedSymbol.ts";

const TOP_LINE = 40;
const BOTTOM_LINE = 80;
const MUSIC_SIZE = 40;
const STICKING_SIZE = 14;
const OPEN_RADIUS = 3.6;
const ACCENT = { above: "\ue4a0", below: "\ue4a1" };
const BUZZ = "\ue22a";
const GAP = 4;
const WEDGE = 9;
const NEIGHBOURS = 26;

/** How far out the next sign of each symbol goes: over the hands, under the feet. */
class Stacks {
  readonly #edge = new Map<PlacedSymbol, number>();

  /** Takes `height` beyond what is there and the staff, and gives the y of its near edge. */
  take(symbol: PlacedSymbol, height: number): number {
    const near = this.edge(symbol) + outwards(symbol) * GAP;
    this.#edge.set(symbol, near + outwards(symbol) * height);
    return near;
  }

  edge(symbol: PlacedSymbol): number {
    const start =
      symbol.part === "hands" ? Math.min(symbol.top, TOP_LINE) : Math.max(symbol.bottom, BOTTOM_LINE);
    return this.#edge.get(symbol) ?? start;
  }

  /** Takes the room of several symbols up to `far`. */
  takeAll(symbols: readonly PlacedSymbol[], far: number): void {
    for (const symbol of symbols) this.#edge.set(symbol, far);
  }
}

/** −1 for the hands, whose signs go up; 1 for the feet. */
function outwards({ part }: PlacedSymbol): 1 | -1 {
  return part === "hands" ? -1 : 1;
}

/** Draws open hi-hats, accents, tuplets, stickings and differences of all symbols of a staff. */
export function drawMarks(
  drawing: Drawing,
  symbols: readonly PlacedSymbol[],
  differences: ReadonlyMap<number, Difference>,
): void {
  const stacks = new Stacks();
  for (const symbol of symbols) {
    drawOpen(drawing, symbol, stacks);
    drawAccent(drawing, symbol, stacks);
    drawBuzz(drawing, symbol);
  }
  for (const symbol of symbols) {
    for (const tuplet of symbol.written.tuplets) {
      if (tuplet.first === symbol.place)
        drawTuplet(drawing, tuplet, notesOf(tuplet, symbol, symbols), stacks);
    }
  }
  for (const symbol of symbols) drawDifferences(drawing, symbol, differences, stacks);
  drawStickings(drawing, symbols, stacks);
}

function middleOf({ heads, left, right }: PlacedSymbol): number {
  // A second beside the stem does not move the signs.
  const lefts = heads.map((head) => head.left);
  const [first] = heads;
  return first ? (Math.min(...lefts) + Math.min(...heads.map((head) => head.right))) / 2 : (left + right) / 2;
}

function drawOpen(drawing: Drawing, symbol: PlacedSymbol, stacks: Stacks): void {
  if (symbol.symbol.kind === "rest") return;
  if (!symbol.symbol.heads.some(({ place }) => place.open)) return;
  const near = stacks.take(symbol, 2 * OPEN_RADIUS);
  drawing.stroke(circle(middleOf(symbol), near + outwards(symbol) * OPEN_RADIUS, OPEN_RADIUS), 1.2);
}

function drawAccent(drawing: Drawing, symbol: PlacedSymbol, stacks: Stacks): void {
  if (symbol.symbol.kind === "rest" || !symbol.symbol.accent) return;
  const sign = symbol.part === "hands" ? ACCENT.above : ACCENT.below;
  const { width, top, bottom } = extentOf(sign);
  const height = (top - bottom) * MUSIC_SIZE;
  const near = stacks.take(symbol, height);
  const y = symbol.part === "hands" ? near + bottom * MUSIC_SIZE : near + top * MUSIC_SIZE;
  drawing.letter(sign, middleOf(symbol) - (width * MUSIC_SIZE) / 2, y, MUSIC_SIZE);
}

function notesOf(
  tuplet: StaffTuplet,
  { written, bar }: PlacedSymbol,
  symbols: readonly PlacedSymbol[],
): readonly PlacedSymbol[] {
  return symbols.filter(
    (symbol) =>
      symbol.written === written &&
      symbol.bar === bar &&
      symbol.place >= tuplet.first &&
      symbol.place <= tuplet.last,
  );
}

/** The number over a beam that joins just its notes; else in a bracket from first to last. */
function drawTuplet(
  drawing: Drawing,
  { actual, first, last }: StaffTuplet,
  notes: readonly PlacedSymbol[],
  stacks: Stacks,
): void {
  const [from, to] = [notes[0], notes.at(-1)];
  if (!from || !to) return;
  const out = outwards(from);
  const beamed = from.written.beams.some((beam) => beam.first === first && beam.last === last);
  const middle = (from.left + to.right) / 2;
  // A number over a beam has only its neighbours to clear; a bracket has all the notes.
  const near = beamed ? notes.filter((note) => Math.abs(middleOf(note) - middle) < NEIGHBOURS) : [];
  const furthest = (near.length > 0 ? near : notes)
    .map((note) => stacks.edge(note))
    .reduce((a, b) => (out < 0 ? Math.min(a, b) : Math.max(a, b)));
  const number = [...String(actual)].map((digit) => String.fromCodePoint(0xe880 + Number(digit))).join("");
  const { width, top } = extentOf(number);
  const height = top * MUSIC_SIZE * 0.9;
  const edge = furthest + out * GAP;
  const half = (width * MUSIC_SIZE * 0.9) / 2;
  drawing.letter(number, middle - half, out < 0 ? edge : edge + height, MUSIC_SIZE * 0.9);
  if (!beamed) {
    const y = edge + (out * height) / 2;
    const hook = -out * 6;
    for (const [a, b, end] of [
      [from.left - 1, middle - half - 4, from.left - 1],
      [middle + half + 4, to.right + 1, to.right + 1],
    ] as const) {
      if (b > a) drawing.line(a, y, b, y, 1.1);
      drawing.line(end, y, end, y + hook, 1.1);
    }
  }
  stacks.takeAll(notes, edge + out * height);
}

function drawDifferences(
  drawing: Drawing,
  symbol: PlacedSymbol,
  differences: ReadonlyMap<number, Difference>,
  stacks: Stacks,
): void {
  const wedges = new Set<"ahead" | "behind">();
  for (const head of symbol.heads) {
    const difference = differences.get(head.index);
    if (!difference) continue;
    if (difference.kind === "ahead" || difference.kind === "behind") wedges.add(difference.kind);
    else drawHeadDifference(drawing, difference, head);
  }
  // Strokes struck together that are off alike are told once.
  for (const kind of wedges) {
    const near = stacks.take(symbol, WEDGE);
    drawWedge(drawing, kind, middleOf(symbol), near + (outwards(symbol) * WEDGE) / 2);
  }
}

/** Hands in one row under the staff, where nothing of the system reaches; those of grace strokes small before them. */
function drawStickings(drawing: Drawing, symbols: readonly PlacedSymbol[], stacks: Stacks): void {
  const named = symbols.flatMap((placed) => {
    if (placed.symbol.kind === "rest") return [];
    const hands = placed.symbol.heads.flatMap(({ note }) => note.hand ?? []);
    const [note] = placed.symbol.heads.flatMap((head) => (head.note.ornament ? [head.note] : []));
    const graces = note?.hand ? gracesOf(note.hand, note.ornament === "drag" ? 2 : 1) : "";
    return hands.length > 0 ? [{ placed, graces, hands: [...new Set(hands)].sort().reverse() }] : [];
  });
  if (named.length === 0) return;
  const lowest = Math.max(
    BOTTOM_LINE,
    ...symbols.map((symbol) => (symbol.part === "feet" ? stacks.edge(symbol) : symbol.bottom)),
  );
  const row = lowest + 8 + STICKING_SIZE * 0.75;
  const widthOf = (text: string): number => extentOf(text).width * STICKING_SIZE;
  for (const { placed, graces, hands } of named) {
    const text = hands.join("");
    const left = middleOf(placed) - widthOf(text) / 2;
    drawing.letter(graces + text, left - widthOf(graces), row, STICKING_SIZE);
  }
}

/** Grace strokes are by the other hand than their main stroke. */
function gracesOf(hand: "R" | "L", count: number): string {
  return (hand === "R" ? "l" : "r").repeat(count);
}

/** A buzz: a z on the stem, halfway between its head and its end. */
function drawBuzz(drawing: Drawing, { symbol, heads, part, top, bottom }: PlacedSymbol): void {
  if (symbol.kind === "rest" || !symbol.heads.some(({ note }) => note.bounced)) return;
  const [head] = heads;
  if (!head) return;
  const { width } = extentOf(BUZZ);
  const isUp = part === "hands";
  const stem = isUp ? head.right : head.left;
  drawing.letter(BUZZ, stem - (width * MUSIC_SIZE) / 2, (head.y + (isUp ? top : bottom)) / 2, MUSIC_SIZE);
}
