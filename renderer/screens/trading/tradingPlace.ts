/** What a round of Trading needs of the studio. */
import type { PlayerId } from "../../../engine/rounds/index.ts";
import type { Level } from "../../../engine/score/index.ts";
import type { Chance, Seconds } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Judge } from "../../judging/judge.ts";
import type { RoomDesk } from "../../room/roomDesk.ts";
import type { HeardKit } from "../../session/heardKit.ts";
import type { LessonBook } from "../../session/lessonBook.ts";

/** A kit that is heard, and at which a player who is not there may play. */
export type KitTraded = Pick<HeardKit, "log" | "kitMap" | "receive">;

/** The room in which somebody far away is met. */
export type FarPlace = Pick<
  RoomDesk,
  "partner" | "presence" | "delayFor" | "holdDelay" | "sayForm" | "leaveForm" | "onForm" | "onFormLeft"
>;

export interface TradingPlace {
  readonly sound: Pick<SoundDesk, "playStrokes" | "startClick" | "stopClick">;
  readonly book: Pick<LessonBook, "log">;
  readonly kits: readonly [KitTraded, KitTraded];
  readonly judge: Pick<Judge, "begin" | "add" | "hear">;
  readonly levelOf: (player: PlayerId | null) => Level;
  readonly nicknameOf: (player: PlayerId) => string | undefined;
  readonly chance: Chance;
  /** The session clock. */
  readonly now: () => Seconds;
}
