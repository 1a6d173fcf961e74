import { useProgram } from "../../app/ProgramContext.tsx";
import { useRest } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import type { StudioDatabase } from "../../store/index.ts";
import { NextTimeScreen } from "./NextTimeScreen.tsx";
import { NextTimeDesk } from "./nextTimeDesk.ts";
import { inStudio } from "./nextTimePlace.ts";
import { playItems } from "./playItems.ts";

/** One desk for each studio: it outlives the page, so that a list is found again as it was left. */
const desks = new WeakMap<StudioDatabase, NextTimeDesk>();

function deskOf(database: StudioDatabase): NextTimeDesk {
  const desk = desks.get(database) ?? new NextTimeDesk(inStudio(database));
  desks.set(database, desk);
  return desk;
}

/** The Next Time page on the studio of this computer. */
export function NextTimeHere() {
  const program = useProgram();
  const studio = useStudio();
  const { database, book } = studio;
  const [named] = useRest();
  const { began, stage } = useWatched(book.log);
  // Named in the address; else who sits at the kit.
  const wantedId = named ?? (stage === "ended" ? undefined : began?.studentIds[0]);
  return (
    <NextTimeScreen
      desk={deskOf(database)}
      wantedId={wantedId}
      onPlay={(wanted) => void playItems(program, studio, wanted)}
    />
  );
}
