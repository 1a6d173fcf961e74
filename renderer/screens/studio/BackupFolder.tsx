import { useCallback, useEffect, useState } from "react";
import type { DoorAnswered } from "../../../engine/records/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { dayInWords } from "../../out/print/dayWords.ts";
import { messageOf } from "../../out/saveFile.ts";
import { backupPieces, shellDoorOf } from "../../shell/index.ts";
import { Button } from "../../theme/index.ts";
import { backUpToFolder } from "./backUpToFile.ts";
import styles from "./Studio.module.css";

/** In the desktop shell: the folder in which an archive is put after every lesson, old ones giving way to new ones. */
export function FollowFolder() {
  const { database } = useStudio();
  const [folder, setFolder] = useState<DoorAnswered<"backups"> | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const look = useCallback(async (): Promise<void> => {
    const door = shellDoorOf(window);
    if (door) setFolder(await door.ask("backups", {}));
  }, []);
  useEffect(() => {
    look().catch((error) => setTrouble(messageOf(error)));
  }, [look]);
  const orTrouble = (act: () => Promise<void>) => async (): Promise<void> => {
    setTrouble(null);
    try {
      await act();
    } catch (error) {
      setTrouble(messageOf(error));
    }
  };
  const choose = orTrouble(async () => {
    const door = shellDoorOf(window);
    const chosen = door && (await door.ask("chooseBackupFolder", {}));
    if (chosen?.kind === "failed") throw new Error(chosen.reason);
    await look();
  });
  const backUpNow = orTrouble(async () => {
    await backUpToFolder(database, new Date().toISOString());
    await look();
  });
  return (
    <>
      <h3>The backup folder</h3>
      {folder?.kind === "folder" ? (
        <>
          <p>
            After every lesson an archive is put into {folder.folder}. There are {folder.archives.length}
            {folder.archives[0] ? `, the newest of ${dayInWords(folder.archives[0].day)}` : ""}.
          </p>
          <div className={styles.acts}>
            <Button onPress={() => void backUpNow()}>Put one there now</Button>
            <Button weight="quiet" onPress={() => void choose()}>
              Choose another folder
            </Button>
          </div>
        </>
      ) : (
        <>
          <p>Choose a folder, and an archive is put there after every lesson.</p>
          <Button onPress={() => void choose()}>Choose the folder</Button>
        </>
      )}
      {folder?.kind === "failed" && <p role="alert">{folder.reason}</p>}
      {trouble !== null && (
        <p role="alert" className="trouble">
          {trouble}
        </p>
      )}
    </>
  );
}

/** The bytes of the newest archive of the folder; `null` where there is none. */
export async function newestOfFolder(): Promise<AsyncIterable<Uint8Array> | null> {
  const door = shellDoorOf(window);
  const folder = door && (await door.ask("backups", {}));
  if (!door || folder?.kind !== "folder") return null;
  const [newest] = folder.archives;
  return newest ? backupPieces(door, newest.name) : null;
}
