import { type FormEvent, useState } from "react";
import { LEVELS, levelName } from "../../../engine/score/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, Choice, NumberBox, TextBox } from "../../theme/index.ts";
import { WEEKDAYS } from "./lessonTimes.ts";
import styles from "./Roster.module.css";
import { isSameDraft, isSameName, type StudentDraft, whatIsMissing } from "./studentDraft.ts";

const LEVEL_OPTIONS = LEVELS.map((id) => ({ id, name: levelName(id) }));
const HANDS = [
  { id: "right", name: "right-handed" },
  { id: "left", name: "left-handed" },
] as const;
const DAYS = [{ id: "0", name: "no fixed day" }, ...WEEKDAYS];

/** What is said of a student. */
export function StudentForm({
  start,
  studentId,
  keepWords,
  autoFocus = false,
  onKeep,
}: {
  readonly start: StudentDraft;
  readonly studentId?: string;
  readonly keepWords: string;
  readonly autoFocus?: boolean;
  readonly onKeep: (draft: StudentDraft) => void;
}) {
  const { roster } = useStudio();
  const { students } = useWatched(roster);
  const [draft, setDraft] = useState(start);
  const [isTried, setTried] = useState(false);
  const set = (change: Partial<StudentDraft>): void => setDraft((before) => ({ ...before, ...change }));
  const missing = whatIsMissing(draft);
  const isDouble = draft.nickname.trim() !== "" && isSameName(draft.nickname, students ?? [], studentId);
  const keep = (event: FormEvent): void => {
    event.preventDefault();
    setTried(true);
    if (missing === null) onKeep(draft);
  };
  return (
    <form className={styles.form} onSubmit={keep}>
      <div className={styles.fields}>
        <TextBox
          label="Nickname"
          value={draft.nickname}
          most={60}
          autoFocus={autoFocus}
          onChange={(nickname) => set({ nickname })}
        />
        <Choice
          label="Level"
          options={LEVEL_OPTIONS}
          chosen={draft.level}
          onChoose={(level) => set({ level })}
        />
        <Choice label="Hand" options={HANDS} chosen={draft.hand} onChoose={(hand) => set({ hand })} />
      </div>
      {isDouble && <p className={styles.soft}>Another student goes by this nickname already.</p>}
      <div className={styles.fields}>
        <Choice
          label="Lesson day"
          options={DAYS}
          chosen={draft.weekday}
          onChoose={(weekday) => set({ weekday })}
        />
        {draft.weekday !== "0" && (
          <>
            <TextBox label="From" type="time" value={draft.from} onChange={(from) => set({ from })} />
            <NumberBox
              label="Minutes"
              value={draft.minutes}
              least={5}
              most={240}
              onChange={(minutes) => set({ minutes })}
            />
          </>
        )}
      </div>
      <TextBox label="Notes" lines={3} value={draft.notes} onChange={(notes) => set({ notes })} />
      <div className={styles.consent}>
        <TextBox
          label="Consent to these records: who agreed"
          hint="a guardian, for a child"
          value={draft.consentBy}
          most={200}
          onChange={(consentBy) => set({ consentBy })}
        />
        <TextBox
          label="On which day"
          type="date"
          value={draft.consentOn}
          onChange={(consentOn) => set({ consentOn })}
        />
      </div>
      {isTried && missing !== null && (
        <p role="alert" className={styles.trouble}>
          {missing}
        </p>
      )}
      <div className={styles.acts}>
        <Button type="submit" weight="go" isDisabled={studentId !== undefined && isSameDraft(draft, start)}>
          {keepWords}
        </Button>
      </div>
    </form>
  );
}
