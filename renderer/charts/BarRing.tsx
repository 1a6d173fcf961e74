/**
 * The bar ring: one bar as a circle, beat 1 at the top, clockwise; each voice its own ring. Written strokes are
 * open circles (ghosts smaller, accents with a second circle inside), played ones ticks at the true angle.
 * A tick that differs is rust, thicker, and has a dot outside, so that shape says it too. Of a whole take the
 * played mean stands at each written place, with an arc of one spread either way along the ring.
 */
import { memo, useId, useMemo } from "react";
import { VOICES, type Voice } from "../../engine/kit/index.ts";
import type { Groove } from "../../engine/score/index.ts";
import styles from "./BarRing.module.css";
import {
  arcPath,
  BEAT_LABEL_RADIUS,
  foldedPlace,
  inRingOrder,
  pointAt,
  RING_SIZE,
  type RingLayout,
  ringLayout,
  ringOf,
  ringSpan,
  ringsFor,
  SPOKE,
  type WrittenMark,
  writtenMarks,
} from "./ringGeometry.ts";
import { type RingLabel, ringLabels } from "./ringLabels.ts";

/** A stroke that was played, on the ring of its voice. */
export interface PlayedMark {
  readonly voice: Voice;
  /** Share of the ring's span, 0 (its first beat) to 1; folded when outside. */
  readonly place: number;
  /** Other than written, in time or in sound. */
  readonly differs: boolean;
}

/** Where a written stroke was played on the whole. */
export interface PlaceMean {
  readonly voice: Voice;
  /** The played mean, as a share of the ring's span. */
  readonly place: number;
  /** One spread, as a share of the ring's span; `null` where one stroke was played. */
  readonly spread: number | null;
  /** The mean lies outside the band. */
  readonly differs: boolean;
}

export interface BarRingProps {
  /** What is written; undefined in free play, when nothing is known: the rings then come from the voices played. */
  readonly groove: Groove | undefined;
  /** Voices whose rings are there though they are neither written nor struck. */
  readonly voices?: readonly Voice[];
  /** Give the same array while nothing was added. The caller keeps it short: about 300 is smooth on any machine. */
  readonly played: readonly PlayedMark[];
  /** The played means; give the same array while nothing was added. None while a take is played. */
  readonly means?: readonly PlaceMean[];
  /** Where the music is now, as a share of the ring's span; undefined draws no hand. */
  readonly handPlace: number | undefined;
  /** Width and height in CSS pixels. */
  readonly size: number;
  /** What it is a picture of, for those who do not see it: "Shuffle, twelve bars laid over one another". */
  readonly label: string;
  /** Beats round the ring where no groove tells; undefined numbers none. */
  readonly beats?: number | undefined;
  /** Words and numbers are no smaller, in CSS pixels, where a ring is read from afar. */
  readonly leastTextPixels?: number | undefined;
}

/** Size of the numbers, as the style sheet has it. */
const BEAT_TEXT = 14;
/** From so many ticks on they are drawn fine, so that many bars laid over one another stay readable. */
const FINE_FROM = 60;
const NO_MARKS: readonly WrittenMark[] = [];
const NO_VOICES: readonly Voice[] = [];
const NO_MEANS: readonly PlaceMean[] = [];

export function BarRing({
  groove,
  voices = NO_VOICES,
  played,
  means = NO_MEANS,
  handPlace,
  size,
  label,
  beats,
  leastTextPixels = 0,
}: BarRingProps) {
  const ringNames = ringsFor(groove?.voices ?? NO_VOICES, [
    ...voices,
    ...played.map((mark) => mark.voice),
  ]).join(" ");
  // The list is new at every strike, its content almost never: keep the old one while it says the same.
  const rings = useMemo(() => ringsNamed(ringNames), [ringNames]);
  const leastText = (leastTextPixels * RING_SIZE) / size;
  const layout = useMemo(() => {
    const usual = ringLayout(rings.length);
    return { ...usual, labelSize: Math.max(usual.labelSize, leastText) };
  }, [rings, leastText]);
  return (
    <svg
      className={styles.ring}
      viewBox={`0 0 ${RING_SIZE} ${RING_SIZE}`}
      width={size}
      height={size}
      role="img"
      aria-label={spokenLabel(label, groove)}
    >
      <Written groove={groove} rings={rings} layout={layout} beats={beats} leastText={leastText} />
      <Played played={played} rings={rings} layout={layout} />
      <Means means={means} rings={rings} layout={layout} />
      {handPlace === undefined ? null : <Hand place={handPlace} />}
    </svg>
  );
}

