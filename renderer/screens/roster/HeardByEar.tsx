import { useEffect, useState } from "react";
import { beliefFrom, confusionTable, thresholdOf } from "../../../engine/ear/index.ts";
import type { Student } from "../../../engine/records/index.ts";
import { type HeardBefore, heardBefore } from "../../app/heardEarlier.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { storeErrorOf } from "../../store/index.ts";
import { standsWords } from "../back-turned/backTurnedWords.ts";
import { ConfusionTable } from "../back-turned/ConfusionTable.tsx";
import styles from "./Roster.module.css";

/** What a student heard in Back Turned over the latest lessons, and took for what; nothing where nothing was asked. */
export function HeardByEar({ student: { id } }: { readonly student: Pick<Student, "id"> }) {
  const { database } = useStudio();
  const [heard, setHeard] = useState<HeardBefore | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    let isOver = false;
    heardBefore(database, id).then(
      (found) => !isOver && setHeard(found),
      (error) => !isOver && setTrouble(storeErrorOf(error).message),
    );
    return () => {
      isOver = true;
    };
  }, [database, id]);
  if (trouble !== null) return <p role="alert">{trouble}</p>;
  if (!heard || heard.heard.length === 0) return null;
  return (
    <section className={styles.part}>
      <h2>By ear</h2>
      {heard.answers.length > 0 && <p>{standsWords(thresholdOf(beliefFrom(heard.answers)))}</p>}
      <ConfusionTable rows={confusionTable(heard.heard)} isWhole />
    </section>
  );
}
