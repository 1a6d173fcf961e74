/** Next Time: what a student should refresh and what is new, for the next lesson. */
import { lazy, type ReactNode, Suspense, useEffect, useRef, useState } from "react";
import { acrossFrom, changeToUndo, downFrom, type ItemId, upFrom } from "../../../engine/memory/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { PrintPages } from "../../out/print/PrintPages.tsx";
import type { Sheet } from "../../out/print/sheet.ts";
import { useWatched } from "../../session/store.ts";
import { Button, Choice, NumberBox } from "../../theme/index.ts";
import { AddToList } from "./AddToList.tsx";
import { CrossedOff } from "./CrossedOff.tsx";
import { FiveLeft } from "./FiveLeft.tsx";
import { ListActions } from "./ListActions.tsx";
import { ListBox } from "./ListBox.tsx";
import { aheadWords, countWords, lessonDayWords } from "./listWords.ts";
import styles from "./NextTime.module.css";
import type { NextTimeDesk, NextTimeState, OpenList } from "./nextTimeDesk.ts";
import { canBePlayed } from "./playItems.ts";
import type { Wanted } from "./playItemsIn.ts";
import { sheetOfList } from "./sheetOfList.ts";
import { type ListActs, useListKeys } from "./useListKeys.ts";

// The charts come after the list, which is what the page is for.
const OverTheMonths = lazy(async () => ({ default: (await import("./OverTheMonths.tsx")).OverTheMonths }));

const TITLE = "Next Time";

interface NextTimeProps {
  readonly desk: NextTimeDesk;
  /** Plays items of one round in it now. */
  readonly onPlay: (wanted: Wanted) => void;
}

/** @param wantedId the student whose list is wanted; the one that was open last, where none is. */
export function NextTimeScreen({
  desk,
  onPlay,
  wantedId,
}: NextTimeProps & { readonly wantedId?: string | undefined }) {
  const state = useWatched(desk);
  useEffect(() => void desk.read(wantedId), [desk, wantedId]);
  const openId = state.open?.student.id;
  useEffect(() => (openId === undefined ? undefined : desk.follow()), [desk, openId]);
  return <NextTimeView desk={desk} state={state} onPlay={onPlay} />;
}

/** The page as it stands. */
export function NextTimeView({ desk, state, onPlay }: NextTimeProps & { readonly state: NextTimeState }) {
  const { students, open, studentId, trouble } = state;
  if (open) return <OpenPage desk={desk} state={state} open={open} onPlay={onPlay} />;
  return (
    <Page title={TITLE} sub={waitingWords(students === null, trouble !== null)} margin={<HowItIsMade />}>
      <Trouble trouble={trouble}>
        <Button weight="go" onPress={() => void desk.read()}>
          Read it again
        </Button>
      </Trouble>
      {students !== null && students.length === 0 && (
        <p>There is nobody on the Roster yet. Put a student there, and what is played becomes this list.</p>
      )}
      {students !== null && students.length > 0 && studentId !== null && trouble === null && (
        <p role="status">Reading what was played.</p>
      )}
    </Page>
  );
}

function waitingWords(isReading: boolean, isTrouble: boolean): string {
  if (isTrouble) return "The list could not be read.";
  return isReading ? "Reading what was kept." : "For the next lesson";
}

