import { useMemo, useState } from "react";
import { inBars, isOwn, kindName, sizeOf, styleById } from "../../../engine/catalogue/index.ts";
import { levelName, metreName } from "../../../engine/score/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note, Page } from "../../app/Page.tsx";
import { BarRing, type PlayedMark } from "../../charts/BarRing.tsx";
import { KeepPicture } from "../../out/picture/KeepPicture.tsx";
import { usePictureKey } from "../../out/picture/usePictureKey.ts";
import { TakenFrom } from "../../out/TakenFrom.ts";
import { TakeWrittenAlong } from "../../out/TakeWrittenAlong.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { Said } from "./Browse.tsx";
import { changed, type Draft, isChanged, redone, undone, withBars } from "./draft.ts";
import { EntryStaff } from "./EntryStaff.tsx";
import { barsWords, fromWords, tempoWords } from "./entryWords.ts";
import { Names } from "./Names.tsx";
import { PlayIt } from "./PlayIt.tsx";
import styles from "./Shelf.module.css";
import { StrokeGrid } from "./StrokeGrid.tsx";
import { TextEditor } from "./TextEditor.tsx";
import { useOpenKeys } from "./useOpenKeys.ts";

const RING_PIXELS = 240;
const NO_MARKS: readonly PlayedMark[] = [];

/** One entry: how it goes, how it sounds, and, where it is the studio's own, all that can be changed of it. */
export function OpenEntry({ draft }: { readonly draft: Draft }) {
  const { shelf, shelfDesk } = useLesson();
  const { said, trouble } = useWatched(shelfDesk);
  const { trouble: kept } = useWatched(shelf);
  const [isAsking, setAsking] = useState(false);
  const own = isOwn(draft);
  const bars = useMemo(() => inBars(draft.written), [draft.written]);
  const size = useMemo(() => sizeOf(draft.written), [draft.written]);
  const name = draft.now.name.trim();
  const title = name === "" ? `A new ${kindName(draft.kind)}` : name.slice(0, 200);
  const origin = useMemo(() => ({ of: title, day: new Date(), tempoBpm: null }), [title]);
  usePictureKey();
  const leave = (): void => (own && isChanged(draft) && !isAsking ? setAsking(true) : shelfDesk.leave());
  useOpenKeys({
    keep: () => own && void shelfDesk.keep(),
    undo: () => own && shelfDesk.change(undone),
    redo: () => own && shelfDesk.change(redone),
    leave,
  });
  return (
    <Page
      title={title}
      sub={[
        kindName(draft.kind),
        metreName(size.metre),
        barsWords(size.bars),
        tempoWords(size.tempoBpm),
        fromWords(draft.from),
      ].join(" · ")}
      takesFocus
      margin={<Margin draft={draft} own={own} />}
    >
      <Said said={said} troubles={[kept, trouble]} />
      <div className={styles.look}>
        <figure className={styles.ring}>
          <BarRing
            groove={bars}
            played={NO_MARKS}
            handPlace={undefined}
            size={RING_PIXELS}
            label={draft.kind === "part" ? `The first groove of ${title}` : `${title} as written`}
          />
          <TakenFrom value={origin}>
            <KeepPicture shows="Bar ring" />
          </TakenFrom>
        </figure>
        <div className={styles.about}>
          <PlayIt written={draft.written} />
          {own ? (
            <Names draft={draft} />
          ) : (
            <p className={styles.say}>
              {styleById(draft.now.styleId ?? "")?.itself ??
                "It is of the program’s own stock: copy it to change it."}
            </p>
          )}
        </div>
      </div>
      <EntryStaff written={draft.written} label={`${title} as written`} />
      {own && (
        <>
          {draft.kind !== "part" && (
            <div className={styles.section}>
              <StrokeGrid
                groove={bars}
                isDisabled={draft.problem !== null}
                onChange={(change) => shelfDesk.change((now) => withBars(now, change))}
              />
            </div>
          )}
          <div className={styles.section}>
            <TextEditor draft={draft} onType={(body) => shelfDesk.change((now) => changed(now, { body }))} />
          </div>
        </>
      )}
      <div className={styles.foot}>
        {isAsking ? (
          <Leaving
            onKeep={async () => {
              await shelfDesk.keep();
              setAsking(false);
              if (shelfDesk.get().trouble === null) shelfDesk.leave();
            }}
            onStay={() => setAsking(false)}
          />
        ) : own ? (
          <>
            <Button weight="go" isDisabled={!isChanged(draft)} onPress={() => void shelfDesk.keep()}>
              Keep
            </Button>
            <Button isDisabled={draft.past.length === 0} onPress={() => shelfDesk.change(undone)}>
              Undo
            </Button>
            <Button isDisabled={draft.future.length === 0} onPress={() => shelfDesk.change(redone)}>
              Redo
            </Button>
            <Button weight="quiet" onPress={() => shelfDesk.copy()}>
              Copy
            </Button>
            {draft.kept !== null && (
              <Button weight="quiet" onPress={() => void shelfDesk.putAway()}>
                Put away
              </Button>
            )}
            <Button weight="quiet" onPress={leave}>
              Back to the Shelf
            </Button>
          </>
        ) : (
          <>
            <Button weight="go" onPress={() => shelfDesk.copy()}>
              Copy to change
            </Button>
            <Button weight="quiet" onPress={leave}>
              Back to the Shelf
            </Button>
          </>
        )}
        <TakeWrittenAlong written={draft.written} name={title} styleId={draft.now.styleId ?? undefined} />
      </div>
    </Page>
  );
}

function Leaving({ onKeep, onStay }: { readonly onKeep: () => Promise<void>; readonly onStay: () => void }) {
  const { shelfDesk } = useLesson();
  return (
    <>
      <p role="alert">What was changed is not kept yet.</p>
      <Button weight="go" autoFocus onPress={() => void onKeep()}>
        Keep it
      </Button>
      <Button onPress={() => shelfDesk.leave()}>Leave it unkept</Button>
      <Button weight="quiet" onPress={onStay}>
        Stay
      </Button>
    </>
  );
}

function Margin({ draft, own }: { readonly draft: Draft; readonly own: boolean }) {
  const { level, alsoNamed, styleId } = draft.now;
  const others = alsoNamed.split("\n").filter((name) => name.trim() !== "");
  const style = styleId === null ? undefined : styleById(styleId)?.name;
  return (
    <>
      {others.length > 0 && (
        <Note heading="Also called">
          <p className={styles.long}>{others.map((name) => name.slice(0, 200)).join(" · ")}</p>
        </Note>
      )}
      {level !== null && (
        <Note heading="For whom">
          <p>From the level “{levelName(level)}” on.</p>
        </Note>
      )}
      {style !== undefined && (
        <Note heading="Style">
          <p>{style}</p>
        </Note>
      )}
      {own && draft.kind === "groove" && (
        <Note heading="From now on">
          <p>Once it is kept, Call a Style hears it too, and offers it in its list.</p>
        </Note>
      )}
      {own && (
        <Note heading="With keys">
          <p>
            <kbd>Ctrl</kbd> <kbd>S</kbd> keeps, <kbd>Ctrl</kbd> <kbd>Z</kbd> undoes, <kbd>Ctrl</kbd>{" "}
            <kbd>Y</kbd> redoes, <kbd>Esc</kbd> goes back.
          </p>
        </Note>
      )}
    </>
  );
}
