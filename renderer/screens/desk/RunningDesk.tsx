import { useState } from "react";
import { type Deal, dealWords } from "../../../engine/memory/index.ts";
import type { LessonDay } from "../../../engine/records/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { BUILT_ROUNDS, hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { Cautions } from "../kit/Cautions.tsx";
import { struckWords } from "../kit/commandWords.ts";
import { endOf, minutesOfTime } from "../roster/lessonTimes.ts";
import { START_NOW } from "../round/useFrameKeys.ts";
import styles from "./Desk.module.css";
import { minutesWords, namesWords, soFarWords, whichLesson } from "./deskWords.ts";
import type { Due } from "./due.ts";
import { Fading } from "./Fading.tsx";
import { minutesLeft } from "./fiveLeft.ts";
import { flagThisMoment } from "./flag.ts";
import { LessonRemarks } from "./LessonRemarks.tsx";
import { RoundsSoFar } from "./RoundsSoFar.tsx";
import { useDue, type useToday } from "./useDesk.ts";
import { useFiveLeft } from "./useFiveLeft.ts";
import { useLessonSeconds } from "./useLessonSeconds.ts";
import { WhoIsListenedTo } from "./WhoIsListenedTo.tsx";

/** A lesson is on. */
export function RunningDesk({ today }: { readonly today: ReturnType<typeof useToday> }) {
  const studio = useStudio();
  const { book, roster, players } = studio;
  const lesson = useWatched(book.log);
  useWatched(roster);
  const { trouble, mishap } = useWatched(book.writer);
  const { trouble: playersTrouble, lane } = useWatched(players);
  const seconds = useLessonSeconds(book.log);
  const ids = lesson.began?.studentIds ?? [];
  const students = ids.flatMap((id) => roster.student(id) ?? []);
  const { due, trouble: dueTrouble } = useDue(studio, ids, today.now.day);
  const [first] = students;
  const lessonDay =
    students.length === 1 && today.lines.some(({ student }) => student.id === first?.id)
      ? first?.lessonDay
      : undefined;
  const inTurn = students.find(({ id }) => id === lesson.began?.lanes[lane]?.studentId) ?? first;
  const names = namesWords(students.map(({ nickname }) => nickname));
  const isPaused = lesson.stage === "paused";
  const ownNames = first ? due.get(first.id)?.ownNames : undefined;
  const number = first ? due.get(first.id)?.lessons : undefined;
  return (
    <Page
      title={lessonDay ? `${names}, until ${endOf(lessonDay)}` : names}
      sub={
        <p role="status">
          {number === undefined || students.length > 1 ? "Lesson" : whichLesson(Math.max(1, number))}{" "}
          {isPaused ? "paused" : "running"}, {minutesWords(seconds)}. {soFarWords(lesson)}
        </p>
      }
      margin={
        <>
          {students
            .filter(({ notes }) => notes !== "")
            .map(({ id, nickname, notes }) => (
              <Note key={id} heading={students.length > 1 ? `Remembered of ${nickname}` : "Remembered"}>
                <p className={styles.notes}>{notes}</p>
              </Note>
            ))}
          <LessonRemarks />
          <WithTheSticks />
          <Cautions />
        </>
      }
      takesFocus
    >
      {[trouble, mishap, playersTrouble, dueTrouble, today.trouble]
        .filter((each) => each !== null)
        .map((each) => (
          <p key={each} role="alert" className={styles.trouble}>
            {each}
          </p>
        ))}
      <WhoIsListenedTo />
      <div className={styles.acts}>
        {BUILT_ROUNDS.map(({ id, name }) => (
          <a key={id} className={styles.go} href={hrefOf(id, ...(id === "call-a-style" ? [] : [START_NOW]))}>
            {name}
          </a>
        ))}
        <FiveLeftNow due={due.get(inTurn?.id ?? "")} studentId={inTurn?.id} lessonDay={lessonDay} />
        <Button onPress={() => flagThisMoment(book, "button")}>Flag this moment</Button>
        <Button onPress={() => (isPaused ? book.log.resume() : book.log.pause())}>
          {isPaused ? "Go on" : "Pause"}
        </Button>
        <Button onPress={() => void book.end()}>End the lesson</Button>
      </div>
      <RoundsSoFar {...(ownNames ? { ownNames } : {})} />
      {students.map((student) => (
        <Fading key={student.id} student={student} due={due.get(student.id)} today={today.now.day} />
      ))}
    </Page>
  );
}

/** Deals for the minutes that are left, and begins; once it is over, what it was. */
function FiveLeftNow({
  due,
  studentId,
  lessonDay,
}: {
  readonly due: Due | undefined;
  readonly studentId: string | undefined;
  readonly lessonDay: LessonDay | undefined;
}) {
  const { fiveLeft } = useStudio();
  const state = useWatched(fiveLeft);
  const begin = useFiveLeft();
  const [said, setSaid] = useState<string | null>(null);
  const isBlocked = due === undefined || state.stage === "on";
  const deal = async (of: Deal["of"]): Promise<void> => {
    if (due) setSaid(await begin(of, due, minutesLeft(endsAt(lessonDay), secondsOfDay())));
  };
  return (
    <>
      <Button isDisabled={isBlocked} onPress={() => deal("due")}>
        Five Left
      </Button>
      <Button isDisabled={isBlocked} onPress={() => deal("goes-well")}>
        Five Left on a bad day
      </Button>
      <p role="status" className={styles.fiveLeftSaid}>
        {state.stage === "over" ? `Five Left is over. It was: ${dealWords(state.deal)}` : said}
      </p>
      {state.stage === "over" && studentId !== undefined && (
        <a className={styles.way} href={hrefOf("next-time", studentId)}>
          What it makes of Next Time
        </a>
      )}
    </>
  );
}

/** Seconds since midnight. */
function endsAt(lessonDay: LessonDay | undefined): number | undefined {
  return lessonDay && minutesOfTime(endOf(lessonDay)) * 60;
}

function secondsOfDay(): number {
  const now = new Date();
  return now.getHours() * 3600 + now.getMinutes() * 60 + now.getSeconds();
}

/** How a moment is flagged without putting the sticks down. */
function WithTheSticks() {
  const { session } = useProgram();
  const [kit] = session.kits;
  const { map } = useWatched(kit.kitMap);
  useWatched(kit.commands);
  const { flag } = kit.commands.strikes();
  return (
    <Note heading="With the sticks">
      <p>
        {flag
          ? `To flag this moment strike ${struckWords(flag, map)}, with silence around it.`
          : "No strike flags this moment on this kit yet."}{" "}
        <a href={hrefOf("kit")}>Commands are set in Kit.</a>
      </p>
    </Note>
  );
}
