/** Where the pages are, each in a file of its own that is fetched when it is wanted. Nothing here needs React. */
import { BUILT_ROUNDS, type ScreenId } from "./screenNames.ts";

export const PAGE_FILES = {
  desk: () => import("../screens/desk/DeskScreen.tsx"),
  "call-a-style": () => import("../screens/call-a-style/CallAStyle.tsx"),
  spotting: () => import("../screens/spotting/Spotting.tsx"),
  "say-and-strike": () => import("../screens/say-and-strike/SayAndStrike.tsx"),
  "back-turned": () => import("../screens/back-turned/BackTurned.tsx"),
  "card-table": () => import("../screens/card-table/CardTable.tsx"),
  "wall-chart": () => import("../screens/wall-chart/WallChart.tsx"),
  trading: () => import("../screens/trading/Trading.tsx"),
  replay: () => import("./ReplayHere.tsx"),
  "next-time": () => import("../screens/next-time/NextTimeHere.tsx"),
  shelf: () => import("../screens/shelf/ShelfScreen.tsx"),
  roster: () => import("../screens/roster/RosterScreen.tsx"),
  kit: () => import("../screens/kit/Kit.tsx"),
  studio: () => import("../screens/studio/StudioScreen.tsx"),
} satisfies Record<ScreenId, () => Promise<unknown>>;

/** What is kept of the studio, the lesson that is on at the foot of the spine, and the parts of a lesson; as the program asks for them. */
export const STUDIO_FILE = () => import("./studio.ts");
export const LESSON_ON_FILE = () => import("../screens/desk/LessonOn.tsx");
export const LESSON_FILE = () => import("./lesson.ts");

/** Pages that wait for the studio and its lesson; those of the studio wait for the studio alone, Kit for neither. */
const OF_THE_LESSON: ReadonlySet<ScreenId> = new Set([...BUILT_ROUNDS.map(({ id }) => id), "shelf"]);

/** All files a page waits for, besides what the program itself is. */
export function filesOf(screen: ScreenId): readonly (() => Promise<unknown>)[] {
  if (screen === "kit") return [PAGE_FILES.kit];
  const ofTheStudio = [PAGE_FILES[screen], STUDIO_FILE, LESSON_ON_FILE];
  return OF_THE_LESSON.has(screen) ? [...ofTheStudio, LESSON_FILE] : ofTheStudio;
}
