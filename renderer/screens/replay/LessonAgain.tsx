/** A lesson that lies open: the line, the controls, what was played at the cursor, remarks, what it was in other months. */
import { useMemo, useRef, useState } from "react";
import { Note, Page } from "../../app/Page.tsx";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import { PrintPages } from "../../out/print/PrintPages.tsx";
import type { Sheet } from "../../out/print/sheet.ts";
import type { StudioDatabase } from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { actOn } from "./actOn.ts";
import { BesideOther } from "./BesideOther.tsx";
import { ChooseKit } from "./ChooseKit.tsx";
import { GoesOn } from "./GoesOn.tsx";
import { KeysShown } from "./KeysShown.tsx";
import { lessonSheet } from "./lessonSheet.ts";
import { OverTheMonths, useMonths } from "./OverTheMonths.tsx";
import { nextOther, otherTakes, takeOfLesson } from "./otherTakes.ts";
import { Remarks } from "./Remarks.tsx";
import styles from "./replay.module.css";
import type { OpenLesson, ReplayDesk } from "./replayDesk.ts";
import { lessonsHref } from "./replayPlace.ts";
import { ALL } from "./replayPlayer.ts";
import { counted, lengthWords, whenWords, whoWords } from "./replayWords.ts";
import { StepsTold } from "./StepsTold.tsx";
import { StrikesSeen } from "./StrikesSeen.tsx";
import { TakeAtCursor } from "./TakeAtCursor.tsx";
import { Timeline } from "./Timeline.tsx";
import { Transport } from "./Transport.tsx";
import { useAddress } from "./useAddress.ts";
import { useLaidBeside } from "./useLaidBeside.ts";
import { usePlayer } from "./usePlayer.ts";
import { useReplayKeys } from "./useReplayKeys.ts";
import { laneOfFirst, useTakesAtCursor } from "./useTakesAtCursor.ts";
import { NOT_YET, useTakesAgain, useTakesJudged } from "./useTakesJudged.ts";

export interface LessonAgainProps {
  readonly lesson: OpenLesson;
  /** The moment it is opened at. */
  readonly seconds: number | null;
  readonly desk: ReplayDesk;
  readonly database: StudioDatabase;
  readonly sound: SoundDesk;
}