function ringsNamed(names: string): readonly Voice[] {
  const named = new Set(names.split(" "));
  return inRingOrder(VOICES.filter((voice) => named.has(voice)));
}

function spokenLabel(label: string, groove: Groove | undefined): string {
  if (groove === undefined) return label;
  if (groove.bars === 1) return `${label}; the ring is one bar`;
  return groove.bars === 2
    ? `${label}; the ring is two bars`
    : `${label}; the ring is the first of ${groove.bars} bars`;
}

interface WrittenProps {
  readonly groove: Groove | undefined;
  readonly rings: readonly Voice[];
  readonly layout: RingLayout;
  readonly beats: number | undefined;
  /** In units of the drawing. */
  readonly leastText: number;
}

/** All that stands still while somebody plays. */
const Written = memo(function Written({ groove, rings, layout, beats, leastText }: WrittenProps) {
  const idStem = useId();
  const marks = groove ? writtenMarks(groove) : NO_MARKS;
  const span = groove ? ringSpan(groove) : { bars: 1, beats: beats ?? 0 };
  const beatPlaces = Array.from({ length: span.beats }, (_, beat) => beat / span.beats);
  const labels = ringLabels(
    rings,
    layout,
    (voice) => marks.filter((mark) => mark.voice === voice).map((mark) => mark.place),
    beatPlaces,
  );
  return (
    <g>
      {beatPlaces.map((place, beat) => (
        <Beat
          key={place}
          place={place}
          number={(beat % (span.beats / span.bars)) + 1}
          leastText={leastText}
        />
      ))}
      {layout.radii.map((radius) => (
        <circle key={radius} className={styles.line} cx={RING_SIZE / 2} cy={RING_SIZE / 2} r={radius} />
      ))}
      {labels.map((name) => (
        <Name key={name.voice} name={name} size={layout.labelSize} id={`${idStem}${name.voice}`} />
      ))}
      {marks.map((mark) => (
        <Stroke key={`${mark.voice} ${mark.place}`} mark={mark} rings={rings} layout={layout} />
      ))}
      {span.bars === 1 ? null : (
        <text className={styles.beat} x={RING_SIZE / 2} y={RING_SIZE / 2 + 4.5}>
          {span.bars} bars
        </text>
      )}
    </g>
  );
});

function Beat({
  place,
  number,
  leastText,
}: {
  readonly place: number;
  readonly number: number;
  readonly leastText: number;
}) {
  const inner = pointAt(place, SPOKE.from);
  const outer = pointAt(place, SPOKE.to);
  const at = pointAt(place, BEAT_LABEL_RADIUS);
  return (
    <>
      <line className={styles.line} x1={inner.x} y1={inner.y} x2={outer.x} y2={outer.y} />
      <text
        className={styles.beat}
        x={at.x}
        y={at.y + BASELINE * Math.max(BEAT_TEXT, leastText)}
        style={leastText > BEAT_TEXT ? { fontSize: leastText } : undefined}
      >
        {number}
      </text>
    </>
  );
}

/** Where capitals and small letters look centred on a line, below its middle, as a share of the letter size. */
const BASELINE = 0.33;

