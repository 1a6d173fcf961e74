/** What else is known of a take, folded away until somebody asks: the M key, or the line itself, opens it. */
import { useState } from "react";
import type { GapDrift, Report } from "../../../../engine/grading/index.ts";
import { WideTable } from "../../../charts/index.ts";
import { useReportKey } from "../useReportKey.ts";
import { type MoreSection, moreSections } from "./moreSections.ts";
import styles from "./report.module.css";
import { silenceSection } from "./silenceSection.ts";

export function MoreAboutThisTake({
  report,
  gapDrifts,
}: {
  readonly report: Report;
  /** What happened while the click was silent. */
  readonly gapDrifts: readonly GapDrift[];
}) {
  const [isOpen, setIsOpen] = useState(false);
  useReportKey("KeyM", () => setIsOpen((was) => !was));
  return (
    <details
      className={styles.more}
      open={isOpen}
      onToggle={({ currentTarget }) => setIsOpen(currentTarget.open)}
    >
      <summary>
        <h2>More about this take</h2> <kbd>M</kbd>
      </summary>
      <div className={styles.sections}>
        {[...silenceSection(gapDrifts), ...moreSections(report)].map((section) => (
          <Section key={section.heading} section={section} />
        ))}
      </div>
    </details>
  );
}

function Section({ section: { heading, sentences, table } }: { readonly section: MoreSection }) {
  return (
    <section>
      <h3>{heading}</h3>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {table === null ? null : (
        <WideTable label={heading}>
          <table aria-label={heading}>
            <thead>
              <tr>
                {table.columns.map((column) => (
                  <th key={column} scope="col">
                    {column}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map(([name, ...cells], row) => (
                // Two slips may be at one place: the order is their identity.
                <tr key={`${row} ${name}`}>
                  <th scope="row">{name}</th>
                  {cells.map((cell, column) => (
                    <td key={table.columns[column + 1]}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </WideTable>
      )}
    </section>
  );
}
