import { type KeyboardEvent, memo, type RefObject, useEffect, useMemo, useRef, useState } from "react";
import { kindName, type ShelfEntry } from "../../../engine/catalogue/index.ts";
import { levelName, metreName } from "../../../engine/score/index.ts";
import styles from "./EntryList.module.css";
import { entryLine } from "./entryWords.ts";

/** Height of a row in CSS pixels: that of a target. */
const ROW_PIXELS = 44;
/** Rows drawn above and below what is seen, so that a quick scroll shows no gap. Our choice. */
const MORE_ROWS = 8;

/**
 * The entries that were found, however many: only the rows in sight are drawn. One of them is in focus; Enter or a
 * double click opens it.
 */
export function EntryList({
  entries,
  chosenId,
  listRef,
  onChoose,
  onOpen,
}: {
  readonly entries: readonly ShelfEntry[];
  /** The entry in focus; the first where it is not among them. */
  readonly chosenId: string | null;
  readonly listRef: RefObject<HTMLDivElement | null>;
  readonly onChoose: (id: string) => void;
  readonly onOpen: (id: string) => void;
}) {
  const { from, to, pageRows } = useRowsInSight(listRef, entries.length);
  const chosen = useMemo(
    () =>
      Math.max(
        0,
        entries.findIndex(({ id }) => id === chosenId),
      ),
    [entries, chosenId],
  );
  useRowInSight(listRef, chosen, entries);
  const onKeyDown = (event: KeyboardEvent): void => {
    const entry = entries[chosen];
    const row = rowFrom(event.key, chosen, { last: entries.length - 1, pageRows });
    const next = row === undefined ? undefined : entries[row];
    if (event.key === "Enter" && entry) onOpen(entry.id);
    else if (next) onChoose(next.id);
    else return;
    event.preventDefault();
  };
  return (
    <div
      ref={listRef}
      className={styles.list}
      role="listbox"
      aria-label="On the Shelf"
      aria-activedescendant={entries[chosen] && rowId(entries[chosen].id)}
      tabIndex={0}
      onKeyDown={onKeyDown}
    >
      <div className={styles.all} style={{ height: entries.length * ROW_PIXELS }} role="presentation">
        {entries.slice(from, to).map((entry, index) => (
          <Row
            key={entry.id}
            entry={entry}
            place={from + index}
            count={entries.length}
            isChosen={from + index === chosen}
            onChoose={onChoose}
            onOpen={onOpen}
          />
        ))}
      </div>
    </div>
  );
}

function rowId(id: string): string {
  return `entry-${id}`;
}

const Row = memo(function Row({
  entry,
  place,
  count,
  isChosen,
  onChoose,
  onOpen,
}: {
  readonly entry: ShelfEntry;
  readonly place: number;
  readonly count: number;
  readonly isChosen: boolean;
  readonly onChoose: (id: string) => void;
  readonly onOpen: (id: string) => void;
}) {
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list has the focus and hears the keys.
    // biome-ignore lint/a11y/useFocusableInteractive: the list names its active row.
    <div
      id={rowId(entry.id)}
      className={styles.row}
      style={{ transform: `translateY(${place * ROW_PIXELS}px)` }}
      role="option"
      aria-selected={isChosen}
      aria-setsize={count}
      aria-posinset={place + 1}
      aria-label={entryLine(entry)}
      onClick={() => onChoose(entry.id)}
      onDoubleClick={() => onOpen(entry.id)}
    >
      <span className={styles.name}>
        {entry.name}
        {entry.alsoNamed.length > 0 && <span className={styles.also}>{entry.alsoNamed.join(", ")}</span>}
      </span>
      <span>{kindName(entry.kind)}</span>
      <span>{metreName(entry.metre)}</span>
      <span>
        {entry.tempoBpm.low === entry.tempoBpm.high
          ? entry.tempoBpm.low
          : `${entry.tempoBpm.low}–${entry.tempoBpm.high}`}
      </span>
      <span>{entry.level === null ? "" : levelName(entry.level)}</span>
    </div>
  );
});

/** The row a key leads to. */
function rowFrom(
  key: string,
  at: number,
  { last, pageRows }: { readonly last: number; readonly pageRows: number },
): number | undefined {
  switch (key) {
    case "ArrowDown":
      return Math.min(last, at + 1);
    case "ArrowUp":
      return Math.max(0, at - 1);
    case "PageDown":
      return Math.min(last, at + pageRows);
    case "PageUp":
      return Math.max(0, at - pageRows);
    case "Home":
      return 0;
    case "End":
      return last;
    default:
      return undefined;
  }
}

/** The rows to draw, `from` up to but not `to`. */
function useRowsInSight(list: RefObject<HTMLElement | null>, count: number) {
  const [sight, setSight] = useState({ first: 0, pageRows: 16 });
  useEffect(() => {
    const element = list.current;
    if (!element) return;
    const look = (): void => {
      const first = Math.floor(element.scrollTop / ROW_PIXELS);
      const pageRows = Math.max(1, Math.floor(element.clientHeight / ROW_PIXELS));
      setSight((before) =>
        before.first === first && before.pageRows === pageRows ? before : { first, pageRows },
      );
    };
    look();
    const resized = new ResizeObserver(look);
    resized.observe(element);
    element.addEventListener("scroll", look, { passive: true });
    return () => {
      resized.disconnect();
      element.removeEventListener("scroll", look);
    };
  }, [list]);
  const from = Math.max(0, Math.min(sight.first, count - 1) - MORE_ROWS);
  return {
    from,
    to: Math.min(count, sight.first + sight.pageRows + 1 + MORE_ROWS),
    pageRows: sight.pageRows,
  };
}

/** Scrolls the list so that the row in focus is seen whole. */
function useRowInSight(
  list: RefObject<HTMLElement | null>,
  row: number,
  entries: readonly ShelfEntry[],
): void {
  const last = useRef<readonly ShelfEntry[]>(undefined);
  useEffect(() => {
    const element = list.current;
    if (!element) return;
    const top = row * ROW_PIXELS;
    // What was found anew begins at its top, or at what is in focus.
    if (last.current !== entries && row === 0) element.scrollTop = 0;
    last.current = entries;
    if (top < element.scrollTop) element.scrollTop = top;
    const below = top + ROW_PIXELS - element.clientHeight;
    if (below > element.scrollTop) element.scrollTop = below;
  }, [list, row, entries]);
}
