import type { ItemId, ListEntry, OwnNames } from "../../../engine/memory/index.ts";
import { Button } from "../../theme/index.ts";
import { fullName } from "./listWords.ts";
import styles from "./NextTime.module.css";

/** What the teacher crossed off and would be on the list otherwise. */
export function CrossedOff({
  entries,
  ownNames,
  onPutBack,
}: {
  readonly entries: readonly ListEntry[];
  readonly ownNames: OwnNames;
  readonly onPutBack: (item: ItemId) => void;
}) {
  if (entries.length === 0) return null;
  return (
    <section className={styles.off}>
      <h2>Crossed off</h2>
      <ul>
        {entries.map(({ item, words }) => (
          <li key={item}>
            <s>{words ?? fullName(item, ownNames)}</s>
            <Button weight="quiet" onPress={() => onPutBack(item)}>
              Put it back
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
