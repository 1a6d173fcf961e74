/**
 * Touch, voice by voice: strokes as written, ghosted and heavy, accents, ghost notes, and the player's own range.
 * The range is drawn as well: a line from the soft strokes to the loud ones, an open circle at the player's own
 * plain stroke.
 */
import type { DynamicsFigures, VoiceFigures } from "../../engine/grading/index.ts";
import { voiceName } from "../../engine/kit/index.ts";
import type { Velocity } from "../../engine/units/index.ts";
import { ColumnHeads } from "./ColumnHeads.tsx";
import styles from "./charts.module.css";
import { formatAccents, formatGhosts, formatRange, formatTouch } from "./figures.ts";
import { inRingOrder } from "./ringGeometry.ts";
import { WideTable } from "./WideTable.tsx";

export interface TouchTableProps {
  readonly voices: readonly VoiceFigures[];
  readonly dynamics: readonly DynamicsFigures[];
}

const COLUMNS = ["voice", "touch", "accents", "ghost notes", "own range, of 127"] as const;

export function TouchTable({ voices, dynamics }: TouchTableProps) {
  const rows = inRingOrder(voices.map(({ voice }) => voice)).flatMap((voice) =>
    voices.filter((figures) => figures.voice === voice && figures.written > 0),
  );
  return (
    <>
      <WideTable label="Touch by voice">
        <table className={styles.voices}>
          <caption className={styles.unseen}>Touch by voice, against the player’s own plain stroke</caption>
          <ColumnHeads columns={COLUMNS} />
          <tbody>
            {rows.map((figures) => (
              <TouchRow
                key={figures.voice}
                figures={figures}
                strength={dynamics.find(({ voice }) => voice === figures.voice)}
              />
            ))}
          </tbody>
        </table>
      </WideTable>
      <p className={styles.note}>
        Range: from the softest tenth of the strokes to the loudest. Circle: the player’s own plain stroke,
        which everything is held against.
      </p>
    </>
  );
}

function TouchRow({
  figures,
  strength,
}: {
  readonly figures: VoiceFigures;
  readonly strength: DynamicsFigures | undefined;
}) {
  const { touch } = figures;
  return (
    <tr>
      <th scope="row">{voiceName(figures.voice)}</th>
      <td className={touch.ghosted > 0 || touch.heavy > 0 ? styles.differs : undefined}>
        {formatTouch(touch)}
      </td>
      <td>{formatAccents(strength?.accents ?? null)}</td>
      <td>{formatGhosts(strength?.ghosts ?? null)}</td>
      <td>
        <span className={styles.range}>
          {strength?.range ? <Range range={strength.range} plain={strength.plain} /> : null}
          {formatRange(strength?.range ?? null)}
        </span>
      </td>
    </tr>
  );
}

const STRIP = { width: 104, height: 20, radius: 5 } as const;

function Range({
  range,
  plain,
}: {
  readonly range: NonNullable<DynamicsFigures["range"]>;
  readonly plain: Velocity | null;
}) {
  const across = (velocity: Velocity): number => STRIP.radius + velocity * (STRIP.width - 2 * STRIP.radius);
  const middle = STRIP.height / 2;
  return (
    <svg
      className={styles.strip}
      viewBox={`0 0 ${STRIP.width} ${STRIP.height}`}
      width={STRIP.width}
      height={STRIP.height}
      aria-hidden="true"
    >
      <line className={styles.whole} x1={across(0)} x2={across(1)} y1={middle} y2={middle} />
      <line className={styles.own} x1={across(range.soft)} x2={across(range.loud)} y1={middle} y2={middle} />
      {plain === null ? null : (
        <circle className={styles.plain} cx={across(Math.min(1, plain))} cy={middle} r={STRIP.radius} />
      )}
    </svg>
  );
}