export function LessonAgain({ lesson, seconds, desk, database, sound }: LessonAgainProps) {
  const { lessonId, moments, lanes } = lesson;
  const [lane, setLane] = useState(() => laneOfFirst(lesson, seconds));
  const [isAlone, setAlone] = useState(false);
  const here = lanes[lane] ?? lanes[0];
  if (!here) throw new Error("A lesson is on at least one kit.");
  const strikes = isAlone ? here.strikes : lesson.strikes;
  const written = useRef<string | null>(null);
  const player = usePlayer(lesson, { strikes, of: isAlone ? here.name : ALL }, { seconds, written }, sound);
  const takes = useTakesAgain(lesson);
  const laid = useLaidBeside();
  const atCursor = useTakesAtCursor(lesson, player);
  const judged = useTakesJudged(takes, atCursor, moments);
  const take = atCursor.find((each) => each.lane === lane);
  const { again, trouble } = (take && judged.get(take.takeId)) ?? NOT_YET;
  const seen = useMemo(
    () => atCursor.flatMap(({ takeId }) => judged.get(takeId)?.again ?? []),
    [atCursor, judged],
  );
  const months = useMonths(database, take);
  const others = useMemo(
    () => (take ? otherTakes(take, moments.whole, months.stage === "found" ? months.takes : []) : []),
    [take, moments, months],
  );
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const [said, setSaid] = useState("");
  const [remarking, setRemarking] = useState(false);
  useAddress(player, lessonId, written);
  useReplayKeys((action) =>
    actOn(action, {
      player,
      lesson,
      desk,
      lane: here,
      goTo: setLane,
      hear: () => {
        setAlone(!isAlone);
        setSaid(isAlone ? "All kits are heard." : `Only ${here.name} is heard.`);
      },
      take,
      print: () => setSheet(lessonSheet(lesson, { withRemarks: false })),
      layNext: () => {
        if (take) laid.lay(take, nextOther(others, laid.of(take, others)), false);
      },
      remark: () => setRemarking(true),
      say: setSaid,
    }),
  );
  const { began, rounds, hitCount } = moments.whole;
  const who = whoWords(lesson.students);
  return (
    <Page
      title={began ? `${who}, ${whenWords(began)}` : who}
      sub={
        <p>
          {[
            lengthWords(moments.seconds),
            counted(rounds.length, "round"),
            counted(
              rounds.reduce((sum, round) => sum + round.takes.length, 0),
              "take",
            ),
            counted(hitCount, "strike"),
          ].join(", ")}
          {lesson.on !== null && ", not ended yet"}
          {began?.invented && ". Invented, by the demo studio"}.{" "}
          <a href={lessonsHref(began?.studentIds[0] ?? null)}>Other lessons</a>
        </p>
      }
      takesFocus
      margin={
        <>
          <Remarks
            lesson={lesson}
            desk={desk}
            player={player}
            lane={lane}
            isWriting={remarking}
            onWriting={setRemarking}
          />
          <Note heading="The lesson on paper">
            <div className={styles.stack}>
              <Button onPress={() => setSheet(lessonSheet(lesson, { withRemarks: false }))}>
                Lesson report
              </Button>
              <Button onPress={() => setSheet(lessonSheet(lesson, { withRemarks: true }))}>
                With the remarks
              </Button>
            </div>
          </Note>
          <KeysShown kits={lanes.length} />
        </>
      }
    >
      <Damaged lesson={lesson} />
      <GoesOn lesson={lesson} player={player} />
      {lanes.length > 1 && (
        <ChooseKit lanes={lanes} lane={lane} onChoose={setLane} isAlone={isAlone} onAlone={setAlone} />
      )}
      <Timeline lesson={lesson} player={player} takes={seen} lane={lane} onLane={setLane} />
      <Transport lesson={lesson} player={player} take={take} again={again} onCopied={setSaid} />
      {moments.whole.rounds.length > 0 && (
        <p className={styles.legend}>
          Circle: written; crossed through where it was left out. Tick: played, as tall as it was strong; with
          a dot where it left the band, was another sound, or was added.
        </p>
      )}
      <p className="said" role="status">
        {said}
      </p>
      {lesson.strikes.hits.length === 0 && <p>No strike was written down in this lesson.</p>}
      {trouble !== null && <p role="alert">{trouble}</p>}
      {take && !again && trouble === null && (
        <p role="status">
          {take.to === null
            ? "This take is going on. It is laid beside what is written when it has ended."
            : "The take is being listened to again."}
        </p>
      )}
      {again && (
        <TakeAtCursor
          key={again.take.takeId}
          lesson={lesson}
          again={again}
          player={player}
          beside={
            <BesideOther
              again={again}
              others={others}
              chosen={laid.of(again.take, others)}
              onChoose={(other) => laid.lay(again.take, other, false)}
              isLedHere={laid.isLed}
              open={(other) => takeOfLesson(other, { database, takes })}
            />
          }
        />
      )}
      <StrikesSeen strikes={here.strikes} player={player} again={again} />
      <StepsTold lesson={lesson} player={player} />
      {take && (
        <OverTheMonths
          months={months}
          take={take}
          others={others}
          onLayBeside={(other) => laid.lay(take, other, true)}
        />
      )}
      <PrintPages sheet={sheet} onClose={() => setSheet(null)} />
    </Page>
  );
}

function Damaged({ lesson: { setAside, newer } }: { readonly lesson: OpenLesson }) {
  if (setAside + newer === 0) return null;
  return (
    <p role="alert" className={styles.trouble}>
      {setAside > 0 &&
        `${counted(setAside, "row")} of this lesson could not be read and were set aside, as they are (Studio). `}
      {newer > 0 && `${counted(newer, "row")} were written by a newer version of the program. `}
      The rest is shown.
    </p>
  );
}
