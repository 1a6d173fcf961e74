import { useState } from "react";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { storeErrorOf } from "../../store/index.ts";
import { Button, TextBox } from "../../theme/index.ts";
import styles from "./Studio.module.css";

const SURE = "erase";

/** Everything the program keeps on this computer goes. */
export function EraseAll() {
  const { database, book, roster } = useStudio();
  const { began, stage } = useWatched(book.log);
  const [isOpen, setOpen] = useState(false);
  const [typed, setTyped] = useState("");
  const [trouble, setTrouble] = useState<string | null>(null);
  const isOn = began !== null && stage !== "ended";
  const erase = async (): Promise<void> => {
    try {
      roster.stop();
      await database.delete();
      window.localStorage.clear();
      window.location.reload();
    } catch (error) {
      setTrouble(storeErrorOf(error).message);
    }
  };
  return (
    <section>
      <h2>Erase everything</h2>
      <p>
        All students, lessons, takes, your own Shelf and settings go from this computer. Backups you made stay
        where you saved them.
      </p>
      {!isOpen && (
        <Button isDisabled={isOn} onPress={() => setOpen(true)}>
          Erase everything
        </Button>
      )}
      {isOn && <p>End the lesson first.</p>}
      {isOpen && (
        <>
          <TextBox
            label={`Nothing brings it back. To be sure, write: ${SURE}`}
            value={typed}
            autoFocus
            onChange={setTyped}
          />
          <div className={styles.acts}>
            <Button isDisabled={isOn || typed.trim().toLowerCase() !== SURE} onPress={() => void erase()}>
              Erase for good
            </Button>
            <Button weight="quiet" onPress={() => setOpen(false)}>
              Keep everything
            </Button>
          </div>
        </>
      )}
      {trouble !== null && (
        <p role="alert" className="trouble">
          {trouble}
        </p>
      )}
    </section>
  );
}
