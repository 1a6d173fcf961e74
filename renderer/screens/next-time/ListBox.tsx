import { type KeyboardEvent, useEffect, useId, useRef } from "react";
import type {
  Day,
  ItemId,
  ListEntry,
  NextTimeList,
  OwnNames,
  Section,
} from "../../../engine/memory/index.ts";
import { SECTIONS } from "../../../engine/memory/index.ts";
import { rowWords } from "./listWords.ts";
import styles from "./NextTime.module.css";

const HEADINGS: Readonly<Record<Section, string>> = { refresh: "Refresh", new: "New" };
const NOTHING: Readonly<Record<Section, string>> = {
  refresh: "Nothing is fading by then.",
  new: "Nothing new has come up.",
};

/** The list in its two parts; one entry is in focus, and arrows go from the one part into the other. */
export function ListBox({
  list,
  today,
  ownNames,
  chosen,
  onChoose,
}: {
  readonly list: NextTimeList;
  readonly today: Day;
  readonly ownNames: OwnNames;
  readonly chosen: ItemId | null;
  readonly onChoose: (item: ItemId) => void;
}) {
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  const entries = [...list.refresh, ...list.new];
  const at = entries.findIndex(({ item }) => item === chosen);
  const idOf = (item: ItemId): string => `${id}-${entries.findIndex((each) => each.item === item)}`;
  useEffect(() => {
    if (at >= 0) box.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: "nearest" });
  }, [at]);
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const next = entries[placeFrom(event.key, at, entries.length - 1) ?? -1];
    if (!next) return;
    event.preventDefault();
    onChoose(next.item);
  };
  if (entries.length === 0)
    return SECTIONS.map((section) => (
      <section key={section} className={styles.part}>
        <h2>{HEADINGS[section]}</h2>
        <p className={styles.none}>{NOTHING[section]}</p>
      </section>
    ));
  return (
    <div
      ref={box}
      className={styles.list}
      role="listbox"
      data-next-time
      aria-label="For the next lesson"
      aria-activedescendant={chosen !== null && at >= 0 ? idOf(chosen) : undefined}
      tabIndex={0}
      onKeyDown={onKeyDown}
    >
      {SECTIONS.map((section) =>
        list[section].length === 0 ? (
          // A group without an entry is none; the page says above how many there are of each.
          <div key={section} className={styles.part} aria-hidden="true">
            <div className={styles.heading}>{HEADINGS[section]}</div>
            <p className={styles.none}>{NOTHING[section]}</p>
          </div>
        ) : (
          // biome-ignore lint/a11y/useSemanticElements: a fieldset is no group of options.
          <div key={section} role="group" aria-label={HEADINGS[section]} className={styles.part}>
            <div className={styles.heads} aria-hidden="true">
              <span className={styles.heading}>{HEADINGS[section]}</span>
              <span>{section === "refresh" ? "chance it is gone" : ""}</span>
              <span>evidence</span>
              <span>asked in</span>
            </div>
            {list[section].map((entry) => (
              <Row
                key={entry.item}
                id={idOf(entry.item)}
                entry={entry}
                today={today}
                ownNames={ownNames}
                isChosen={entry.item === chosen}
                onChoose={onChoose}
              />
            ))}
          </div>
        ),
      )}
    </div>
  );
}

function Row({
  id,
  entry,
  today,
  ownNames,
  isChosen,
  onChoose,
}: {
  readonly id: string;
  readonly entry: ListEntry;
  readonly today: Day;
  readonly ownNames: OwnNames;
  readonly isChosen: boolean;
  readonly onChoose: (item: ItemId) => void;
}) {
  const { name, aspect, chance, evidence, latest, from, teacher } = rowWords(entry, today, ownNames);
  const spoken = [
    name,
    aspect,
    chance === "new" || chance === "not asked yet" ? chance : `chance it is gone: ${chance}`,
    evidence,
    latest,
    teacher,
  ];
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list has the focus and hears the keys.
    // biome-ignore lint/a11y/useFocusableInteractive: the list names its active row.
    <div
      id={id}
      className={styles.row}
      role="option"
      aria-selected={isChosen}
      aria-label={spoken.filter((part) => part !== "").join(", ")}
      onClick={() => onChoose(entry.item)}
    >
      <span className={styles.what}>
        <span className={styles.name}>{name}</span>
        {aspect !== "" && `, ${aspect}`}
        {teacher !== "" && <span className={styles.soft}>{teacher}</span>}
      </span>
      <span>{chance}</span>
      <span>
        {evidence}
        {latest !== "" && <span className={styles.soft}>{latest}</span>}
      </span>
      <span>{from}</span>
    </div>
  );
}

/** The place a key leads to. */
function placeFrom(key: string, at: number, last: number): number | undefined {
  switch (key) {
    case "ArrowDown":
      return Math.min(last, at + 1);
    case "ArrowUp":
      return Math.max(0, at - 1);
    case "Home":
      return 0;
    case "End":
      return last;
    default:
      return undefined;
  }
}
