/** The pages, each fetched when it is turned to, or before, once the first one stands. */
import { type ComponentType, lazy } from "react";
import { type Later, later } from "./later.tsx";
import { filesOf, LESSON_FILE, LESSON_ON_FILE, PAGE_FILES, STUDIO_FILE } from "./pageFiles.ts";
import type { Program } from "./program.ts";
import type { ScreenId } from "./route.ts";

export const CallAStyle = later(async () => (await PAGE_FILES["call-a-style"]()).CallAStyle);
export const BackTurned = later(async () => (await PAGE_FILES["back-turned"]()).BackTurned);
export const SayAndStrike = later(async () => (await PAGE_FILES["say-and-strike"]()).SayAndStrike);
export const Spotting = later(async () => (await PAGE_FILES.spotting()).Spotting);
export const CardTable = later(async () => (await PAGE_FILES["card-table"]()).CardTable);
export const WallChart = later(async () => (await PAGE_FILES["wall-chart"]()).WallChart);
export const Trading = later(async () => (await PAGE_FILES.trading()).Trading);
export const ShelfScreen = later(async () => (await PAGE_FILES.shelf()).ShelfScreen);
export const Kit = later(async () => (await PAGE_FILES.kit()).Kit);
export const DeskScreen = later(async () => (await PAGE_FILES.desk()).DeskScreen);
export const RosterScreen = later(async () => (await PAGE_FILES.roster()).RosterScreen);
export const NextTimeHere = later(async () => (await PAGE_FILES["next-time"]()).NextTimeHere);
export const ReplayHere = later(async () => (await PAGE_FILES.replay()).ReplayHere);
export const StudioScreen = later(async () => (await PAGE_FILES.studio()).StudioScreen);
export const LessonOn = later(async () => (await LESSON_ON_FILE()).LessonOn);
export const Wall = later(async () => (await import("../wall/Wall.tsx")).Wall);
export const WallSender = lazy(async () => ({
  default: (await import("../wall/WallSender.tsx")).WallSender,
}));

const PAGES: Readonly<Record<ScreenId, Later>> = {
  desk: DeskScreen,
  "call-a-style": CallAStyle,
  spotting: Spotting,
  "say-and-strike": SayAndStrike,
  "back-turned": BackTurned,
  "card-table": CardTable,
  "wall-chart": WallChart,
  trading: Trading,
  replay: ReplayHere,
  "next-time": NextTimeHere,
  shelf: ShelfScreen,
  roster: RosterScreen,
  kit: Kit,
  studio: StudioScreen,
};

/** Makes ready what the page shown first needs, side by side; what fails is told where it is wanted. */
export async function fetchFirstPage(
  { studio, lesson }: Pick<Program, "studio" | "lesson">,
  screen: ScreenId,
): Promise<void> {
  const files = filesOf(screen);
  const needed: Promise<unknown>[] = [PAGES[screen].fetch()];
  if (files.includes(LESSON_ON_FILE)) needed.push(LessonOn.fetch());
  if (files.includes(STUDIO_FILE)) needed.push(studio.load());
  if (files.includes(LESSON_FILE)) needed.push(lesson.load());
  await Promise.allSettled(needed);
}

/**
 * Fetches them all, so that no page has to be waited for. What fails is told when it is wanted: without a network the
 * first page is still of use.
 */
export async function fetchLaterPages({ studio, lesson }: Program): Promise<void> {
  const pages: Promise<ComponentType>[] = Object.values(PAGES).map(({ fetch }) => fetch());
  await Promise.allSettled([studio.load(), lesson.load(), ...pages]);
}
