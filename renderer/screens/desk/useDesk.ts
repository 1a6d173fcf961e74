import { useEffect, useMemo, useState } from "react";
import { weekdayOf } from "../../../engine/memory/index.ts";
import type { LessonRecord } from "../../../engine/records/index.ts";
import { localDay, localTime } from "../../../engine/session/index.ts";
import type { Studio } from "../../app/studio.ts";
import { useWatched } from "../../session/store.ts";
import { lessonsOfDay, storeErrorOf } from "../../store/index.ts";
import { type Due, dueFor } from "./due.ts";
import { comingLater, linesOfDay, nextOf } from "./today.ts";

/** The desk looks at the clock so often. Our choice: nobody reads seconds there. */
const LOOK_EVERY_MS = 10_000;

/** What the calendar of this computer says now. */
interface Now {
  readonly day: string;
  /** "15:30" */
  readonly time: string;
}

function nowHere(): Now {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const at = new Date().toISOString();
  return { day: localDay(at, zone), time: localTime(at, zone) };
}

/** Follows the calendar, also over midnight and when somebody sets the clock. */
export function useNow(): Now {
  const [now, setNow] = useState(nowHere);
  useEffect(() => {
    const look = (): void =>
      setNow((before) => {
        const next = nowHere();
        return next.day === before.day && next.time === before.time ? before : next;
      });
    const timer = setInterval(look, LOOK_EVERY_MS);
    window.addEventListener("focus", look);
    document.addEventListener("visibilitychange", look);
    return () => {
      clearInterval(timer);
      window.removeEventListener("focus", look);
      document.removeEventListener("visibilitychange", look);
    };
  }, []);
  return now;
}

/** The day as the desk shows it. */
export function useToday({ database, roster, book }: Studio) {
  const now = useNow();
  const { students } = useWatched(roster);
  const lesson = useWatched(book.log);
  const [lessons, setLessons] = useState<readonly LessonRecord[]>([]);
  const [trouble, setTrouble] = useState<string | null>(null);
  const lessonId = lesson.began?.lessonId;
  const { stage } = lesson;
  // A lesson that begins or ends changes what was held.
  useEffect(() => {
    let isOver = false;
    lessonsOfDay(database, now.day).then(
      (read) => !isOver && setLessons(read),
      (error) => !isOver && setTrouble(storeErrorOf(error).message),
    );
    return () => {
      isOver = true;
    };
  }, [database, now.day, lessonId, stage, students]);
  return useMemo(() => {
    const weekday = weekdayOf(now.day);
    const lines = linesOfDay(students ?? [], lessons, weekday);
    return {
      now,
      students,
      lessons,
      lines,
      next: nextOf(lines, now.time),
      later: comingLater(students ?? [], weekday),
      trouble,
    };
  }, [now, students, lessons, trouble]);
}

/** What is due for each of these students, as it is read; read again when a lesson ends. */
export function useDue(
  { database, roster, book }: Studio,
  studentIds: readonly string[],
  today: string,
): { readonly due: ReadonlyMap<string, Due>; readonly trouble: string | null } {
  const [due, setDue] = useState<ReadonlyMap<string, Due>>(new Map());
  const [trouble, setTrouble] = useState<string | null>(null);
  const { stage } = useWatched(book.log);
  const { students } = useWatched(roster);
  const wanted = studentIds.join(" ");
  // What is due changes with the lesson's stage.
  useEffect(() => {
    let isOver = false;
    const read = async (): Promise<void> => {
      for (const id of wanted.split(" ").filter((each) => each !== "")) {
        const student = students?.find((each) => each.id === id);
        if (!student || isOver) continue;
        const found = await dueFor(database, student, today);
        if (!isOver) setDue((before) => new Map([...before, [id, found]]));
      }
    };
    read().catch((error) => !isOver && setTrouble(storeErrorOf(error).message));
    return () => {
      isOver = true;
    };
  }, [database, wanted, today, stage, students]);
  return { due, trouble };
}
