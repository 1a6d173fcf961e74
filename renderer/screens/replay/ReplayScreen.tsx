/**
 * Replay: any lesson that is kept, heard and seen again. Its address names the lesson and the moment
 * ({@link replayPlaceOf}).
 */
import { useEffect, useMemo, useSyncExternalStore } from "react";
import { Page } from "../../app/Page.tsx";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { LessonLog } from "../../session/lessonLog.ts";
import { useWatched } from "../../session/store.ts";
import type { StudioDatabase } from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { ChooseLesson } from "./ChooseLesson.tsx";
import { LessonAgain } from "./LessonAgain.tsx";
import { ReplayDesk } from "./replayDesk.ts";
import { lessonsHref, replayPlaceOf } from "./replayPlace.ts";

export interface ReplayScreenProps {
  readonly database: StudioDatabase;
  /** Of the lesson that is on in this window. */
  readonly log: LessonLog;
  readonly sound: SoundDesk;
}

export function ReplayScreen(props: ReplayScreenProps) {
  const hash = useSyncExternalStore(onHashChange, () => window.location.hash);
  const place = replayPlaceOf(hash);
  return place.kind === "lessons" ? (
    <ChooseLesson key={place.studentId} database={props.database} studentId={place.studentId} />
  ) : (
    <OneLesson key={place.lessonId} lessonId={place.lessonId} seconds={place.seconds} {...props} />
  );
}

function onHashChange(listener: () => void): () => void {
  window.addEventListener("hashchange", listener);
  return () => window.removeEventListener("hashchange", listener);
}

function OneLesson({
  lessonId,
  seconds,
  database,
  log,
  sound,
}: ReplayScreenProps & { readonly lessonId: string; readonly seconds: number | null }) {
  const desk = useMemo(
    () => new ReplayDesk({ database, log, newId: () => crypto.randomUUID() }),
    [database, log],
  );
  const state = useWatched(desk);
  useEffect(() => {
    void desk.open(lessonId);
    return () => desk.close();
  }, [desk, lessonId]);
  switch (state.stage) {
    case "loading":
      return (
        <Page title="Replay" sub={<p role="status">The lesson is being opened.</p>} margin={null}>
          {null}
        </Page>
      );
    case "none":
      return (
        <Page title="No such lesson" sub="None is kept under this address." takesFocus margin={null}>
          <p>It may have been erased with its student. Choose another one.</p>
          <ToLessons />
        </Page>
      );
    case "failed":
      return (
        <Page title="The lesson cannot be opened" sub={null} takesFocus margin={null}>
          <h1>The lesson cannot be opened</h1>
          <p role="alert">{state.reason}</p>
          <p>
            <Button weight="go" onPress={() => void desk.open(lessonId)}>
              Try again
            </Button>
          </p>
          <ToLessons />
        </Page>
      );
    case "open":
      return (
        <LessonAgain lesson={state.lesson} seconds={seconds} desk={desk} database={database} sound={sound} />
      );
  }
}

function ToLessons() {
  return (
    <p>
      <a href={lessonsHref(null)}>All lessons</a>
    </p>
  );
}
