import { type ReactNode, Suspense, useLayoutEffect } from "react";
import { useWatched } from "../session/store.ts";
import styles from "./App.module.css";
import { WithLesson } from "./LessonContext.tsx";
import {
  BackTurned,
  CallAStyle,
  CardTable,
  DeskScreen,
  Kit,
  NextTimeHere,
  ReplayHere,
  RosterScreen,
  SayAndStrike,
  ShelfScreen,
  Spotting,
  StudioScreen,
  Trading,
  Wall,
  WallChart,
  WallSender,
} from "./laterPages.ts";
import { PageOrTrouble, PageToCome } from "./PageToCome.tsx";
import { ProgramProvider } from "./ProgramContext.tsx";
import type { Program } from "./program.ts";
import { nameOf, type ScreenId, useRoute } from "./route.ts";
import { Spine } from "./Spine.tsx";
import { WithStudio } from "./StudioContext.tsx";

/**
 * What a window shows: the book, or the wall view of a book open in another window (which runs no program of
 * its own).
 */
export function App({ program }: { readonly program: Program | null }) {
  const route = useRoute();
  return program === null || route === "wall" ? <WallWindow /> : <Book program={program} screen={route} />;
}

/** Dark from the first moment on, and as large as it is read. */
function WallWindow() {
  useLayoutEffect(() => {
    document.documentElement.dataset.paper = "dark";
    document.documentElement.dataset.size = "wall";
    return () => {
      delete document.documentElement.dataset.paper;
      delete document.documentElement.dataset.size;
    };
  }, []);
  return (
    <Suspense fallback={null}>
      <Wall />
    </Suspense>
  );
}

function Book({ program, screen }: { readonly program: Program; readonly screen: ScreenId }) {
  const lesson = useWatched(program.lesson);
  useFilesDropped(program, screen);
  return (
    <ProgramProvider value={program}>
      <div className={styles.frame}>
        <Spine here={screen} />
        <Screen id={screen} />
      </div>
      {lesson !== null && (
        <Suspense fallback={null}>
          <WithLesson>
            <WallSender screen={screen} />
          </WithLesson>
        </Suspense>
      )}
    </ProgramProvider>
  );
}

function Screen({ id }: { readonly id: ScreenId }) {
  const title = nameOf(id);
  return (
    <PageOrTrouble key={id} title={title}>
      <Suspense fallback={<PageToCome title={title} />}>
        <LaterPage id={id} />
      </Suspense>
    </PageOrTrouble>
  );
}

function LaterPage({ id }: { readonly id: ScreenId }) {
  switch (id) {
    case "kit":
      return <Kit />;
    case "desk":
      return (
        <WithStudio>
          <DeskScreen />
        </WithStudio>
      );
    case "roster":
      return (
        <WithStudio>
          <RosterScreen />
        </WithStudio>
      );
    case "next-time":
      return (
        <WithStudio>
          <NextTimeHere />
        </WithStudio>
      );
    case "replay":
      return (
        <WithStudio>
          <ReplayHere />
        </WithStudio>
      );
    case "studio":
      return (
        <WithStudio>
          <StudioScreen />
        </WithStudio>
      );
    case "call-a-style":
      return (
        <WithLesson>
          <CallAStyle />
        </WithLesson>
      );
    case "back-turned":
      return (
        <OfTheRound>
          <BackTurned />
        </OfTheRound>
      );
    case "say-and-strike":
      return (
        <OfTheRound>
          <SayAndStrike />
        </OfTheRound>
      );
    case "spotting":
      return (
        <OfTheRound>
          <Spotting />
        </OfTheRound>
      );
    case "card-table":
      return (
        <OfTheRound>
          <CardTable />
        </OfTheRound>
      );
    case "wall-chart":
      return (
        <OfTheRound>
          <WallChart />
        </OfTheRound>
      );
    case "trading":
      return (
        <OfTheRound>
          <Trading />
        </OfTheRound>
      );
    case "shelf":
      return (
        <WithLesson>
          <ShelfScreen />
        </WithLesson>
      );
  }
}

/** A round that is kept step by step asks the studio who plays, and the lesson for the round itself. */
function OfTheRound({ children }: { readonly children: ReactNode }) {
  return (
    <WithStudio>
      <WithLesson>{children}</WithLesson>
    </WithStudio>
  );
}

/** A MIDI file may be dropped anywhere on the window; what is dropped on the Shelf is put there. */
function useFilesDropped({ demonstration }: Program, screen: ScreenId): void {
  // As soon as the page is drawn: a file dropped in that moment counts as well.
  useLayoutEffect(() => {
    if (screen === "shelf") return;
    const allow = (event: DragEvent): void => event.preventDefault();
    const take = (event: DragEvent): void => {
      event.preventDefault();
      const file = event.dataTransfer?.files[0];
      if (file) void demonstration.takeFile(file);
    };
    window.addEventListener("dragover", allow);
    window.addEventListener("drop", take);
    return () => {
      window.removeEventListener("dragover", allow);
      window.removeEventListener("drop", take);
    };
  }, [demonstration, screen]);
}
