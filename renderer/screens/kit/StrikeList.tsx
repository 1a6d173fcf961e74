import { useEffect, useState } from "react";
import type { KitEvent } from "../../../engine/kit/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import styles from "./Kit.module.css";
import { strikeLine } from "./strikeWords.ts";

const SHOWN = 12;
const LISTED: ReadonlySet<KitEvent["kind"]> = new Set(["hit", "retrigger", "choke"]);

/** The latest strikes, newest first. */
export function StrikeList() {
  const { session } = useProgram();
  useWatched(session.log);
  const latest = session.log.latest(SHOWN, LISTED);
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
      <SpokenStrikes />
    </>
  );
}

/** A screen reader cannot speak every stroke of a roll: it is told what was struck at most this often. */
const SPEAK_EVERY_MS = 2500;

function SpokenStrikes() {
  const { session } = useProgram();
  const [spoken, setSpoken] = useState("");
  useEffect(() => {
    let told = session.log.get();
    const timer = setInterval(() => {
      const fresh = session.log.entries.slice(told).slice(-SHOWN);
      told = session.log.get();
      const names = new Set(
        fresh.map(({ event }) => strikeLine(event)?.what).filter((name) => name !== undefined),
      );
      if (names.size > 0) setSpoken(`Heard: ${[...names].join(", ")}.`);
    }, SPEAK_EVERY_MS);
    return () => clearInterval(timer);
  }, [session]);
  return (
    <p className="heard-only" aria-live="polite">
      {spoken}
    </p>
  );
}
