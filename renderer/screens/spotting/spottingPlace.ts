/** What a round of Spotting needs of the studio. */
import type { ListenedFor } from "../../../engine/catalogue/index.ts";
import type { PlayerId, Spottable, Thing } from "../../../engine/rounds/index.ts";
import type { Chance } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Judge } from "../../judging/judge.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { KitsHeard } from "../round/kitsHeard.ts";

/** How a thing's name stands with a student: the chance that it is forgotten; `null`: never met. */
export type Standing = (thing: Thing) => number | null;

export interface SpottingPlace {
  readonly sound: Pick<SoundDesk, "playStrokes">;
  readonly book: Pick<LessonBook, "log">;
  readonly kits: KitsHeard;
  readonly judge: Pick<Judge, "begin" | "add" | "hear" | "judge">;
  /** All that can be played: the stock, and what is on the Shelf now; the same array while it is the same. */
  readonly spottables: () => readonly Spottable[];
  /** What of the Shelf is listened for; the same object while it is the same. */
  readonly listenedFor: () => ListenedFor;
  /** What a student has met; `null` is nobody in particular. @throws StoreError when it cannot be read. */
  readonly standing: (student: PlayerId | null) => Promise<Standing>;
  readonly chance: Chance;
}
