import { stepsAboveBottomLine } from "../engine/score/index.ts";
import type { Difference } from "./differences.ts";
import { circle, type Drawing, rectangle } from "./drawing.ts";
import type { PlacedHead } from "./placedSymbol.ts";

const BOTTOM_LINE = 80;
const STEP = 5;
const RING = 6.5;
const DOTS: readonly [number, number] = [2, 2.2];
const FRAME = 3;

/** Draws what differs at a head: a ring, a square, or a ring with a line. */
export function drawHeadDifference(
  drawing: Drawing,
  difference: Exclude<Difference, { readonly kind: "ahead" | "behind" }>,
  head: PlacedHead,
): void {
  const x = (head.left + head.right) / 2;
  switch (difference.kind) {
    case "left-out":
      drawing.stroke(circle(x, head.y, RING), 1.8, "mark", DOTS);
      return;
    case "added": {
      const side = Math.max(head.right - head.left, 10) + 2 * FRAME;
      drawing.stroke(rectangle(x - side / 2, head.y - side / 2, side, side), 1.4, "mark");
      return;
    }
    case "other-sound": {
      const y = BOTTOM_LINE - stepsAboveBottomLine(difference.written) * STEP;
      drawing.stroke(circle(x, y, RING + 1), 1.8, "mark", DOTS);
      const way = Math.sign(y - head.y);
      const [from, to] = [head.y + way * STEP, y - way * (RING + 1)];
      if ((to - from) * way > 0) drawing.line(x, from, x, to, 1.2, "mark");
      return;
    }
  }
}

/** A wedge whose point says ahead (left) or behind (right). */
export function drawWedge(drawing: Drawing, kind: "ahead" | "behind", x: number, y: number): void {
  const way = kind === "ahead" ? -1 : 1;
  drawing.fill(
    [
      { op: "M", at: [x + way * 5, y] },
      { op: "L", at: [x - way * 4, y - 4.5] },
      { op: "L", at: [x - way * 4, y + 4.5] },
      { op: "Z", at: [] },
    ],
    "mark",
  );
}
