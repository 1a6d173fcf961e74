/** What a round showed, or a student over all lessons, on paper. No count on it is a mark. */
import { Paper, SheetTop } from "./SheetParts.tsx";
import type { SheetHead, TallyPart } from "./sheet.ts";
import styles from "./tallyPage.module.css";
import { tallyPages } from "./tallyPages.ts";

export function TallyPage({
  of,
  under,
  parts,
  head,
}: {
  readonly of: string;
  readonly under: string;
  readonly parts: readonly TallyPart[];
  readonly head: SheetHead;
}) {
  return tallyPages(parts).map((page, at) => (
    <Paper key={at}>
      {at === 0 && (
        <SheetTop head={head} kind="Tally" title={of}>
          {under}
        </SheetTop>
      )}
      {page.map((part) => (
        <OnePart key={`${part.kind} ${part.heading}`} part={part} />
      ))}
    </Paper>
  ));
}

function OnePart({ part }: { readonly part: TallyPart }) {
  return (
    <section className={styles.part}>
      <h2>{part.heading}</h2>
      {part.kind === "lines" ? <Lines {...part} /> : <Table {...part} />}
    </section>
  );
}

function Lines({ lines }: Extract<TallyPart, { readonly kind: "lines" }>) {
  return (
    <ul className={styles.lines}>
      {lines.map(({ key, name, remark }) => (
        <li key={key}>
          {name}
          {remark !== "" && <small>{remark}</small>}
        </li>
      ))}
    </ul>
  );
}

function Table({ columns, rows }: Extract<TallyPart, { readonly kind: "table" }>) {
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, ...cells], row) => (
          <tr key={`${row} ${name}`}>
            <th scope="row">{name}</th>
            {cells.map((cell, at) => (
              <td key={columns[at + 1]}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