function OpenPage({
  desk,
  state,
  open,
  onPlay,
}: NextTimeProps & { readonly state: NextTimeState; readonly open: OpenList }) {
  const { students, retention, today, chosen, said, trouble } = state;
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const line = useRef<HTMLInputElement>(null);
  const { student, evidence, lessonDay, list } = open;
  const { ownNames, results, changes } = evidence;
  const onChosen = (act: (item: ItemId) => Promise<void>) => () => {
    if (chosen !== null) void act(chosen);
  };
  const acts: ListActs = {
    moveUp: onChosen((item) => desk.move(item, upFrom)),
    moveDown: onChosen((item) => desk.move(item, downFrom)),
    moveAcross: onChosen((item) => desk.move(item, acrossFrom)),
    crossOff: onChosen((item) => desk.crossOff(item)),
    undo: () => void desk.undo(),
    add: () => line.current?.focus(),
    print: () => setSheet(sheetOfList(open, today)),
  };
  useListKeys(acts);
  const playable = chosen !== null && canBePlayed(chosen) ? chosen : null;
  return (
    <Page
      title={`${TITLE}: ${student.nickname}`}
      sub={`For ${lessonDayWords(lessonDay)}, ${aheadWords(today, lessonDay)}: ${countWords(list)}.`}
      margin={
        <>
          <Note heading="Five Left">
            <FiveLeft
              key={student.id}
              list={list}
              results={results}
              today={today}
              ownNames={ownNames}
              onPlay={onPlay}
            />
          </Note>
          <Note heading="Take it along">
            <Button onPress={acts.print} aria-keyshortcuts="p">
              Print this list
            </Button>
          </Note>
          <Note heading="With keys">
            <p>
              Arrows choose, <kbd>Alt</kbd> with them moves. <kbd>M</kbd> other part, <kbd>X</kbd> crosses
              off, <kbd>N</kbd> adds, <kbd>P</kbd> prints, <kbd>Ctrl Z</kbd> undoes.
            </p>
          </Note>
          <HowItIsMade />
          <NumberBox
            label="Due when the chance to hold is below, in 100"
            value={Math.round(retention * 100)}
            least={70}
            most={97}
            onChange={(value) => void desk.want(value / 100)}
          />
        </>
      }
    >
      <div className={styles.choose}>
        <Choice
          label="Student"
          options={(students ?? [student]).map(({ id, nickname }) => ({ id, name: nickname }))}
          chosen={student.id}
          onChoose={(id) => void desk.choose(id)}
        />
        <label className={styles.field}>
          <span>Next lesson</span>
          <input
            type="date"
            value={lessonDay}
            onChange={({ currentTarget }) => currentTarget.value && desk.forDay(currentTarget.value)}
          />
        </label>
      </div>
      <p role="status" className="said">
        {said}
      </p>
      <Trouble trouble={trouble} />
      {results.length === 0 && (
        <p className={styles.nothing}>
          Nothing has been heard of {student.nickname} yet. What is played in a lesson becomes this list.
        </p>
      )}
      <ListBox
        list={list}
        today={today}
        ownNames={ownNames}
        chosen={chosen}
        onChoose={(item) => desk.dispatch({ chosen: item })}
      />
      <ListActions
        acts={acts}
        can={{
          up: chosen !== null && upFrom(list, chosen) !== null,
          down: chosen !== null && downFrom(list, chosen) !== null,
          act: chosen !== null,
          undo: changeToUndo(changes) !== undefined,
        }}
        onPlay={playable === null ? null : () => onPlay({ items: [playable], nothingElse: false })}
      />
      <AddToList
        met={[...new Set(results.map(({ item }) => item))]}
        ownNames={ownNames}
        lineRef={line}
        onAdd={(item, section) => void desk.add(item, section)}
        onAddWords={(words, section) => void desk.addWords(words, section)}
      />
      <CrossedOff
        entries={list.crossedOff}
        ownNames={ownNames}
        onPutBack={(item) => void desk.putBack(item)}
      />
      <Suspense fallback={null}>
        <OverTheMonths
          key={student.id}
          results={results}
          item={chosen}
          listed={[...list.refresh, ...list.new].map(({ item }) => item)}
          ownNames={ownNames}
        />
      </Suspense>
      <PrintPages sheet={sheet} onClose={() => setSheet(null)} />
    </Page>
  );
}

function Trouble({ trouble, children }: { readonly trouble: string | null; readonly children?: ReactNode }) {
  if (trouble === null) return null;
  return (
    <div role="alert" className={styles.trouble}>
      <p>{trouble}</p>
      {children}
    </div>
  );
}

function HowItIsMade() {
  return (
    <Note heading="How this list is made">
      <p>
        From what was played and answered in lessons, by a published model of forgetting. Its figures come
        from flash cards: for playing, trust the order more than the chance. You have the last word.
      </p>
    </Note>
  );
}
