/** The figures of a chart as a table, opened by whoever wants them: the same words for eye and screen reader. */
import { ColumnHeads } from "./ColumnHeads.tsx";
import styles from "./charts.module.css";

export interface FigureTableProps {
  /** What the figures are of; the visible control is named by it. */
  readonly caption: string;
  readonly columns: readonly string[];
  /** One row a thing; the first cell names it. First cells differ from one another. */
  readonly rows: readonly (readonly string[])[];
}

export function FigureTable({ caption, columns, rows }: FigureTableProps) {
  return (
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
  );
}
