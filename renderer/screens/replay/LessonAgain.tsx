/** A lesson that lies open: the line, the controls, what was played at the cursor, remarks, what it was in other months. */
import { type RefObject, useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { Level } from "../../../engine/score/index.ts";
import type { TakeState } from "../../../engine/session/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import { Judge } from "../../judging/judge.ts";
import { PrintPages } from "../../out/print/PrintPages.tsx";
import type { Sheet } from "../../out/print/sheet.ts";
import type { StudioDatabase } from "../../store/index.ts";
import { Button, Choice, Toggle } from "../../theme/index.ts";
import { actOn } from "./actOn.ts";
import { BesideOther } from "./BesideOther.tsx";
import { KeysShown } from "./KeysShown.tsx";
import type { LaneSeen } from "./lanes.ts";
import { lessonSheet } from "./lessonSheet.ts";
import type { Moments } from "./moments.ts";
import { OverTheMonths, useMonths } from "./OverTheMonths.tsx";
import { nextOther, type OtherTake, otherTakes, takeOfLesson } from "./otherTakes.ts";
import { goesAlong } from "./playhead.ts";
import { Remarks } from "./Remarks.tsx";
import styles from "./replay.module.css";
import type { OpenLesson, ReplayDesk } from "./replayDesk.ts";
import { lessonHref, lessonsHref } from "./replayPlace.ts";
import { ALL, ReplayPlayer } from "./replayPlayer.ts";
import { counted, lengthWords, whenWords, whoWords } from "./replayWords.ts";
import { StepsTold } from "./StepsTold.tsx";
import { StrikesSeen } from "./StrikesSeen.tsx";
import type { Strikes } from "./strikes.ts";
import { TakeAtCursor } from "./TakeAtCursor.tsx";
import { Timeline } from "./Timeline.tsx";
import { Transport } from "./Transport.tsx";
import { type TakeAgain, TakesAgain } from "./takeAgain.ts";
import { LEAD_IN, takeAtOrBefore, takesOf } from "./takesOfLesson.ts";
import { useReplayKeys } from "./useReplayKeys.ts";

export interface LessonAgainProps {
  readonly lesson: OpenLesson;
  /** The moment it is opened at. */
  readonly seconds: number | null;
  readonly desk: ReplayDesk;
  readonly database: StudioDatabase;
  readonly sound: SoundDesk;
}

/** Where nobody in particular played, the band is that of a steady player: as in the round itself. */
const ANYBODY: Level = "steady";

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
  const judged = useTakes(takes, atCursor, moments);
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

/** The first kit at which a take goes on where the lesson is opened; else the one of the last take, or of the first. */
function laneOfFirst({ moments }: OpenLesson, seconds: number | null): number {
  const begun = takesOf(moments.stateAt((seconds ?? 0) + THRESHOLD));
  const goingOn = begun.filter(({ to }) => to === null).map(({ lane }) => lane);
  if (goingOn.length > 0) return Math.min(...goingOn);
  return begun.at(-1)?.lane ?? takesOf(moments.whole)[0]?.lane ?? 0;
}

/** Which kit is walked along, and whether it alone is heard. */
function ChooseKit({
  lanes,
  lane,
  onChoose,
  isAlone,
  onAlone,
}: {
  readonly lanes: readonly LaneSeen[];
  readonly lane: number;
  readonly onChoose: (lane: number) => void;
  readonly isAlone: boolean;
  readonly onAlone: (isAlone: boolean) => void;
}) {
  return (
    <div className={styles.kits}>
      <Choice
        label="Kit"
        options={lanes.map((each) => ({ id: String(each.lane), name: each.name }))}
        chosen={String(lane)}
        onChoose={(id) => onChoose(Number(id))}
      />
      <Toggle isOn={isAlone} onChange={onAlone}>
        Hear it alone
      </Toggle>
    </div>
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

/** That the lesson is on, and whether one goes along with it. */
function GoesOn({
  lesson: { on, notFollowed },
  player,
}: {
  readonly lesson: OpenLesson;
  readonly player: ReplayPlayer;
}) {
  const isAlong = useSyncExternalStore(player.subscribe, () => goesAlong(player.get()));
  if (on === null) return null;
  if (notFollowed !== null) return <p role="alert">What is played now does not come in. {notFollowed}</p>;
  return (
    <div className={styles.goesOn}>
      <p role="status">
        {on === "here"
          ? "The lesson is on. What is played comes in as it is played"
          : "The lesson has not ended. What another window writes of it comes in here"}
        {isAlong ? ", and the cursor goes along." : "."}
      </p>
      {!isAlong && (
        <Button onPress={() => player.do({ kind: "put", at: player.get().seconds })}>Go along with it</Button>
      )}
    </div>
  );
}

/** The address the page itself wrote last. */
type Written = RefObject<string | null>;

/**
 * One player for an open lesson; it falls silent when the page is left. A new address puts the cursor elsewhere. One that the
 * page itself wrote does not: it may be read late, when the cursor has gone on.
 */
function usePlayer(
  { lessonId, moments, on }: OpenLesson,
  { strikes, of }: { readonly strikes: Strikes; readonly of: string },
  { seconds, written }: { readonly seconds: number | null; readonly written: Written },
  sound: SoundDesk,
): ReplayPlayer {
  const length = moments.seconds;
  const goesOn = on !== null;
  const [player] = useState(
    () =>
      new ReplayPlayer(sound, strikes, {
        seconds: length,
        // One who looks at a lesson that is on wants to see what is played now.
        cursor: seconds ?? (goesOn ? length : 0),
        goesOn,
      }),
  );
  useEffect(() => player.do({ kind: "grew", seconds: length, goesOn }), [player, length, goesOn]);
  useEffect(() => {
    if (seconds === null || lessonHref(lessonId, seconds) === written.current) return;
    player.do({ kind: "put", at: seconds });
  }, [player, lessonId, seconds, written]);
  useEffect(() => player.listenTo(strikes, of), [player, strikes, of]);
  useEffect(() => () => player.stop(), [player]);
  return player;
}

/** One for all lessons that are opened: its worker starts with the first take. The round has a judge of its own. */
const JUDGE = new Judge();

/** The lesson's takes, judged as they are looked at. */
function useTakesAgain({ students }: OpenLesson): TakesAgain {
  const [takes] = useState(() => {
    const levelOf = (id: string | null) => students.find((student) => student.id === id)?.level ?? ANYBODY;
    return new TakesAgain(JUDGE, levelOf);
  });
  return takes;
}

/** What is laid beside a take, as long as that take is looked at. Nothing is until it is asked for: it is the lesson that is. */
function useLaidBeside() {
  const [laid, setLaid] = useState<{ of: string; other: string; isLed: boolean } | null>(null);
  return {
    of: ({ takeId }: TakeState, others: readonly OtherTake[]) =>
      laid?.of === takeId ? others.find((other) => other.takeId === laid.other) : undefined,
    isLed: laid?.isLed ?? false,
    lay: ({ takeId }: TakeState, other: OtherTake | undefined, isLed: boolean) =>
      setLaid(other ? { of: takeId, other: other.takeId, isLed } : null),
  };
}

/** Addresses hold milliseconds: one that leads to the threshold leads over it. */
const THRESHOLD = LEAD_IN + 0.001;

/** The take at the cursor at each kit, in the order of the kits. */
function useTakesAtCursor({ moments, lanes }: OpenLesson, player: ReplayPlayer): readonly TakeState[] {
  const ids = useSyncExternalStore(player.subscribe, () => {
    // One who stands on a take's threshold looks at that take.
    const state = moments.stateAt(player.get().cursor + THRESHOLD);
    return lanes.map(({ lane }) => takeAtOrBefore(state, lane)?.takeId ?? "").join(" ");
  });
  return useMemo(() => {
    const wanted = new Set(ids.split(" "));
    // As they are known now, with all that was said of them since.
    return takesOf(moments.whole)
      .filter(({ takeId }) => wanted.has(takeId))
      .toSorted((a, b) => a.lane - b.lane);
  }, [ids, moments]);
}

interface Judged {
  readonly again: TakeAgain | undefined;
  /** Why it could not be judged again. */
  readonly trouble: string | null;
}

const NOT_YET: Judged = { again: undefined, trouble: null };

/** Takes as they are judged again, by their ids; those that are still listened to are not among them. */
function useTakes(
  takes: TakesAgain,
  wanted: readonly TakeState[],
  moments: Moments,
): ReadonlyMap<string, Judged> {
  const [known, setKnown] = useState<ReadonlyMap<string, Judged>>(new Map());
  useEffect(() => {
    let isWanted = true;
    for (const take of wanted) {
      // Of one that goes on more is to come.
      if (take.to === null) continue;
      const keep = (judged: Judged): void => {
        if (isWanted) setKnown((all) => new Map([...all, [take.takeId, judged]]));
      };
      takes.of(take, moments).then(
        (again) => keep({ again, trouble: null }),
        (error: unknown) =>
          keep({
            again: undefined,
            trouble: `This take could not be thought over: ${error instanceof Error ? error.message : String(error)} Its strikes are shown all the same.`,
          }),
      );
    }
    return () => {
      isWanted = false;
    };
  }, [takes, wanted, moments]);
  return known;
}

/** The address says where the cursor stands, whenever it stands; going there and back is no page of its own. */
function useAddress(player: ReplayPlayer, lessonId: string, written: Written): void {
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const settle = (): void => {
      clearTimeout(timer);
      if (player.get().isPlaying) return;
      timer = setTimeout(() => {
        // Where one goes along with a lesson, its address leads to where it has come to.
        const moment = goesAlong(player.get()) ? undefined : player.get().cursor;
        written.current = lessonHref(lessonId, moment);
        window.history.replaceState(window.history.state, "", written.current);
      }, SETTLES_MS);
    };
    const stop = player.subscribe(settle);
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, [player, lessonId, written]);
}

/** Browsers refuse an address that changes many times a second. */
const SETTLES_MS = 250;
