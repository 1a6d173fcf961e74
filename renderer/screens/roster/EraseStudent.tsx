import { useState } from "react";
import type { ShelfEntry } from "../../../engine/catalogue/index.ts";
import type { Student } from "../../../engine/records/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { NameTakenError, type Shelf, storeErrorOf } from "../../store/index.ts";
import { Button, TextBox } from "../../theme/index.ts";
import { type Erasing, eraseStudent, lookAtErasing } from "./eraseStudent.ts";
import styles from "./Roster.module.css";

/** Erases a student: looks first, asks for the nickname, and then does it. Nothing brings back what is erased. */
export function EraseStudent({
  student,
  isBlocked,
}: {
  readonly student: Student;
  readonly isBlocked: boolean;
}) {
  const { database, roster } = useStudio();
  const { lesson } = useProgram();
  const { students } = useWatched(roster);
  const [found, setFound] = useState<Erasing | null>(null);
  const [typed, setTyped] = useState("");
  const [doing, setDoing] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const { nickname } = student;
  const isSure = typed.trim().toLocaleLowerCase() === nickname.toLocaleLowerCase();
  const look = async (): Promise<void> => {
    try {
      setFound(await lookAtErasing(database, student.id));
    } catch (error) {
      setTrouble(storeErrorOf(error).message);
    }
  };
  const erase = async (): Promise<void> => {
    setDoing("Erasing.");
    try {
      const { shelf } = await lesson.load();
      await eraseStudent(
        database,
        student,
        students ?? [],
        (entry) => keepUnderFreeName(shelf, entry),
        (done, of) => setDoing(`Erasing: lesson ${done} of ${of}.`),
      );
      roster.tell("The student is erased. Backups made before still hold them: delete those as well.", {
        forgetSteps: true,
      });
      window.location.hash = hrefOf("roster");
    } catch (error) {
      setDoing(null);
      setTrouble(`${storeErrorOf(error).message} Erase once more to finish it.`);
    }
  };
  return (
    <div className={styles.way}>
      <h3>Erase</h3>
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      {found === null ? (
        <>
          <p>All that is kept of {nickname} goes from this computer, for good.</p>
          <Button isDisabled={isBlocked} onPress={() => void look()}>
            Erase {nickname}
          </Button>
          {isBlocked && <p className={styles.soft}>End the lesson first.</p>}
        </>
      ) : (
        <>
          <p>This goes, and nothing brings it back:</p>
          <ul>
            <li>what is said of {nickname}, and the places in groups</li>
            <li>{wholeWords(found)}</li>
            <li>{partWords(found)}</li>
            <li>
              {found.takes} takes, {found.results} results and {found.listChanges} changes of the list for
              next time
            </li>
            <li>the name, wherever it is written in remarks, notes and names of others</li>
          </ul>
          <TextBox
            label={`To be sure, write the nickname: ${nickname}`}
            value={typed}
            autoFocus
            onChange={setTyped}
          />
          <div className={styles.acts}>
            <Button isDisabled={!isSure || doing !== null} onPress={() => void erase()}>
              Erase for good
            </Button>
            <Button weight="quiet" isDisabled={doing !== null} onPress={() => setFound(null)}>
              Keep {nickname}
            </Button>
          </div>
          <p role="status">{doing}</p>
        </>
      )}
    </div>
  );
}

/** Another entry may have the name already that is left: then it is given a number. */
async function keepUnderFreeName(shelf: Shelf, entry: ShelfEntry): Promise<void> {
  for (let number = 1; ; number += 1) {
    try {
      await shelf.keep(number === 1 ? entry : { ...entry, name: `${entry.name} ${number}` });
      return;
    } catch (error) {
      if (!(error instanceof NameTakenError) || number > 99) throw error;
    }
  }
}

function wholeWords({ alone }: Erasing): string {
  return alone === 1 ? "1 lesson, with every strike in it" : `${alone} lessons, with every strike in them`;
}

function partWords({ shared }: Erasing): string {
  return shared === 1
    ? "the own part of 1 lesson with others"
    : `the own part of ${shared} lessons with others`;
}
