import type { Person, PersonId } from "../../../../engine/rooms/index.ts";
import styles from "./LabKits.module.css";
import { figuresWords, leanWords, playedAs } from "./labWords.ts";

/** All kits of a lab at once: who plays what, and how. */
export function LabKits({
  kits,
  onOpen,
}: {
  readonly kits: readonly Person[];
  readonly onOpen: (id: PersonId) => void;
}) {
  return (
    <ul className={styles.kits} aria-label="Kits">
      {kits.map((kit) => (
        <LabKit key={kit.id} kit={kit} onOpen={() => onOpen(kit.id)} />
      ))}
    </ul>
  );
}

function LabKit({ kit, onOpen }: { readonly kit: Person; readonly onOpen: () => void }) {
  const { words, isDoubtful } = playedAs(kit);
  return (
    <li className={styles.kit}>
      <span className={styles.name}>
        <button type="button" id={openButtonId(kit.id)} className={styles.open} onClick={onOpen}>
          {kit.shownName}
        </button>
        {!kit.isHere && " (gone)"}
      </span>
      <span className={styles.lean}>
        <span className="heard-only">, lean: </span>
        {leanWords(kit)}
      </span>
      <span className={styles.plays}>
        <span className={styles.played}>
          <span className="heard-only">plays: </span>
          {words}
        </span>
        {isDoubtful && (
          <span className={styles.doubt}>
            <span aria-hidden="true">?</span>
            <span className="heard-only">, perhaps</span>
          </span>
        )}
      </span>
      <span className={styles.figures}>{figuresWords(kit)}</span>
    </li>
  );
}

/** The button that opens a kit: reading goes on there when it is closed. */
export function openButtonId(id: PersonId): string {
  return `kit-${id}`;
}
