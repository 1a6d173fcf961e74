import { useState } from "react";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { storeErrorOf } from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { inventInWorker } from "./demo/inventInWorker.ts";
import { removeDemoStudio } from "./demo/removeDemoStudio.ts";
import styles from "./Studio.module.css";

/** The invented studio: put there when it is asked for, and removed in one step. */
export function DemoStudio() {
  const { database, roster, book } = useStudio();
  const { students } = useWatched(roster);
  const { began, stage } = useWatched(book.log);
  const [doing, setDoing] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const isHere = students?.some(({ invented }) => invented) ?? false;
  const isOn = began !== null && stage !== "ended";
  const act = async (words: string, work: () => Promise<string>): Promise<void> => {
    setTrouble(null);
    setDoing(words);
    try {
      roster.tell(await work(), { forgetSteps: true });
      await roster.read();
    } catch (error) {
      setTrouble(storeErrorOf(error).message);
    } finally {
      setDoing(null);
    }
  };
  const load = (): Promise<void> =>
    act("Inventing half a year of lessons.", async () => {
      const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
      await inventInWorker({ now: new Date().toISOString(), zone }, (done, of) =>
        setDoing(`Inventing half a year of lessons: ${done} of ${of}.`),
      );
      return "Millrace Studio is here. All of it is invented.";
    });
  const remove = (): Promise<void> =>
    act("Removing it.", async () => {
      await removeDemoStudio(database);
      return "Millrace Studio is removed.";
    });
  return (
    <section>
      <h2>An invented studio</h2>
      <p>
        Millrace Studio, a made-up teaching room above a bicycle workshop: four students, half a year of
        made-up lessons. Every page says that it is invented, and it goes again in one step.
      </p>
      {isHere ? (
        <div className={styles.acts}>
          <Button isDisabled={doing !== null || isOn} onPress={() => void remove()}>
            Remove Millrace Studio
          </Button>
          <a className={styles.way} href={hrefOf("desk")}>
            Look at its Desk
          </a>
        </div>
      ) : (
        <Button isDisabled={doing !== null || students === null} onPress={() => void load()}>
          Look at Millrace Studio
        </Button>
      )}
      <p role="status">{doing}</p>
      {trouble !== null && (
        <p role="alert" className="trouble">
          {trouble}
        </p>
      )}
    </section>
  );
}
