/** The lesson as a line, or one for each kit, whole and near to. Where the cursor is, is told as a slider; both are scrubbed with the pointer. */
import { type PointerEvent, useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import { useWidth } from "../../notation/useWidth.ts";
import { type Ink, inkOf, type Size } from "./ink.ts";
import { drawNear, laneAtNear, momentAt, nearHeight } from "./nearPicture.ts";
import type { Playhead } from "./playhead.ts";
import styles from "./replay.module.css";
import type { OpenLesson } from "./replayDesk.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { momentSpoken } from "./replayWords.ts";
import type { TakeAgain } from "./takeAgain.ts";
import { acrossWhole, drawOverWhole, drawWhole, laneAtWhole, wholeHeight } from "./wholePicture.ts";

export interface TimelineProps {
  readonly lesson: OpenLesson;
  readonly player: ReplayPlayer;
  /** Judged takes; the written strokes of those that are seen are shown. */
  readonly takes: readonly TakeAgain[];
  /** The kit that is walked along. */
  readonly lane: number;
  readonly onLane: (lane: number) => void;
}

export function Timeline({ lesson, player, takes, lane, onLane }: TimelineProps) {
  const room = useRef<HTMLDivElement>(null);
  const width = Math.floor(useWidth(room));
  return (
    <div ref={room} className={styles.timeline}>
      {width > 0 && (
        <>
          <Whole lesson={lesson} player={player} lane={lane} onLane={onLane} width={width} />
          <Near lesson={lesson} player={player} takes={takes} lane={lane} onLane={onLane} width={width} />
        </>
      )}
    </div>
  );
}

/** Draws now, whenever the playhead has moved, and when the letters have come. */
function useDrawn(player: ReplayPlayer, draw: () => void): void {
  useEffect(() => {
    draw();
    let isWanted = true;
    // Letters on a canvas do not change by themselves when their font has come.
    void document.fonts.ready.then(() => isWanted && draw());
    const stop = player.subscribe(draw);
    return () => {
      isWanted = false;
      stop();
    };
  }, [player, draw]);
}

function Whole({
  lesson,
  player,
  lane,
  onLane,
  width,
}: Omit<TimelineProps, "takes"> & { readonly width: number }) {
  const under = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLCanvasElement>(null);
  const { lanes } = lesson;
  const size = useMemo((): Size => ({ width, height: wholeHeight({ lanes }) }), [width, lanes]);
  useEffect(() => {
    const canvas = under.current;
    if (!canvas) return;
    const { whole, seconds } = lesson.moments;
    const draw = (): void => drawWhole(canvas, size, inkOf(canvas), { lesson: whole, lanes, lane, seconds });
    draw();
    let isWanted = true;
    void document.fonts.ready.then(() => isWanted && draw());
    return () => {
      isWanted = false;
    };
  }, [lesson, lanes, lane, size]);
  const ink = useInk(over);
  const draw = useMemo(
    () => () => {
      if (over.current && ink) drawOverWhole(over.current, size, ink, lanes, player.get());
    },
    [size, ink, lanes, player],
  );
  useDrawn(player, draw);
  const at = useSyncExternalStore(player.subscribe, () => toldMoment(player.get()));
  const seconds = lesson.moments.seconds;
  const scrub = useScrub(player, {
    momentOf: acrossWhole(width, { lanes, seconds }).momentAt,
    onDown: (y) => onLane(laneAtWhole(y, { lanes })),
  });
  return (
    <div
      className={styles.whole}
      style={{ height: size.height }}
      role="slider"
      tabIndex={0}
      aria-label="Moment of the lesson"
      aria-valuemin={0}
      aria-valuemax={Math.max(1, Math.round(seconds))}
      aria-valuenow={Math.min(Math.round(at), Math.max(1, Math.round(seconds)))}
      aria-valuetext={momentSpoken(at)}
      {...scrub}
    >
      <canvas ref={under} style={size} />
      <canvas ref={over} style={size} />
    </div>
  );
}

/** While it runs a moment is told once a second, so that nobody who listens to the page is talked over. */
function toldMoment({ cursor, isPlaying }: Playhead): number {
  return isPlaying ? Math.floor(cursor) : cursor;
}

function Near({ lesson, player, takes, lane, onLane, width }: TimelineProps & { readonly width: number }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { lanes } = lesson;
  const size = useMemo((): Size => ({ width, height: nearHeight(lanes) }), [width, lanes]);
  const ink = useInk(canvas);
  const picture = useMemo(
    () => ({ lesson: lesson.moments.whole, lanes, lane, takes }),
    [lesson, lanes, lane, takes],
  );
  const draw = useMemo(
    () => () => {
      if (canvas.current && ink) drawNear(canvas.current, size, ink, picture, player.get());
    },
    [size, ink, picture, player],
  );
  useDrawn(player, draw);
  const scrub = useScrub(player, {
    momentOf: (x) => momentAt(x, width, player.get()),
    onDown: (y) => onLane(laneAtNear(y, lanes)),
  });
  return (
    <div className={styles.near} style={{ height: size.height }} {...scrub}>
      <canvas
        ref={canvas}
        style={size}
        role="img"
        aria-label={`Strikes about this moment, a row for each voice${lanes.length > 1 ? ", kit under kit" : ""}`}
      />
    </div>
  );
}

/** The colours of the place it is drawn in. */
function useInk(canvas: { readonly current: HTMLCanvasElement | null }): Ink | undefined {
  const [ink, setInk] = useState<Ink>();
  useEffect(() => {
    if (canvas.current) setInk(inkOf(canvas.current));
  }, [canvas]);
  return ink;
}

/** The pointer, held down, draws the cursor along; where it goes down is the kit that is walked along from then on. */
function useScrub(
  player: ReplayPlayer,
  { momentOf, onDown }: { readonly momentOf: (x: number) => number; readonly onDown: (y: number) => void },
) {
  const put = (event: PointerEvent<HTMLElement>): void => {
    const { left } = event.currentTarget.getBoundingClientRect();
    player.do({ kind: "put", at: momentOf(event.clientX - left) });
  };
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>) => {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      onDown(event.clientY - event.currentTarget.getBoundingClientRect().top);
      put(event);
    },
    onPointerMove: (event: PointerEvent<HTMLElement>) => {
      if (event.currentTarget.hasPointerCapture(event.pointerId)) put(event);
    },
  };
}
