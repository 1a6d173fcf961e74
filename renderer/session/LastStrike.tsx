import { useLayoutEffect } from "react";
import { type KitEvent, voiceName } from "../../engine/kit/index.ts";
import { useProgram } from "../app/ProgramContext.tsx";
import type { HeardKit } from "./heardKit.ts";
import styles from "./LastStrike.module.css";
import { measureStrikePaint } from "./paintMark.ts";
import { useWatched } from "./store.ts";

const HITS: ReadonlySet<KitEvent["kind"]> = new Set(["hit"]);

/**
 * The last strike, in the frame after it came: proof for the player that the kit is heard.
 *
 * @param of the kit whose turn it is, where no other is named.
 */
export function LastStrike({ of }: { readonly of?: HeardKit }) {
  const { session } = useProgram();
  const listened = useWatched(session.listened);
  const { log } = of ?? listened;
  useWatched(log);
  const [last] = log.latest(1, HITS);
  const index = last?.index;
  useLayoutEffect(() => {
    if (index === undefined) return;
    const entry = log.entries[index];
    if (entry?.live && entry.event.kind === "hit") measureStrikePaint(entry.event.hit.time);
  }, [index, log]);
  if (last?.entry.event.kind !== "hit") {
    return <p className={styles.strike}>No strike yet.</p>;
  }
  const { hit } = last.entry.event;
  return (
    <p className={styles.strike}>
      <svg className={styles.mark} viewBox="0 0 24 24" aria-hidden="true">
        <circle className={styles.open} cx="12" cy="12" r="9" />
        <circle key={index} className={styles.struck} cx="12" cy="12" r={4 + 7 * hit.velocity} />
      </svg>
      {hit.voice === "unknown" ? `unknown pad, key ${hit.pad}` : voiceName(hit.voice)}
    </p>
  );
}
