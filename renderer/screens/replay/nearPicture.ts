/**
 * A part of the lesson seen near to, kit under kit: a row for each voice, a tick for each strike, as tall as it was strong. Within a take
 * that was compared with something written, open circles stand where it is written: a tick left of its circle is ahead,
 * right of it behind, and one that differs is rust, thick, and dotted.
 *
 * On a canvas: figures beside those of the same picture in SVG stand in `tests/e2e/replaySpeed.spec.ts`.
 */
import { type Hit, type Voice, voiceName } from "../../../engine/kit/index.ts";
import type { LessonState } from "../../../engine/session/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import { cleared, type Ink, type Size } from "./ink.ts";
import type { LaneSeen } from "./lanes.ts";
import type { Playhead } from "./playhead.ts";
import { momentWords, takeShort } from "./replayWords.ts";
import { type Strikes, strikesBetween } from "./strikes.ts";
import type { TakeAgain } from "./takeAgain.ts";
import { drawCursor, NAMES_WIDTH } from "./wholePicture.ts";

const HEAD = 20;
const FOOT = 22;
const ROW = 26;
const FEWEST_ROWS = 5;
/** Of each of several kits. */
const FEWEST_OF_SEVERAL = 2;
/** From so many pixels to a second written circles can be told apart. Our choice. */
const WRITTEN_FROM = 36;

export interface NearPicture {
  readonly lesson: LessonState;
  readonly lanes: readonly LaneSeen[];
  /** The kit that is walked along. */
  readonly lane: number;
  /** The judged takes that are seen. */
  readonly takes: readonly TakeAgain[];
}

type Lanes = NearPicture["lanes"];

/** Where each kit's part begins, from the top. */
function topsOf(lanes: Lanes): readonly number[] {
  let top = 0;
  return lanes.map((lane) => {
    const here = top;
    top += laneHeight(lane, lanes);
    return here;
  });
}

function laneHeight({ strikes }: LaneSeen, lanes: Lanes): number {
  const fewest = lanes.length > 1 ? FEWEST_OF_SEVERAL : FEWEST_ROWS;
  return HEAD + Math.max(fewest, strikes.voices.length) * ROW;
}

export function nearHeight(lanes: Lanes): number {
  return lanes.reduce((sum, lane) => sum + laneHeight(lane, lanes), FOOT);
}

/** The kit under a point of the picture. */
export function laneAtNear(y: number, lanes: Lanes): number {
  return Math.max(
    0,
    topsOf(lanes).findLastIndex((top) => top <= y),
  );
}

/** The moment under a point of the picture. */
export function momentAt(x: number, width: number, { view }: Playhead): Seconds {
  const share = (x - NAMES_WIDTH) / Math.max(1, width - NAMES_WIDTH);
  return view.from + Math.min(1, Math.max(0, share)) * (view.to - view.from);
}

export function drawNear(
  canvas: HTMLCanvasElement,
  size: Size,
  ink: Ink,
  picture: NearPicture,
  playhead: Playhead,
): void {
  const draw = cleared(canvas, size);
  if (!draw) return;
  const { view, loop, cursor, seconds } = playhead;
  const perSecond = (size.width - NAMES_WIDTH) / (view.to - view.from);
  const at = (time: Seconds): number => NAMES_WIDTH + (time - view.from) * perSecond;
  const tops = topsOf(picture.lanes);
  picture.lanes.forEach((lane, index) => {
    draw.save();
    draw.translate(0, tops[index] ?? 0);
    drawNames(draw, size, ink, lane.strikes.voices);
    if (picture.lanes.length > 1) drawHead(draw, size, ink, lane, lane.lane === picture.lane);
    draw.restore();
  });
  draw.save();
  draw.beginPath();
  draw.rect(NAMES_WIDTH, 0, size.width - NAMES_WIDTH, size.height);
  draw.clip();
  if (loop) {
    draw.fillStyle = ink.tealSoft;
    draw.globalAlpha = 0.45;
    draw.fillRect(at(loop.from), HEAD, at(loop.to) - at(loop.from), size.height - HEAD - FOOT);
    draw.globalAlpha = 1;
  }
  drawSeconds(draw, size, ink, view, at);
  picture.lanes.forEach((lane, index) => {
    draw.save();
    draw.translate(0, tops[index] ?? 0);
    const takes = picture.takes.filter(({ take }) => take.lane === lane.lane);
    const seen = { from: Math.max(0, view.from), to: Math.min(seconds, view.to) };
    drawTakes(
      draw,
      ink,
      picture.lesson,
      { lane: lane.lane, height: laneHeight(lane, picture.lanes) },
      seen,
      at,
    );
    if (perSecond >= WRITTEN_FROM) drawWritten(draw, ink, lane.strikes, takes, view, at);
    drawStrikes(draw, ink, lane.strikes, takes, view, at, perSecond);
    draw.restore();
  });
  drawCursor(draw, ink, at(cursor), size.height - FOOT);
  draw.restore();
}

