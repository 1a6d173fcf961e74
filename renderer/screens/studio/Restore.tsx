import { useRef, useState } from "react";
import { useStudio } from "../../app/StudioContext.tsx";
import { messageOf } from "../../out/saveFile.ts";
import { useWatched } from "../../session/store.ts";
import { shellDoorOf } from "../../shell/index.ts";
import {
  bytesOfFile,
  type Preview,
  previewArchive,
  type Restored,
  restoreArchive,
} from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { newestOfFolder } from "./BackupFolder.tsx";
import styles from "./Studio.module.css";

type State =
  | { readonly at: "rest" }
  | { readonly at: "reading" }
  | { readonly at: "looked"; readonly file: Blob; readonly preview: Preview }
  | { readonly at: "putting" }
  | { readonly at: "done"; readonly restored: Restored }
  | { readonly at: "failed"; readonly reason: string };

/** An archive is looked into first, with its check; then put back. */
export function Restore() {
  const { database, book } = useStudio();
  const { began, stage } = useWatched(book.log);
  const [state, setState] = useState<State>({ at: "rest" });
  const input = useRef<HTMLInputElement>(null);
  const isOn = began !== null && stage !== "ended";
  const look = async (file: Blob): Promise<void> => {
    setState({ at: "reading" });
    try {
      setState({ at: "looked", file, preview: await previewArchive(bytesOfFile(file)) });
    } catch (error) {
      setState({ at: "failed", reason: messageOf(error) });
    }
  };
  const lookAtNewest = async (): Promise<void> => {
    setState({ at: "reading" });
    try {
      const pieces = await newestOfFolder();
      if (!pieces) throw new Error("There is no archive in the backup folder yet.");
      const all: Uint8Array<ArrayBuffer>[] = [];
      for await (const piece of pieces) all.push(new Uint8Array(piece));
      await look(new Blob(all));
    } catch (error) {
      setState({ at: "failed", reason: messageOf(error) });
    }
  };
  const put = async (file: Blob, existing: "stay" | "give-way"): Promise<void> => {
    setState({ at: "putting" });
    try {
      setState({ at: "done", restored: await restoreArchive(database, bytesOfFile(file), existing) });
    } catch (error) {
      setState({ at: "failed", reason: `${messageOf(error)} What was put back until then stays.` });
    }
  };
  return (
    <section>
      <h2>Put back</h2>
      {(state.at === "rest" || state.at === "failed") && (
        <>
          <p>Choose an archive. It is looked into first, and nothing is changed by that.</p>
          <input
            ref={input}
            type="file"
            hidden
            aria-label="An archive"
            onChange={({ target }) => {
              const [file] = target.files ?? [];
              if (file) void look(file);
              target.value = "";
            }}
          />
          <div className={styles.acts}>
            <Button isDisabled={isOn} onPress={() => input.current?.click()}>
              Look into an archive
            </Button>
            {shellDoorOf(window) !== undefined && (
              <Button isDisabled={isOn} onPress={() => void lookAtNewest()}>
                Look into the newest of the backup folder
              </Button>
            )}
          </div>
          {isOn && <p>End the lesson first.</p>}
        </>
      )}
      {state.at === "reading" && <p role="status">Reading and checking it.</p>}
      {state.at === "putting" && <p role="status">Putting it back.</p>}
      {state.at === "looked" && (
        <Looked
          preview={state.preview}
          onPut={(existing) => void put(state.file, existing)}
          onLeave={() => setState({ at: "rest" })}
        />
      )}
      {state.at === "done" && (
        <>
          <p role="status">
            {state.restored.put === 1 ? "1 row is" : `${state.restored.put} rows are`} put back,{" "}
            {state.restored.left} were there already
            {state.restored.setAside > 0
              ? `, ${state.restored.setAside} could not be read and were set aside`
              : ""}
            .
          </p>
          <Button weight="go" onPress={() => window.location.reload()}>
            Load the program again
          </Button>
        </>
      )}
      {state.at === "failed" && (
        <p role="alert" className="trouble">
          {state.reason}
        </p>
      )}
    </section>
  );
}

function Looked({
  preview,
  onPut,
  onLeave,
}: {
  readonly preview: Preview;
  readonly onPut: (existing: "stay" | "give-way") => void;
  readonly onLeave: () => void;
}) {
  const { head, tables, nicknames, lessons, broken } = preview;
  return (
    <>
      <p>
        The archive is whole. It was made on {head.madeAt.slice(0, 10)} and holds {tables.students ?? 0}{" "}
        students, {tables.lessons ?? 0} lessons{lessons ? ` from ${lessons.first} to ${lessons.last}` : ""},{" "}
        {tables.takes ?? 0} takes and {tables.entries ?? 0} entries of the Shelf.
        {broken > 0 && ` ${broken} rows of it cannot be read.`}
      </p>
      {nicknames.length > 0 && <p>Students: {nicknames.join(", ")}.</p>}
      <p>Where something is both here and in the archive, which should hold?</p>
      <div className={styles.acts}>
        <Button weight="go" onPress={() => onPut("stay")}>
          Put back; what is here holds
        </Button>
        <Button onPress={() => onPut("give-way")}>Put back; the archive holds</Button>
        <Button weight="quiet" onPress={onLeave}>
          Leave it
        </Button>
      </div>
    </>
  );
}
