/**
 * The whole lesson on one line, or on one for each kit: rounds with their names, takes below them, how thick the strikes
 * lie, remarks, pauses, what is looped, what is seen near to, and the cursor.
 */
import type { LessonState, RoundState } from "../../../engine/session/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import { cleared, type Ink, type Size } from "./ink.ts";
import type { LaneSeen } from "./lanes.ts";
import type { Playhead } from "./playhead.ts";
import { roundName, takeShort } from "./replayWords.ts";
import { densityOf } from "./strikes.ts";

/** Of one kit, and of each of several. */
const HEIGHTS = { one: 88, several: 76 } as const;
/** Room for who sat at which kit, where there are several. */
export const NAMES_WIDTH = 104;

const ROUND = { top: 4, height: 18 } as const;
const TAKE = { top: 24, height: 22 } as const;
const DENSITY_TOP = 48;
/** Below the strikes: the pauses, what is looped. */
const DENSITY_FOOT = 6;

/** Columns of thickness are as wide as this. */
const COLUMN_PIXELS = 2;

export interface WholePicture {
  readonly lesson: LessonState;
  readonly lanes: readonly LaneSeen[];
  /** The kit that is walked along. */
  readonly lane: number;
  readonly seconds: Seconds;
}

export function wholeHeight({ lanes }: Pick<WholePicture, "lanes">): number {
  return lanes.length * laneHeight(lanes);
}

function laneHeight({ length }: WholePicture["lanes"]): number {
  return length > 1 ? HEIGHTS.several : HEIGHTS.one;
}

/** The kit under a point of the picture. */
export function laneAtWhole(y: number, { lanes }: Pick<WholePicture, "lanes">): number {
  return Math.min(lanes.length - 1, Math.max(0, Math.floor(y / laneHeight(lanes))));
}

/** From moments to places across, and back. */
interface Across {
  readonly at: (time: Seconds) => number;
  readonly momentAt: (x: number) => Seconds;
}

export function acrossWhole(
  width: number,
  { lanes, seconds }: Pick<WholePicture, "lanes" | "seconds">,
): Across {
  const left = lanes.length > 1 ? NAMES_WIDTH : 0;
  const room = Math.max(1, width - left);
  const length = Math.max(seconds, 1e-9);
  return {
    at: (time) => left + (time / length) * room,
    momentAt: (x) => Math.min(1, Math.max(0, (x - left) / room)) * seconds,
  };
}

/** What stands still while the lesson is played: drawn once, and laid under the cursor. */
export function drawWhole(canvas: HTMLCanvasElement, size: Size, ink: Ink, picture: WholePicture): void {
  const draw = cleared(canvas, size);
  if (!draw) return;
  const { lesson, lanes, seconds } = picture;
  const { at } = acrossWhole(size.width, picture);
  const room = size.width - at(0);
  const columns = Math.max(1, Math.floor(room / COLUMN_PIXELS));
  const counts = lanes.map(({ strikes }) => densityOf(strikes, 0, seconds, columns));
  const bottom = laneHeight(lanes) - DENSITY_FOOT;
  // One scale for all kits, so that who played more is seen.
  const most = counts.flatMap((each) => [...each]).reduce((max, count) => Math.max(max, count), 1);
  for (const [index, { lane, who }] of lanes.entries()) {
    draw.save();
    draw.translate(0, index * laneHeight(lanes));
    if (lanes.length > 1) drawWho(draw, ink, { who, kit: `kit ${lane + 1}`, isHere: lane === picture.lane });
    draw.save();
    draw.translate(at(0), 0);
    drawDensity(draw, { width: room, bottom }, ink, counts[index] ?? new Uint32Array(columns), most);
    draw.restore();
    for (const pause of lesson.pauses) {
      draw.fillStyle = ink.rule;
      draw.fillRect(at(pause.from), bottom + 2, Math.max(2, at(pause.to ?? seconds) - at(pause.from)), 3);
    }
    for (const round of lesson.rounds) if (round.lane === lane) drawRound(draw, ink, round, seconds, at);
    for (const remark of lesson.remarks)
      if (remark.lane === lane) drawRemark(draw, ink, at(remark.time), bottom, remark.flagged);
    draw.restore();
  }
}

/** Who sat there; the one that is walked along has a mark of its own, and is set in bold. */
export function drawWho(
  draw: CanvasRenderingContext2D,
  ink: Ink,
  { who, kit, isHere }: { readonly who: string; readonly kit: string; readonly isHere: boolean },
): void {
  const left = 8;
  const room = NAMES_WIDTH - left - 6;
  draw.textBaseline = "middle";
  if (isHere) {
    draw.fillStyle = ink.teal;
    draw.fillRect(0, 4, 3, 38);
  }
  draw.fillStyle = ink.ink;
  draw.font = `${isHere ? 700 : 400} 14px ${ink.sans}`;
  draw.fillText(who, left, 14, room);
  draw.fillStyle = ink.soft;
  draw.font = `400 13px ${ink.sans}`;
  draw.fillText(kit, left, 33, room);
}