function drawNames(
  draw: CanvasRenderingContext2D,
  { width }: Size,
  ink: Ink,
  voices: readonly Voice[],
): void {
  draw.font = `400 14px ${ink.sans}`;
  draw.textBaseline = "middle";
  voices.forEach((voice, row) => {
    const y = middleOf(row);
    draw.fillStyle = ink.rule;
    draw.fillRect(NAMES_WIDTH, y + ROW / 2 - 1, width - NAMES_WIDTH, 1);
    draw.fillStyle = ink.ink;
    draw.fillText(voiceName(voice), 0, y + 1, NAMES_WIDTH - 8);
  });
}

/** Who sat there, over the rows of that kit; the one that is walked along has a mark of its own. */
function drawHead(
  draw: CanvasRenderingContext2D,
  { width }: Size,
  ink: Ink,
  lane: LaneSeen,
  isHere: boolean,
): void {
  draw.fillStyle = ink.edge;
  if (lane.lane > 0) draw.fillRect(0, 0, width, 1);
  if (isHere) {
    draw.fillStyle = ink.teal;
    draw.fillRect(0, 2, 3, HEAD - 2);
  }
  draw.font = `${isHere ? 700 : 400} 14px ${ink.sans}`;
  draw.textBaseline = "middle";
  draw.fillStyle = ink.ink;
  draw.fillText(lane.who, 8, HEAD / 2 + 1, NAMES_WIDTH - 16);
}

function drawTakes(
  draw: CanvasRenderingContext2D,
  ink: Ink,
  lesson: LessonState,
  { lane, height }: { readonly lane: number; readonly height: number },
  view: { readonly from: Seconds; readonly to: Seconds },
  at: (time: Seconds) => number,
): void {
  draw.font = `400 13px ${ink.sans}`;
  draw.textBaseline = "middle";
  for (const take of lesson.rounds.flatMap(({ takes }) => takes)) {
    const to = take.to ?? lesson.time;
    if (take.lane !== lane || to < view.from || take.from > view.to) continue;
    draw.fillStyle = ink.soft;
    draw.fillRect(at(take.from), 0, 1, height);
    draw.fillRect(at(to), 0, 1, height);
    draw.fillRect(at(take.from), HEAD - 2, at(to) - at(take.from), 1.5);
    draw.fillStyle = ink.ink;
    const left = Math.max(at(take.from), NAMES_WIDTH) + 5;
    const room = at(Math.min(to, view.to)) - left;
    if (draw.measureText(takeShort(take)).width < room) draw.fillText(takeShort(take), left, HEAD / 2 - 1);
  }
}

/** Seconds between two marks of the scale. */
const STEPS: readonly Seconds[] = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 30, 60, 120, 300, 600, 1800];
/** Marks are at least this far from one another. */
const MARK_PIXELS = 76;

function drawSeconds(
  draw: CanvasRenderingContext2D,
  size: Size,
  ink: Ink,
  view: { readonly from: Seconds; readonly to: Seconds },
  at: (time: Seconds) => number,
): void {
  const most = (size.width - NAMES_WIDTH) / MARK_PIXELS;
  const step = STEPS.find((each) => (view.to - view.from) / each <= most) ?? 3600;
  draw.font = `400 13px ${ink.sans}`;
  draw.textBaseline = "alphabetic";
  for (let mark = Math.ceil(view.from / step - 1e-6); mark * step <= view.to + 1e-9; mark += 1) {
    const x = at(mark * step);
    draw.fillStyle = ink.rule;
    draw.fillRect(x, size.height - FOOT, 1, 6);
    draw.fillStyle = ink.soft;
    draw.fillText(momentWords(mark * step, step < 1 ? 2 : 0), x + 4, size.height - 5);
  }
}

