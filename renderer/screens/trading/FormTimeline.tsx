import { voiceName } from "../../../engine/kit/index.ts";
import { barAt, type Side } from "../../../engine/trading/index.ts";
import styles from "./Trading.module.css";
import type { TradingNow } from "./tradingNow.ts";

const WIDTH = 736;
const LANE = 34;
const HEAD = 18;
const TICK = { least: 6, most: 24 };

/** Both players' strokes along the form, a lane each: bands are turns, the longer a tick the harder the stroke. */
export function FormTimeline({
  form: { played, hits },
  names,
}: {
  readonly form: TradingNow;
  readonly names: readonly [string, string];
}) {
  const first = played[0];
  const last = played.at(-1);
  if (!first || !last) return null;
  const from = barAt(first.pulse, first.turn.fromBar);
  const until = barAt(last.pulse, last.turn.fromBar + (last.turn.bars ?? 0));
  const x = (time: number): number => ((time - from) / (until - from)) * WIDTH;
  const lane = (side: Side): number => side * (LANE + HEAD) + HEAD;
  const sideOf = (time: number, side: Side | null): Side =>
    side ?? played.findLast(({ turn, pulse }) => barAt(pulse, turn.fromBar) <= time + 0.05)?.turn.side ?? 0;
  const sounds = new Set(hits.map(({ voice }) => voiceName(voice)));
  return (
    <svg
      className={styles.timeline}
      viewBox={`0 0 ${WIDTH} ${2 * (LANE + HEAD)}`}
      role="img"
      aria-label={`Timeline of the form: ${played.length} turns, ${hits.length} strokes on ${sounds.size} sounds. What was heard stands in the table below.`}
    >
      {([0, 1] as const).map((side) => (
        <text key={side} className={styles.laneName} x={0} y={lane(side) - 5}>
          {names[side]}
        </text>
      ))}
      {played.map(({ turn, pulse }) => {
        const start = x(barAt(pulse, turn.fromBar));
        const end = x(barAt(pulse, turn.fromBar + (turn.bars ?? 0)));
        return (
          <g key={turn.fromBar}>
            <rect className={styles.band} x={start} y={lane(turn.side)} width={end - start} height={LANE} />
            <line className={styles.bar} x1={start} x2={start} y1={HEAD} y2={2 * (LANE + HEAD)} />
          </g>
        );
      })}
      {hits.map(({ time, voice, velocity, side }) => {
        const bottom = lane(sideOf(time, side)) + LANE - 2;
        const long = TICK.least + (TICK.most - TICK.least) * velocity;
        return (
          <line
            key={`${time} ${voice}`}
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