function Name({ name, size, id }: { readonly name: RingLabel; readonly size: number; readonly id: string }) {
  const radius = name.radius + (name.clockwise ? -1 : 1) * BASELINE * size;
  const from = pointAt(name.place + (name.clockwise ? -0.25 : 0.25), radius);
  const to = pointAt(name.place + (name.clockwise ? 0.25 : -0.25), radius);
  return (
    <>
      <path
        id={id}
        fill="none"
        d={`M${from.x} ${from.y}A${radius} ${radius} 0 0 ${name.clockwise ? 1 : 0} ${to.x} ${to.y}`}
      />
      <text className={styles.name} fontSize={size}>
        <textPath href={`#${id}`} startOffset="50%">
          {name.text}
        </textPath>
      </text>
    </>
  );
}

interface StrokeProps {
  readonly mark: WrittenMark;
  readonly rings: readonly Voice[];
  readonly layout: RingLayout;
}

function Stroke({ mark, rings, layout }: StrokeProps) {
  const { x, y } = pointAt(mark.place, layout.radii[rings.indexOf(mark.voice)] ?? 0);
  return (
    <>
      <circle
        className={styles.written}
        cx={x}
        cy={y}
        r={mark.dynamic === "ghost" ? layout.ghostRadius : layout.markRadius}
      />
      {mark.dynamic === "accent" ? (
        <circle className={styles.accent} cx={x} cy={y} r={layout.accentRadius} />
      ) : null}
    </>
  );
}

interface PlayedProps {
  readonly played: readonly PlayedMark[];
  readonly rings: readonly Voice[];
  readonly layout: RingLayout;
}

/** Drawn anew at a strike, not when only the hand moved. */
const Played = memo(function Played({ played, rings, layout }: PlayedProps) {
  const fine = played.length >= FINE_FROM;
  // Differing ticks last: they lie on top.
  const inPaintOrder = [...played].sort((a, b) => Number(a.differs) - Number(b.differs));
  return (
    <g className={fine ? styles.fine : undefined}>
      {inPaintOrder.map((mark, index) => (
        // Two strokes can be alike in every respect: the order is their identity.
        <Tick key={index} mark={mark} radius={radiusOf(mark.voice, rings, layout)} layout={layout} />
      ))}
    </g>
  );
});

function radiusOf(voice: Voice, rings: readonly Voice[], layout: RingLayout): number {
  const ring = ringOf(voice, rings);
  return ring === undefined ? 0 : (layout.radii[rings.indexOf(ring)] ?? 0);
}

function Tick({
  mark,
  radius,
  layout,
}: {
  readonly mark: PlayedMark;
  readonly radius: number;
  readonly layout: RingLayout;
}) {
  const inner = pointAt(mark.place, radius - layout.tickReach);
  const outer = pointAt(mark.place, radius + layout.tickReach);
  const dot = pointAt(mark.place, radius + layout.dotReach);
  return (
    <>
      <line
        className={mark.differs ? styles.differs : styles.played}
        x1={inner.x}
        y1={inner.y}
        x2={outer.x}
        y2={outer.y}
      />
      {mark.differs ? <circle className={styles.dot} cx={dot.x} cy={dot.y} r={layout.dotRadius} /> : null}
    </>
  );
}

interface MeansProps {
  readonly means: readonly PlaceMean[];
  readonly rings: readonly Voice[];
  readonly layout: RingLayout;
}

/** The played mean of each written place: a tick, and an arc of one spread either way. */
const Means = memo(function Means({ means, rings, layout }: MeansProps) {
  return (
    <g className={styles.means}>
      {means.map((mean) => {
        const radius = radiusOf(mean.voice, rings, layout);
        const { place, spread } = mean;
        return (
          <g key={`${mean.voice} ${place}`}>
            {spread === null ? null : (
              <path
                className={mean.differs ? styles.differs : styles.played}
                fill="none"
                d={arcPath({ from: place - spread, to: place + spread, radius })}
              />
            )}
            <Tick mark={mean} radius={radius} layout={layout} />
          </g>
        );
      })}
    </g>
  );
});

function Hand({ place }: { readonly place: number }) {
  const inner = pointAt(foldedPlace(place), SPOKE.from);
  const outer = pointAt(foldedPlace(place), SPOKE.to);
  return <line className={styles.hand} x1={inner.x} y1={inner.y} x2={outer.x} y2={outer.y} />;
}
