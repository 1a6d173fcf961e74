import { voiceName } from "../../../engine/kit/index.ts";
import type { ExchangeTimeline } from "../../../engine/rounds/index.ts";
import type { Side } from "../../../engine/trading/index.ts";
import styles from "./Trading.module.css";

const WIDTH = 736;
const LANE = 34;
const HEAD = 18;
const TICK = { least: 6, most: 24 };

/** Both players' strokes along the form, a lane each: bands are turns, the longer a tick the harder the stroke. */
export function FormTimeline({
  exchanges,
  names,
}: {
  readonly exchanges: readonly ExchangeTimeline[];
  readonly names: readonly [string, string];
}) {
  const turns = exchanges.flatMap((exchange) => exchange.turns).filter(({ part }) => part !== "way");
  const strokes = exchanges.flatMap((exchange) => exchange.strokes);
  const from = turns[0]?.from ?? 0;
  const until = turns.at(-1)?.until ?? 0;
  if (until <= from) return null;
  const x = (time: number): number => ((time - from) / (until - from)) * WIDTH;
  const lane = (side: Side): number => side * (LANE + HEAD) + HEAD;
  const sounds = new Set(strokes.map(({ voice }) => voiceName(voice)));
  return (
    <svg
      className={styles.timeline}
      viewBox={`0 0 ${WIDTH} ${2 * (LANE + HEAD)}`}
      role="img"
      aria-label={`Timeline of the form: ${turns.length} turns, ${strokes.length} strokes on ${sounds.size} sounds. What was heard stands in the table below.`}
    >
      {([0, 1] as const).map((side) => (
        <text key={side} className={styles.laneName} x={0} y={lane(side) - 5}>
          {names[side]}
        </text>
      ))}
      {turns.map((turn) => (
        <g key={turn.from}>
          <rect
            className={styles.band}
            x={x(turn.from)}
            y={lane(turn.side)}
            width={x(turn.until) - x(turn.from)}
            height={LANE}
          />
          <line className={styles.bar} x1={x(turn.from)} x2={x(turn.from)} y1={HEAD} y2={2 * (LANE + HEAD)} />
        </g>
      ))}
      {strokes.map(({ time, voice, velocity, side }, at) => {
        const bottom = lane(side) + LANE - 2;
        const long = TICK.least + (TICK.most - TICK.least) * velocity;
        return (
          <line
            key={`${at} ${time} ${voice}`}
            className={styles.tick}
            x1={x(time)}
            x2={x(time)}
            y1={bottom}
            y2={bottom - long}
          />
        );
      })}
    </svg>
  );
}
