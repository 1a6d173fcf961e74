import { useId } from "react";
import { FileTrigger } from "react-aria-components";
import { useLesson } from "../../../app/LessonContext.tsx";
import { Note, Page } from "../../../app/Page.tsx";
import { useWatched } from "../../../session/store.ts";
import { Button } from "../../../theme/index.ts";
import styles from "../Shelf.module.css";
import { useOpenKeys } from "../useOpenKeys.ts";
import { fromDialogue } from "./chosenFiles.ts";
import type { ImportState } from "./shelfImport.ts";

const NOTHING = (): void => undefined;

/** MIDI files, one or a folder of a thousand: how far it is, what did not work and why, and a way to end it. */
export function ImportPage() {
  const { shelfDesk, shelfImport } = useLesson();
  const state = useWatched(shelfImport);
  useOpenKeys({ keep: NOTHING, undo: NOTHING, redo: NOTHING, leave: () => shelfDesk.leave() });
  return (
    <Page
      title="Import MIDI files"
      sub="The groove that comes round in each is kept under the file’s name; what is too short for that, as a phrase."
      takesFocus
      margin={
        <Note heading="What can be read">
          <p>Standard MIDI Files of any kind and division, with their tempos and metres.</p>
          <p>The strikes are named by the kit map that knows most of them.</p>
          <p>Nothing leaves this computer.</p>
        </Note>
      }
    >
      {state.stage !== "running" && <Choose />}
      {state.stage !== "none" && <Progress state={state} />}
      <div className={styles.foot}>
        {state.stage === "running" && <Button onPress={() => shelfImport.cancel()}>Cancel</Button>}
        <Button weight="quiet" onPress={() => shelfDesk.leave()}>
          Back to the Shelf
        </Button>
        {state.stage === "running" && <span className={styles.hint}>It goes on meanwhile.</span>}
      </div>
    </Page>
  );
}

function Choose() {
  const { shelfImport } = useLesson();
  const take = (files: FileList | null): void => {
    if (files) void shelfImport.start(fromDialogue([...files]));
  };
  return (
    <div className={styles.row}>
      <FileTrigger allowsMultiple acceptedFileTypes={[".mid", ".midi", ".smf", "audio/midi"]} onSelect={take}>
        <Button weight="go">Choose files</Button>
      </FileTrigger>
      <FileTrigger acceptDirectory onSelect={take}>
        <Button>Choose a folder</Button>
      </FileTrigger>
      <span className={styles.hint}>or drop files or a folder here</span>
    </div>
  );
}

function Progress({ state }: { readonly state: ImportState }) {
  const bar = useId();
  const { total, done, failures, trouble, stage } = state;
  return (
    <section className={styles.section}>
      <div className={styles.progress}>
        <label htmlFor={bar}>
          {stage === "running" ? `${done} of ${total} files read.` : `${done} of ${total} files were read.`}
        </label>
        <progress id={bar} max={Math.max(1, total)} value={done} />
      </div>
      {stage === "ended" && (
        <p role="status" className={styles.say}>
          {endWords(state)}
        </p>
      )}
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      {failures.length > 0 && (
        <>
          <h2>Not imported: {failures.length}</h2>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys. */}
          <ul className={styles.failures} tabIndex={0} aria-label="Not imported, and why">
            {failures.map(({ path, reason }) => (
              <li key={path}>
                <strong>{path}</strong>
                <br />
                {reason}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** "12 grooves and 1 phrase were kept." and what else there is to say. */
export function endWords({ grooves, phrases, isCancelled, passedOver, total }: ImportState): string {
  const counts = [
    grooves === 1 ? "1 groove" : `${grooves} grooves`,
    ...(phrases === 0 ? [] : [phrases === 1 ? "1 phrase" : `${phrases} phrases`]),
  ].join(" and ");
  const kept = `${counts} ${grooves + phrases === 1 && phrases === 0 ? "was" : "were"} kept`;
  const end = isCancelled
    ? `Cancelled: ${kept}, each of them whole.`
    : total === 0
      ? "There was no MIDI file among them."
      : `${kept}.`;
  const others = passedOver === 1 ? "1 other file was" : `${passedOver} other files were`;
  return passedOver === 0 ? end : `${end} ${others} passed over.`;
}
