/** What the keys of Replay do. */
import type { TakeState } from "../../../engine/session/index.ts";
import type { LaneSeen } from "./lanes.ts";
import type { OpenLesson, ReplayDesk } from "./replayDesk.ts";
import { lessonHref } from "./replayPlace.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { momentWords } from "./replayWords.ts";
import { nextStrike, strikeBefore } from "./strikes.ts";
import { takeFrom, takeStart } from "./takesOfLesson.ts";
import type { ReplayAction } from "./useReplayKeys.ts";

export interface ActedOn {
  readonly player: ReplayPlayer;
  readonly lesson: OpenLesson;
  readonly desk: ReplayDesk;
  /** The kit that is walked along. */
  readonly lane: LaneSeen;
  /** Another kit is gone to, by its place. */
  readonly goTo: (lane: number) => void;
  /** The kit alone is heard, or all of them again. */
  readonly hear: () => void;
  /** The take at the cursor. */
  readonly take: TakeState | undefined;
  readonly print: () => void;
  /** The next take is laid beside the one at the cursor. */
  readonly layNext: () => void;
  /** Opens the line in which a remark is written. */
  readonly remark: () => void;
  readonly say: (words: string) => void;
}

export function actOn(action: ReplayAction, on: ActedOn): void {
  const { player, lesson, desk } = on;
  const { cursor, seconds } = player.get();
  const put = (at: number | undefined): void => {
    if (at !== undefined) player.do({ kind: "put", at });
  };
  const { moments, lanes } = lesson;
  const { strikes, lane } = on.lane;
  const timeOf = (index: number | undefined) => (index === undefined ? undefined : strikes.times[index]);
  switch (action) {
    case "toggle":
      player.toggle();
      return;
    case "second-back":
      put(cursor - 1);
      return;
    case "second-on":
      put(cursor + 1);
      return;
    case "strike-back":
      put(timeOf(strikeBefore(strikes, cursor)));
      return;
    case "strike-on":
      put(timeOf(nextStrike(strikes, cursor)));
      return;
    case "take-back":
      put(takeFrom(moments, cursor, { way: "back", lane }));
      return;
    case "take-on":
      put(takeFrom(moments, cursor, { way: "on", lane }));
      return;
    case "kit-back":
    case "kit-on": {
      const next = lanes[lane + (action === "kit-on" ? 1 : -1)];
      if (!next) return;
      on.goTo(next.lane);
      on.say(`At ${next.name}.`);
      return;
    }
    case "kit-alone":
      if (lanes.length > 1) on.hear();
      return;
    case "home":
      put(0);
      return;
    case "end":
      put(seconds);
      return;
    case "nearer":
    case "further":
    case "loop-from":
    case "loop-to":
    case "slower":
    case "faster":
      player.do({ kind: action });
      return;
    case "loop-take":
      loopTake(on);
      return;
    case "remark":
      if (desk.canRemark(lesson)) on.remark();
      return;
    case "flag":
      if (!desk.canRemark(lesson)) return;
      on.say(`Flagged at ${momentWords(cursor, 1)}.`);
      void desk.remark({
        remarkId: desk.newRemarkId(),
        now: { time: cursor, lane, text: "", flagged: true },
      });
      return;
    case "undo":
      void desk.undo();
      return;
    case "beside":
      on.layNext();
      return;
    case "report":
      on.print();
      return;
    case "copy":
      void copyLink(lesson.lessonId, cursor).then(on.say);
      return;
  }
}

/** The loop is put round the take at the cursor; where there is one, it is taken away. */
export function loopTake({ player, lesson, take }: Pick<ActedOn, "player" | "lesson" | "take">): void {
  const { loop } = player.get();
  const { moments } = lesson;
  const span = loop || !take ? null : { from: takeStart(take, moments), to: take.to ?? moments.seconds };
  player.do({ kind: "loop", span });
}

/** Copies the address of a moment; what came of it, in words. */
export async function copyLink(lessonId: string, cursor: number): Promise<string> {
  const link = new URL(lessonHref(lessonId, cursor), window.location.href).href;
  try {
    await navigator.clipboard.writeText(link);
    return `The link to ${momentWords(cursor, 1)} is copied.`;
  } catch (error) {
    return `The browser does not let this page copy (${String(error)}). The link is the page’s own address.`;
  }
}