/** Where it is written, in the rows of the voices it is written for. */
function drawWritten(
  draw: CanvasRenderingContext2D,
  ink: Ink,
  strikes: Strikes,
  takes: readonly TakeAgain[],
  view: { readonly from: Seconds; readonly to: Seconds },
  at: (time: Seconds) => number,
): void {
  draw.lineWidth = 1.25;
  for (const { judgement, hits, judgedOf, leftOut } of takes) {
    if (!judgement.compared) continue;
    draw.strokeStyle = ink.soft;
    for (const hit of hits) {
      if (hit.time < view.from - 1 || hit.time > view.to + 1) continue;
      const judged = judgedOf(hit);
      if (judged?.state !== "matched") continue;
      circle(draw, at(hit.time - judged.offsetMs / 1000), strikes.voices.indexOf(judged.targetVoice));
    }
    draw.strokeStyle = ink.rust;
    for (const { time, voice } of leftOut) {
      if (time < view.from || time > view.to) continue;
      const row = strikes.voices.indexOf(voice);
      circle(draw, at(time), row);
      cross(draw, at(time), row);
    }
  }
}

function circle(draw: CanvasRenderingContext2D, x: number, row: number): void {
  if (row < 0) return;
  draw.beginPath();
  draw.arc(x, middleOf(row), 5, 0, 2 * Math.PI);
  draw.stroke();
}

/** Left out: the circle is crossed through. */
function cross(draw: CanvasRenderingContext2D, x: number, row: number): void {
  if (row < 0) return;
  const y = middleOf(row);
  draw.beginPath();
  draw.moveTo(x - 5, y + 5);
  draw.lineTo(x + 5, y - 5);
  draw.stroke();
}

function drawStrikes(
  draw: CanvasRenderingContext2D,
  ink: Ink,
  strikes: Strikes,
  takes: readonly TakeAgain[],
  view: { readonly from: Seconds; readonly to: Seconds },
  at: (time: Seconds) => number,
  perSecond: number,
): void {
  const { first, end } = strikesBetween(strikes, view.from, view.to);
  const isFar = perSecond < WRITTEN_FROM;
  const judged = isFar ? () => false : differsIn(takes);
  /** The last column drawn in each row: from afar many strikes share one. */
  const drawn = new Int32Array(strikes.voices.length).fill(-1);
  draw.fillStyle = ink.ink;
  for (let index = first; index < end; index += 1) {
    const hit = strikes.hits[index];
    const row = strikes.rows[index] ?? 0;
    if (!hit) continue;
    const x = at(hit.time);
    if (isFar && drawn[row] === Math.round(x)) continue;
    drawn[row] = Math.round(x);
    const half = 3 + hit.velocity * (ROW / 2 - 5);
    const y = middleOf(row);
    if (judged(hit)) {
      draw.fillStyle = ink.rust;
      draw.fillRect(x - 1.5, y - half, 3, 2 * half);
      draw.beginPath();
      draw.arc(x, y - half - 2, 2.5, 0, 2 * Math.PI);
      draw.fill();
      draw.fillStyle = ink.ink;
    } else draw.fillRect(x - 0.75, y - half, isFar ? 1 : 1.5, 2 * half);
  }
}

/** Whether a strike is other than written: out of its band, on another sound, or added. */
export function differsIn(takes: readonly TakeAgain[]): (hit: Hit) => boolean {
  return (hit) => {
    for (const { judgedOf, judgement } of takes) {
      const judged = judgedOf(hit);
      if (!judged || !judgement.compared) continue;
      const { leanMs, band } = judgement.compared.report;
      if (judged.state === "extra") return !judged.surplus;
      if (judged.state !== "matched") return false;
      const isOut = Math.abs(judged.offsetMs - (leanMs ?? 0)) > band.halfBandMs;
      return isOut || judged.targetVoice !== judged.hit.voice;
    }
    return false;
  };
}

function middleOf(row: number): number {
  return HEAD + row * ROW + ROW / 2;
}
