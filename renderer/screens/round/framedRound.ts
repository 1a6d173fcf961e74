/** What a round on a page of its own can be asked to do, by a button, a key, or a command that is struck. */
import type { Dealt, Play } from "../../../engine/rounds/index.ts";
import type { Watched } from "../../session/store.ts";
import type { RoundSheet, WallContent } from "../../wall/wallPage.ts";

/** What is done with the sticks in hand; flagging is the lesson's. */
export type RoundCommand = "next" | "again" | "turn-round" | "stop";

/** What each command does now; one that is missing does nothing now. */
export type CommandActs = Readonly<Partial<Record<RoundCommand, () => void>>>;

/** How a command came. */
export type CommandWay = "button" | "key" | "strike";

/** What the wall shows of a round: words that are read from two metres, and where they are not enough, a sheet of its own. */
export type RoundOnWall = Pick<WallContent, "title" | "sub" | "says"> & { readonly sheet?: RoundSheet };

export interface FramedRound extends Watched<Play<unknown>> {
  /**
   * Begins it with the students of the lesson. Call it from the user's own action, because of the sound.
   *
   * @param dealt what it begins with; it asks as it sees fit where nothing was dealt.
   */
  readonly begin: (dealt?: Dealt) => void;
  readonly pause: () => void;
  readonly resume: () => void;
  /** As it is before it begins. */
  readonly anew: () => void;
  readonly commands: () => CommandActs;
  /** The page for the wall: nothing that is still to be answered. */
  readonly onWall: () => RoundOnWall;
  /** Tells when that page has changed though the round has not. Returns the way to stop. */
  readonly onWallChanged: (listener: () => void) => () => void;
}
