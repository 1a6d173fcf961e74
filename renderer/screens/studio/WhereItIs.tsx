import { useEffect, useState } from "react";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { shellDoorOf } from "../../shell/index.ts";
import { storeErrorOf } from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { type StudioCounts, studioCounts } from "./studioCounts.ts";

interface Place {
  readonly usedBytes: number | null;
  readonly roomBytes: number | null;
  /** Whether the browser has promised not to clear it by itself; `null` where it does not say. */
  readonly isPromised: boolean | null;
}

/** Storage Standard (WHATWG): estimate, persisted. Not every browser has them. */
async function placeNow(): Promise<Place> {
  const { storage } = navigator;
  if (!storage) return { usedBytes: null, roomBytes: null, isPromised: null };
  const { usage, quota } = await storage.estimate();
  return { usedBytes: usage ?? null, roomBytes: quota ?? null, isPromised: await storage.persisted() };
}

/** What is kept, where, and how much room it takes. */
export function WhereItIs() {
  const { database, roster } = useStudio();
  const { students } = useWatched(roster);
  const [place, setPlace] = useState<Place | null>(null);
  const [counts, setCounts] = useState<StudioCounts | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  // Who comes and goes changes what is counted.
  useEffect(() => {
    let isOver = false;
    Promise.all([placeNow(), studioCounts(database)]).then(
      ([found, counted]) => {
        if (isOver) return;
        setPlace(found);
        setCounts(counted);
      },
      (error) => !isOver && setTrouble(storeErrorOf(error).message),
    );
    return () => {
      isOver = true;
    };
  }, [database, students]);
  const inShell = shellDoorOf(window) !== undefined;
  return (
    <section>
      <h2>Where it is kept</h2>
      <p>
        {inShell
          ? "On this computer, in the program’s own folder of your user account."
          : "On this computer, in this browser’s storage for this address. Clearing the browser’s data of this page clears it too: keep backups."}
      </p>
      {trouble !== null && (
        <p role="alert" className="trouble">
          {trouble}
        </p>
      )}
      {counts && (
        <p>
          {counted(counts.students, "student")}, {counted(counts.lessons, "lesson")},{" "}
          {counted(counts.takes, "take")}; of your own on the Shelf: {counts.entries}.
          {counts.setAside > 0 &&
            ` ${counts.setAside} rows could not be read and were set aside; they go into every backup as they are.`}
        </p>
      )}
      {place?.usedBytes !== null && place !== null && (
        <p>
          {megabytes(place.usedBytes)} used
          {place.roomBytes === null ? "" : `, of ${megabytes(place.roomBytes)} there may be`}.
        </p>
      )}
      {place?.isPromised === false && !inShell && (
        <>
          <p>The browser may clear it by itself when the disk is nearly full.</p>
          <Button
            onPress={async () => {
              await navigator.storage.persist();
              setPlace(await placeNow());
            }}
          >
            Ask the browser to keep it
          </Button>
        </>
      )}
    </section>
  );
}

function counted(count: number, what: string): string {
  return count === 1 ? `1 ${what}` : `${count} ${what}s`;
}

function megabytes(bytes: number): string {
  if (bytes >= 1e9) return `${(bytes / 1e9).toFixed(1)} GB`;
  return `${Math.max(0.1, bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`;
}
