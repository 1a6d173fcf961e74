import { useLayoutEffect, useMemo } from "react";
import { beatsPerBar } from "../../../../engine/score/index.ts";
import { beatSeconds } from "../../../../engine/units/index.ts";
import { useLesson } from "../../../app/LessonContext.tsx";
import { Note, Page } from "../../../app/Page.tsx";
import { kitSentence } from "../../../midi/kitState.ts";
import { DemonstrationPanel } from "../../../players/DemonstrationPanel.tsx";
import { LastStrike } from "../../../session/LastStrike.tsx";
import { useWatched } from "../../../session/store.ts";
import { Button, NumberBox, Toggle } from "../../../theme/index.ts";
import { useCountIn } from "../../call-a-style/useCountIn.ts";
import { usesKeys } from "../../call-a-style/useRoundKeys.ts";
import styles from "../Shelf.module.css";
import type { RecordDesk, RecordStage } from "./recordDesk.ts";
import { Understood } from "./Understood.tsx";

/** A groove, fill or phrase is put on the Shelf by playing it: counted in, or freely. */
export function RecordPage() {
  const { recordDesk, shelfDesk } = useLesson();
  const { at } = useWatched(recordDesk);
  useRecordKeys(recordDesk, () => shelfDesk.leave());
  switch (at.stage) {
    case "before":
      return <Before trouble={at.trouble} />;
    case "playing":
      return <Playing at={at} />;
    case "thinking":
      return (
        <Page title="Record by playing" sub="Writing it down." takesFocus margin={null}>
          <p role="status">One moment.</p>
        </Page>
      );
    case "understood":
      return <Understood at={at} />;
  }
}

function Before({ trouble }: { readonly trouble: string | null }) {
  const { recordDesk, shelfDesk, session } = useLesson();
  const { hasClick, tempoBpm } = useWatched(recordDesk);
  const kit = useWatched(session.connection);
  return (
    <Page
      title="Record by playing"
      sub="Play it as often as you like: what comes round is found. A fill or a phrase is played once."
      takesFocus
      margin={
        <>
          <DemonstrationPanel />
          <Note heading="With keys">
            <p>
              <kbd>Space</kbd> begins, <kbd>Esc</kbd> or <kbd>Enter</kbd> ends.
            </p>
          </Note>
        </>
      }
    >
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      <p className={styles.say}>
        {hasClick
          ? "One bar is counted in, then the click goes on while you play."
          : "Without a click the pulse is heard in what you play."}
      </p>
      {kit.state !== "connected" && <p className={styles.hint}>{kitSentence(kit)}</p>}
      <div className={styles.foot}>
        <Button weight="go" onPress={() => recordDesk.start()}>
          Start listening
        </Button>
        <Toggle isOn={hasClick} onChange={(on) => recordDesk.dispatch({ hasClick: on })}>
          Count in, with a click
        </Toggle>
        {hasClick && (
          <NumberBox
            label="Beats a minute"
            value={tempoBpm}
            least={30}
            most={300}
            onChange={(next) => recordDesk.dispatch({ tempoBpm: next })}
          />
        )}
        <Button weight="quiet" onPress={() => shelfDesk.leave()}>
          Back to the Shelf
        </Button>
      </div>
    </Page>
  );
}

function Playing({ at }: { readonly at: RecordStage & { readonly stage: "playing" } }) {
  const { recordDesk, session } = useLesson();
  const [first, second] = session.kits;
  // The logs grow in place: their lengths say that there is more.
  const counts = [useWatched(first.log), useWatched(second.log)].join();
  const strokes = useMemo(() => {
    void counts;
    return recordDesk.hits().length;
  }, [recordDesk, counts]);
  const { click } = at;
  const countIn = useMemo(
    () =>
      click
        ? {
            until: click.from,
            beatSeconds: beatSeconds(click.tempoBpm),
            beats: beatsPerBar(click.way.metre),
          }
        : undefined,
    [click],
  );
  const word = useCountIn(countIn);
  return (
    <Page
      title="I am listening"
      sub="Stop with Escape or Enter."
      takesFocus
      margin={
        <>
          <Note heading="Last strike">
            <LastStrike />
          </Note>
          <DemonstrationPanel />
        </>
      }
    >
      {click && <p className={styles.count}>{word}</p>}
      <p className={styles.say}>{strokesWords(strokes, click !== null)}</p>
      <div className={styles.foot}>
        <Button weight="go" onPress={() => void recordDesk.stop()}>
          Stop
        </Button>
        <Button weight="quiet" onPress={() => recordDesk.again()}>
          Throw it away
        </Button>
      </div>
    </Page>
  );
}

function strokesWords(strokes: number, isCountedIn: boolean): string {
  if (strokes === 0) return isCountedIn ? "Come in on one." : "Play when you are ready.";
  return strokes === 1 ? "1 strike." : `${strokes} strikes.`;
}

/** Felt beats by which the arrows move what was understood; with Shift they move the one. */
const ARROWS: Readonly<Record<string, -1 | 1>> = { ArrowLeft: -1, ArrowRight: 1 };

/**
 * Space or Enter begins, Escape or Enter ends; before and after it, Escape goes back to the Shelf. Arrows move the beat of
 * what was understood.
 */
function useRecordKeys(desk: RecordDesk, leave: () => void): void {
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.repeat || event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      const { stage } = desk.get().at;
      const isFree = !usesKeys(event.target);
      const begins = isFree && (event.key === "Enter" || event.key === " ");
      const way = usesArrows(event.target) ? undefined : ARROWS[event.key];
      if (event.key === "Escape") stage === "playing" ? void desk.stop() : leave();
      else if (stage === "playing" && isFree && event.key === "Enter") void desk.stop();
      else if (stage === "before" && begins) desk.start();
      else if (stage === "understood" && way !== undefined) void desk.move(event.shiftKey ? way : way / 2);
      else return;
      event.preventDefault();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [desk, leave]);
}

/** Fields and choices have arrows of their own; a button that was pressed has none. */
function usesArrows(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest("input, textarea, select, [role=radio]") !== null;
}
