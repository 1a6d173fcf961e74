/** The strike at the cursor in words, and those near it as a table: all that the picture shows, to be read and heard. */
import { useMemo, useSyncExternalStore } from "react";
import { voiceName } from "../../../engine/kit/index.ts";
import { WideTable } from "../../charts/index.ts";
import styles from "./replay.module.css";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { momentWords, strengthWords, strikeWords } from "./replayWords.ts";
import { type Strikes, strikeAt } from "./strikes.ts";
import type { TakeAgain } from "./takeAgain.ts";

export interface StrikesSeenProps {
  /** Of the kit that is walked along. */
  readonly strikes: Strikes;
  readonly player: ReplayPlayer;
  readonly again: TakeAgain | undefined;
}

/** Strikes before and after the one at the cursor that stand in the table. Our choice. */
const NEAR = 6;

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export function StrikesSeen({ strikes, player, again }: StrikesSeenProps) {
  // While it is played nobody can read along: the table stands still.
  const index = useSyncExternalStore(player.subscribe, () => {
    const { isPlaying, cursor } = player.get();
    return isPlaying ? -1 : (strikeAt(strikes, cursor) ?? -1);
  });
  const rows = useMemo(
    () =>
      index < 0
        ? []
        : strikes.hits.slice(Math.max(0, index - NEAR), index + NEAR + 1).map((hit) => ({
            hit,
            isHere: hit === strikes.hits[index],
          })),
    [strikes, index],
  );
  const here = index < 0 ? undefined : strikes.hits[index];
  return (
    <section className={styles.section}>
      <h2>The strike at the cursor</h2>
      <p role="status">
        {here
          ? `${sentence(voiceName(here.voice))}, ${momentWords(here.time, 3)}, strength ${strengthWords(here)}: ${strikeWords(here, again)}.`
          : "None here. Shift and an arrow key lead to the next one."}
      </p>
      {rows.length > 0 && (
        <details className={styles.more}>
          <summary>Those about it</summary>
          <WideTable label="Strikes about the cursor">
            <table aria-label="Strikes about the cursor">
              <thead>
                <tr>
                  <th scope="col">moment</th>
                  <th scope="col">voice</th>
                  <th scope="col">strength</th>
                  <th scope="col">what it was</th>
                </tr>
              </thead>
              <tbody>
                {rows.map(({ hit, isHere }, row) => (
                  // Two strikes can be alike in every respect: the order is their identity.
                  <tr key={row} aria-current={isHere ? "true" : undefined}>
                    <th scope="row">
                      {momentWords(hit.time, 3)}
                      {isHere && " (here)"}
                    </th>
                    <td>{voiceName(hit.voice)}</td>
                    <td>{strengthWords(hit)}</td>
                    <td>{strikeWords(hit, again)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </WideTable>
        </details>
      )}
    </section>
  );
}
