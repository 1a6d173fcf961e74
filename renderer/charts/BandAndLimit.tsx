/**
 * Two quiet zones behind a chart of leans: the student's band, and within it what nobody hears. Both lie round the
 * take's own lean. Edges and names say which is which, so that the tint is only a help.
 */
import { ReferenceArea, ReferenceLine } from "recharts";
import type { Milliseconds } from "../../engine/units/index.ts";
import styles from "./charts.module.css";

/** What leans are held against. */
export interface BandAndLimitOf {
  /** The take's own lean: the middle of both zones. `null`: they lie round the beat. */
  readonly leanMs: Milliseconds | null;
  /** Half the width of the student's band. */
  readonly bandMs: Milliseconds;
  /** Differences up to this are not heard: half the width of the inner zone. */
  readonly limitMs: Milliseconds;
}

/** Room the names need: above a chart whose leans go across, or at the right of one whose leans go up. */
export const NAMES_ABOVE = 44;
export const NAMES_BESIDE = 84;

/** Where the names stand: above the zones (leans go across) or beside them (leans go up). */
type NamesAt = "above" | "beside";

export function BandAndLimit({
  namesAt,
  leanMs,
  bandMs,
  limitMs,
}: BandAndLimitOf & { readonly namesAt: NamesAt }) {
  const centre = leanMs ?? 0;
  // The wider one lies behind: at slow tempos the limit of hearing may be wider than a working player's band.
  const zones = [
    { name: "band", halfMs: bandMs },
    { name: "not heard", halfMs: limitMs },
  ] as const;
  return [...zones]
    .sort((a, b) => b.halfMs - a.halfMs)
    .map((zone, rank) => <Zone key={zone.name} {...zone} rank={rank} centre={centre} namesAt={namesAt} />);
}

interface ZoneProps {
  readonly name: "band" | "not heard";
  readonly centre: Milliseconds;
  readonly halfMs: Milliseconds;
  /** 0 for the outer zone, 1 for the inner one. */
  readonly rank: number;
  readonly namesAt: NamesAt;
}

const FILL = { band: "var(--teal-soft)", "not heard": "var(--sheet)" } as const;
const DASHES = { band: "none", "not heard": "2 3" } as const;

function Zone({ name, centre, halfMs, rank, namesAt }: ZoneProps) {
  const [from, to] = [centre - halfMs, centre + halfMs];
  const zone = namesAt === "above" ? { x1: from, x2: to } : { y1: from, y2: to };
  return (
    <>
      <ReferenceArea
        {...zone}
        fill={FILL[name]}
        fillOpacity={1}
        zIndex={-50}
        label={({ viewBox }) => <ZoneName name={name} rank={rank} namesAt={namesAt} box={boxOf(viewBox)} />}
      />
      {[from, to].map((edge) => (
        <ReferenceLine
          key={edge}
          {...(namesAt === "above" ? { x: edge } : { y: edge })}
          stroke="var(--edge)"
          strokeWidth={1}
          strokeDasharray={DASHES[name]}
          zIndex={-40}
        />
      ))}
    </>
  );
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The chart gives the place it drew the zone at; a chart that is not measured yet gives none. */
function boxOf(viewBox: object | undefined): Box {
  return { x: 0, y: 0, width: 0, height: 0, ...viewBox };
}

/** The baseline of a name above the plot, the outer zone's above the inner one's; a bracket's distance from its words. */
const ABOVE = [30, 10] as const;
const BRACKET_AIR = 5;
/** Half the width of the words at the size of the chart's small text. */
const HALF_WORDS = { band: 17, "not heard": 32 } as const;

function ZoneName({
  name,
  rank,
  namesAt,
  box,
}: Pick<ZoneProps, "name" | "rank" | "namesAt"> & { readonly box: Box }) {
  if (namesAt === "beside") {
    // The band is named at its upper edge, the inner zone in its middle: they never meet.
    const y = name === "band" ? box.y + 4 : box.y + box.height / 2 + 4;
    return (
      <text x={box.x + box.width + 8} y={y} className={styles.zoneName}>
        {name}
      </text>
    );
  }
  const middle = box.x + box.width / 2;
  const baseline = box.y - (ABOVE[rank] ?? 0);
  const line = baseline - 5;
  const words = HALF_WORDS[name] + BRACKET_AIR;
  // Words wider than their zone stand over its edges, which begin under them.
  const edgesFrom = box.width / 2 > words ? line : baseline + 4;
  return (
    <g>
      <text x={middle} y={baseline} textAnchor="middle" className={styles.zoneName}>
        {name}
      </text>
      {[box.x, box.x + box.width].map((edge) => (
        <g key={edge} className={styles.bracket}>
          <line x1={edge} x2={edge} y1={edgesFrom} y2={box.y} />
          {Math.abs(edge - middle) > words ? (
            <line x1={edge} x2={middle + Math.sign(edge - middle) * words} y1={line} y2={line} />
          ) : null}
        </g>
      ))}
    </g>
  );
}
