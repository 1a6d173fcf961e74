import { useEffect, useState } from "react";
import type { KitEvent } from "../../../engine/kit/index.ts";
import type { KitLog } from "../../session/kitLog.ts";
import { useWatched } from "../../session/store.ts";
import styles from "./Kit.module.css";
import { strikeLine } from "./strikeWords.ts";

const SHOWN = 12;
const LISTED: ReadonlySet<KitEvent["kind"]> = new Set(["hit", "retrigger", "choke"]);

/** The latest strikes of a kit, newest first. */
export function StrikeList({ log }: { readonly log: KitLog }) {
  useWatched(log);
  const latest = log.latest(SHOWN, LISTED);
  return (
    <>
      <table className={styles.strikes} aria-label="Latest strikes, newest first">
        <thead>
          <tr>
            <th>struck</th>
            <th>where and how</th>
            <th>strength, of 127</th>
            <th>key</th>
            <th>time</th>
          </tr>
        </thead>
        <tbody>
          {latest.length === 0 && (
            <tr>
              <td colSpan={5} className={styles.empty}>
                Nothing yet: strike a pad, press a letter, or let the demonstration play.
              </td>
            </tr>
          )}
          {latest.map(({ index, entry }) => {
            const line = strikeLine(entry.event);
            return (
              line && (
                <tr key={index}>
                  <td>{line.what}</td>
                  <td>{line.how}</td>
                  <td>{line.strength}</td>
                  <td>{line.key}</td>
                  <td>{line.time}</td>
                </tr>
              )
            );
          })}
        </tbody>
      </table>
      <SpokenStrikes log={log} />
    </>
  );
}

/** A screen reader cannot speak every stroke of a roll: it is told what was struck at most this often. */
const SPEAK_EVERY_MS = 2500;

function SpokenStrikes({ log }: { readonly log: KitLog }) {
  const [spoken, setSpoken] = useState("");
  useEffect(() => {
    let told = log.get();
    const timer = setInterval(() => {
      const fresh = log.entries.slice(told).slice(-SHOWN);
      told = log.get();
      const names = new Set(
        fresh.map(({ event }) => strikeLine(event)?.what).filter((name) => name !== undefined),
      );
      if (names.size > 0) setSpoken(`Heard: ${[...names].join(", ")}.`);
    }, SPEAK_EVERY_MS);
    return () => clearInterval(timer);
  }, [log]);
  return (
    <p className="heard-only" aria-live="polite">
      {spoken}
    </p>
  );
}
