/**
 * The foot of a chart: its figures as a table, opened by whoever wants them (the same words for eye and screen reader),
 * and the way to keep the picture.
 */
import { KeepPicture } from "../out/picture/KeepPicture.tsx";
import { ColumnHeads } from "./ColumnHeads.tsx";
import styles from "./charts.module.css";

export interface FigureTableProps {
  /** What the chart shows, for a picture of it: "Lean by beat". */
  readonly shows: string;
  /** What the figures are of; the visible control is named by it. */
  readonly caption: string;
  readonly columns: readonly string[];
  /** One row a thing; the first cell names it. First cells differ from one another. */
  readonly rows: readonly (readonly string[])[];
}

export function FigureTable({ shows, caption, columns, rows }: FigureTableProps) {
  return (
    <div className={styles.foot}>
      <details className={styles.figures}>
        <summary>{caption}</summary>
        <table aria-label={caption}>
          <ColumnHeads columns={columns} />
          <tbody>
            {rows.map(([name, ...cells]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                {cells.map((cell, column) => (
                  <td key={columns[column + 1]}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      <KeepPicture shows={shows} />
    </div>
  );
}
