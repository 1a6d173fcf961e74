import { type ReactNode, useDeferredValue, useMemo, useRef } from "react";
import type { ShelfFilter } from "../../../engine/catalogue/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note, Page } from "../../app/Page.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, FindBox, useSlashKey } from "../../theme/index.ts";
import { EntryList } from "./EntryList.tsx";
import { Filters } from "./Filters.tsx";
import styles from "./Shelf.module.css";

/** The list: found by name, narrowed by what it is. */
export function Browse() {
  const { shelf, shelfDesk } = useLesson();
  const { stage, changes, setAside, trouble: kept } = useWatched(shelf);
  const { typed, filter, chosenId, putAway, said, trouble } = useWatched(shelfDesk);
  // Letters come first: among 20,000 entries the list may follow a moment later.
  const sought = useDeferredValue(typed);
  const found = useMemo(() => {
    void changes; // The index changes in place: its count of changes says so.
    return shelf.index.find(sought, filter);
  }, [shelf, changes, sought, filter]);
  const openChosen = (): void => {
    const now = sought === typed ? found : shelf.index.find(typed, filter);
    const entry = now.find(({ id }) => id === chosenId) ?? now[0];
    if (entry) shelfDesk.open(entry.id);
  };
  const line = useRef<HTMLInputElement>(null);
  const list = useRef<HTMLDivElement>(null);
  useSlashKey(line);
  return (
    <Page
      title="Shelf"
      sub={stage === "loading" ? "Reading what was kept." : countWords(found.length, shelf.index.size)}
      margin={
        <>
          <Note heading="Put something on it">
            <div className={styles.make}>
              <Button onPress={() => shelfDesk.record()}>Record by playing</Button>
              <Button onPress={() => shelfDesk.write("groove")}>Write a groove</Button>
              <div className={styles.others}>
                <Button weight="quiet" onPress={() => shelfDesk.write("fill")}>
                  a fill
                </Button>
                <Button weight="quiet" onPress={() => shelfDesk.write("phrase")}>
                  a phrase
                </Button>
                <Button weight="quiet" onPress={() => shelfDesk.write("part")}>
                  a drum part
                </Button>
              </div>
              <Button onPress={() => shelfDesk.import()}>Import MIDI files</Button>
            </div>
          </Note>
          <Note heading="With keys">
            <p>
              <kbd>/</kbd> finds, arrows choose, <kbd>Enter</kbd> opens, <kbd>Esc</kbd> comes back.
            </p>
          </Note>
          {setAside > 0 && <Note heading="Set aside">{<p>{setAsideWords(setAside)}</p>}</Note>}
        </>
      }
    >
      <Said said={said} troubles={[kept, trouble]}>
        {putAway && (
          <Button weight="quiet" onPress={() => void shelfDesk.bringBack()}>
            Bring it back
          </Button>
        )}
      </Said>
      <FindBox
        label="Find on the Shelf, by any name it goes by"
        keyCap="/"
        typed={typed}
        inputRef={line}
        onType={(next) => shelfDesk.find({ typed: next })}
        onEnter={openChosen}
        onArrowDown={() => list.current?.focus()}
      />
      <Filters filter={filter} onFilter={(next: ShelfFilter) => shelfDesk.find({ filter: next })} />
      <div className={styles.heads} aria-hidden="true">
        <span>name</span>
        <span>kind</span>
        <span>metre</span>
        <span>a minute</span>
        <span>level</span>
      </div>
      {found.length === 0 ? (
        <p className={styles.none}>
          {stage === "loading"
            ? "Still reading."
            : "Nothing on the Shelf is called that, or is of that kind. Leave out a word, or choose “any”."}
        </p>
      ) : (
        <EntryList
          entries={found}
          chosenId={chosenId}
          listRef={list}
          onChoose={(id) => shelfDesk.dispatch({ chosenId: id })}
          onOpen={(id) => shelfDesk.open(id)}
        />
      )}
      <div className={styles.openLine}>
        <Button weight="go" isDisabled={found.length === 0} onPress={openChosen}>
          Open
        </Button>
        <span className={styles.hint}>Enter, or a double click</span>
      </div>
    </Page>
  );
}

/** What was done, and what went wrong, each in its sentence. */
export function Said({
  said,
  troubles,
  children,
}: {
  readonly said: string | null;
  readonly troubles: readonly (string | null)[];
  readonly children?: ReactNode;
}) {
  return (
    <>
      <p role="status" className="said">
        {said} {children}
      </p>
      {troubles.map(
        (trouble) =>
          trouble !== null && (
            <p key={trouble} role="alert" className={styles.trouble}>
              {trouble}
            </p>
          ),
      )}
    </>
  );
}

function countWords(found: number, all: number): string {
  return found === all ? `${all} entries.` : `${found} of ${all} entries.`;
}

function setAsideWords(count: number): string {
  return count === 1
    ? "One entry could not be read and was set aside as it is. Nothing of it is deleted; the others are all here."
    : `${count} entries could not be read and were set aside as they are. Nothing of them is deleted; the others are all here.`;
}
