import { Note } from "../../app/Page.tsx";
import styles from "./replay.module.css";
import { REPLAY_KEYS } from "./useReplayKeys.ts";

/** The keys of this page; those for several kits only where there are. */
export function KeysShown({ kits }: { readonly kits: number }) {
  return (
    <Note heading="Keys">
      <dl className={styles.keys}>
        {REPLAY_KEYS.filter(({ needs }) => needs === undefined || kits > 1).map(({ caps, does }) => (
          <div key={does}>
            <dt>
              {caps.map((cap) => (
                <kbd key={cap}>{cap}</kbd>
              ))}
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </Note>
  );
}
