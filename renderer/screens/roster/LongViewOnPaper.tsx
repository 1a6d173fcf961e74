import { useState } from "react";
import type { Student } from "../../../engine/records/index.ts";
import { heardBefore } from "../../app/heardEarlier.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { PrintPages } from "../../out/print/PrintPages.tsx";
import type { Sheet } from "../../out/print/sheet.ts";
import { storeErrorOf } from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { useNow } from "../desk/useDesk.ts";
import { inStudio } from "../next-time/nextTimePlace.ts";
import { looksEarlier } from "../wall-chart/looksEarlier.ts";
import { longView } from "./longView.ts";

/** All that is known of a student, on paper. It is read when it is asked for. */
export function LongViewOnPaper({ student }: { readonly student: Student }) {
  const { database } = useStudio();
  const { day } = useNow();
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const [stage, setStage] = useState<"idle" | "reading" | { readonly trouble: string }>("idle");
  const open = async (): Promise<void> => {
    setStage("reading");
    try {
      const [evidence, heard, looks] = await Promise.all([
        inStudio(database).evidenceOf(student),
        heardBefore(database, student.id),
        looksEarlier(database, student.id),
      ]);
      setSheet(longView({ nickname: student.nickname, today: day, evidence, heard, looks }));
      setStage("idle");
    } catch (error) {
      setStage({ trouble: storeErrorOf(error).message });
    }
  };
  return (
    <>
      <p>
        <Button isDisabled={stage === "reading"} onPress={() => void open()}>
          All of it on paper
        </Button>{" "}
        <span role="status">{stage === "reading" && "Reading the lessons."}</span>
      </p>
      {typeof stage === "object" && <p role="alert">{stage.trouble}</p>}
      <PrintPages sheet={sheet} onClose={() => setSheet(null)} />
    </>
  );
}
