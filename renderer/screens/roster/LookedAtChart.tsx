import { useEffect, useState } from "react";
import type { Student } from "../../../engine/records/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { dayInWords } from "../../out/print/dayWords.ts";
import { storeErrorOf } from "../../store/index.ts";
import { partWords } from "../wall-chart/chartWords.ts";
import { type LooksOfDay, looksEarlier } from "../wall-chart/looksEarlier.ts";
import { LookTable } from "../wall-chart/Told.tsx";
import styles from "./Roster.module.css";

/** What looks at the Wall Chart gained over the latest lessons; nothing where it was never looked at. */
export function LookedAtChart({ student: { id } }: { readonly student: Pick<Student, "id"> }) {
  const { database } = useStudio();
  const [all, setAll] = useState<readonly LooksOfDay[]>([]);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    let isOver = false;
    looksEarlier(database, id).then(
      (found) => !isOver && setAll(found),
      (error) => !isOver && setTrouble(storeErrorOf(error).message),
    );
    return () => {
      isOver = true;
    };
  }, [database, id]);
  if (trouble !== null) return <p role="alert">{trouble}</p>;
  if (all.length === 0) return null;
  return (
    <section className={styles.part}>
      <h2>Wall Chart, look by look</h2>
      {all.map(({ day, looks }, at) => (
        <LookTable
          key={`${at} ${day}`}
          looks={looks}
          caption={`${dayInWords(day)}: ${looks[0] ? partWords(looks[0].settings) : ""}`}
        />
      ))}
    </section>
  );
}
