/** Lines of the staff on a page, as wide as the page, with a sign under the note that is to be worked on. */
import type { Path } from "../../../engraving/index.ts";
import styles from "./print.module.css";
import { SIGN, type StaffLine } from "./staffLines.ts";

export interface SheetStaffProps {
  /** "Samba" */
  readonly of: string;
  readonly lines: readonly StaffLine[];
}

export function SheetStaff({ of, lines }: SheetStaffProps) {
  return (
    <div className={styles.staff} role="img" aria-label={`${of} on the staff`} data-staff>
      {lines.map((line) => (
        <div key={`${line.section ?? ""} ${line.paths[0]?.d ?? ""}`} className={styles.staffLine}>
          {line.section === undefined ? null : <p className={styles.section}>{line.section}</p>}
          <Line line={line} />
        </div>
      ))}
    </div>
  );
}

function Line({ line: { width, top, height, paths, sign } }: { readonly line: StaffLine }) {
  return (
    <svg viewBox={`0 ${top} ${width} ${height}`} aria-hidden="true" data-staff-line>
      {paths.map((path) => (
        <Drawn key={`${path.strokeWidth ?? ""} ${path.dash ?? ""} ${path.tone}`} path={path} />
      ))}
      {sign && (
        <g data-work-mark>
          <path d={`M${sign.x} ${sign.y}l${SIGN.half} ${SIGN.height}h${-2 * SIGN.half}z`} />
          <text x={sign.x} y={sign.y + SIGN.height + SIGN.text} textAnchor="middle" fontSize={SIGN.text}>
            here
          </text>
        </g>
      )}
    </svg>
  );
}

function Drawn({ path: { d, strokeWidth, dash } }: { readonly path: Path }) {
  if (strokeWidth === undefined) return <path d={d} />;
  return <path d={d} fill="none" stroke="currentColor" strokeWidth={strokeWidth} strokeDasharray={dash} />;
}