function drawDensity(
  draw: CanvasRenderingContext2D,
  { width, bottom }: { readonly width: number; readonly bottom: number },
  ink: Ink,
  counts: Uint32Array,
  most: number,
): void {
  const column = width / counts.length;
  draw.fillStyle = ink.soft;
  counts.forEach((count, index) => {
    if (count === 0) return;
    const height = Math.max(1.5, (count / most) * (bottom - DENSITY_TOP));
    draw.fillRect(index * column, bottom - height, Math.max(1, column - 0.5), height);
  });
  draw.fillStyle = ink.rule;
  draw.fillRect(0, bottom, width, 1);
}

function drawRound(
  draw: CanvasRenderingContext2D,
  ink: Ink,
  round: RoundState,
  seconds: Seconds,
  at: (time: Seconds) => number,
): void {
  const [left, right] = [at(round.from), at(round.to ?? seconds)];
  draw.fillStyle = ink.ink;
  draw.fillRect(left, ROUND.top + ROUND.height, Math.max(2, right - left), 1.5);
  words(draw, ink, roundName(round.round), { left, right, top: ROUND.top, height: ROUND.height });
  for (const take of round.takes) {
    const from = at(take.from);
    const to = Math.max(from + 2, at(take.to ?? seconds));
    draw.strokeStyle = ink.soft;
    draw.fillStyle = ink.paper;
    draw.lineWidth = 1;
    draw.fillRect(from, TAKE.top, to - from, TAKE.height);
    draw.strokeRect(from + 0.5, TAKE.top + 0.5, Math.max(1, to - from - 1), TAKE.height - 1);
    words(draw, ink, takeShort(take), { left: from + 3, right: to - 2, top: TAKE.top, height: TAKE.height });
  }
}

/** A name where there is room for at least some of it. */
function words(
  draw: CanvasRenderingContext2D,
  ink: Ink,
  text: string,
  box: { readonly left: number; readonly right: number; readonly top: number; readonly height: number },
): void {
  const room = box.right - box.left;
  draw.font = `400 13px ${ink.sans}`;
  if (room < 14 || draw.measureText(text).width > room) return;
  draw.fillStyle = ink.ink;
  draw.textBaseline = "middle";
  draw.fillText(text, box.left, box.top + box.height / 2 + 0.5);
}

/** A flag is filled, any other remark open: shape tells them apart. */
function drawRemark(
  draw: CanvasRenderingContext2D,
  ink: Ink,
  x: number,
  bottom: number,
  flagged: boolean,
): void {
  draw.strokeStyle = ink.ink;
  draw.lineWidth = 1.25;
  draw.beginPath();
  draw.moveTo(x, bottom);
  draw.lineTo(x, DENSITY_TOP - 2);
  draw.lineTo(x + 8, DENSITY_TOP + 2);
  draw.lineTo(x, DENSITY_TOP + 6);
  draw.fillStyle = flagged ? ink.rust : ink.sheet;
  draw.fill();
  draw.stroke();
}

/** What moves: the loop, what is seen near to, the cursor. */
export function drawOverWhole(
  canvas: HTMLCanvasElement,
  size: Size,
  ink: Ink,
  lanes: readonly LaneSeen[],
  playhead: Playhead,
): void {
  const draw = cleared(canvas, size);
  if (!draw) return;
  const { seconds, cursor, loop, view } = playhead;
  const { at } = acrossWhole(size.width, { lanes, seconds });
  if (loop)
    for (const index of lanes.keys()) {
      // Under the strikes, so that no name is washed out.
      draw.fillStyle = ink.teal;
      const top = (index + 1) * laneHeight(lanes) - DENSITY_FOOT;
      draw.fillRect(at(loop.from), top, Math.max(2, at(loop.to) - at(loop.from)), 4);
    }
  draw.strokeStyle = ink.teal;
  draw.lineWidth = 1.5;
  const left = Math.max(0.75, at(view.from));
  draw.strokeRect(
    left,
    0.75,
    Math.max(3, Math.min(size.width - 0.75, at(view.to)) - left),
    size.height - 1.5,
  );
  drawCursor(draw, ink, at(cursor), size.height);
}

export function drawCursor(draw: CanvasRenderingContext2D, ink: Ink, x: number, height: number): void {
  draw.fillStyle = ink.teal;
  draw.fillRect(x - 1, 0, 2, height);
  draw.beginPath();
  draw.moveTo(x - 6, 0);
  draw.lineTo(x + 6, 0);
  draw.lineTo(x, 8);
  draw.fill();
}
