/**
 * What a lesson needs besides the kit: the round, and the Shelf with its desks. It is loaded after the first screen,
 * and put together once.
 */
import { type ListenedFor, listenedFor } from "../../engine/catalogue/index.ts";
import type { ItemId } from "../../engine/memory/index.ts";
import type { Groove } from "../../engine/score/index.ts";
import { Judge } from "../judging/judge.ts";
import { StyleRound } from "../screens/call-a-style/styleRound.ts";
import type { FiveLeft } from "../screens/desk/fiveLeft.ts";
import { type NextStyle, nextStyle } from "../screens/desk/nextStyle.ts";
import { obey, styleCommands } from "../screens/desk/obey.ts";
import { playItemsIn } from "../screens/next-time/playItemsIn.ts";
import { framedAt } from "../screens/round/framedAt.ts";
import { type FramedRounds, framedRounds } from "../screens/round/framedRounds.ts";
import { ShelfImport } from "../screens/shelf/import/shelfImport.ts";
import { RecordDesk } from "../screens/shelf/record/recordDesk.ts";
import { IN_THE_PAGE, ShelfDesk } from "../screens/shelf/shelfDesk.ts";
import { Writers } from "../screens/shelf/writing/writers.ts";
import type { KitLog } from "../session/kitLog.ts";
import { SHIPPED_MAPS } from "../session/kitMapChoice.ts";
import { Shelf } from "../store/index.ts";
import type { KitProgram } from "./kitProgram.ts";
import { routeOf } from "./screenNames.ts";
import type { Studio } from "./studio.ts";

export interface Lesson extends KitProgram {
  /** The round at the kit that is listened to: one of {@link rounds}. */
  readonly round: StyleRound;
  /** One for each kit, the first kit's first. */
  readonly rounds: readonly [StyleRound, StyleRound];
  /** The rounds that are kept step by step, by the names of their pages. */
  readonly framed: FramedRounds;
  readonly fiveLeft: FiveLeft;
  /** What "next" means in Call a Style now, where styles were dealt. */
  readonly nextStyle: (round: StyleRound) => NextStyle | undefined;
  readonly shelf: Shelf;
  readonly shelfDesk: ShelfDesk;
  readonly shelfImport: ShelfImport;
  readonly recordDesk: RecordDesk;
}

/** Puts it together on the kit that is played and the studio's own book, and reads the Shelf. */
export function startLesson(program: KitProgram, studio: Studio): Lesson {
  const { session, sound } = program;
  const shelf = new Shelf(studio.database);
  const rounds = [
    roundAt(session.kits[0].log, 0, shelf, program, studio),
    roundAt(session.kits[1].log, 1, shelf, program, studio),
  ] as const;
  const { players, book, fiveLeft } = studio;
  players.subscribe(() => session.listenTo(players.get().lane));
  const framed = framedRounds(program, studio, shelf);
  const nextOf = (round: StyleRound): NextStyle | undefined => {
    const call = (item: ItemId) => {
      void playItemsIn({ framed, rounds, shelf }, studio, { items: [item], nothingElse: false });
    };
    return nextStyle(fiveLeft, round.get().asked.styleId, call);
  };
  const calledStyle = () => {
    const round = rounds[players.get().lane === 1 ? 1 : 0];
    return styleCommands(round, () => nextOf(round)?.act);
  };
  session.onCommand((command) => {
    const here = framedAt(framed, routeOf(window.location.hash));
    if (command === "next" && here?.get().stage === "over" && fiveLeft.get().stage === "on") fiveLeft.next();
    else obey(command, here ?? calledStyle(), book);
  });
  const shelfDesk = new ShelfDesk(shelf);
  const writers = new Writers(
    () => [session.kitMap.get().map, ...SHIPPED_MAPS],
    window.navigator.hardwareConcurrency,
  );
  const shelfImport = new ShelfImport(shelf, writers, IN_THE_PAGE);
  const recordDesk = new RecordDesk(
    session.kits.map(({ log }) => log),
    writers,
    sound,
  );
  void shelf.open();
  return {
    ...program,
    round: rounds[0],
    rounds,
    framed,
    fiveLeft,
    nextStyle: nextOf,
    shelf,
    shelfDesk,
    shelfImport,
    recordDesk,
  };
}

/** A round at one of the kits, written into the book while a lesson is on. */
function roundAt(
  log: KitLog,
  lane: number,
  shelf: Shelf,
  { session, sound }: KitProgram,
  { book, players }: Studio,
): StyleRound {
  const round = new StyleRound(
    log,
    new Judge(),
    sound,
    (metre) => session.click.wayIn(metre),
    listenedForOn(shelf),
    () => players.at(lane),
  );
  let studentId = players.at(lane).studentId;
  book.log.subscribe(() => {
    const now = players.at(lane).studentId;
    if (now !== studentId) round.changePlayer();
    studentId = now;
  });
  book.record(log, round, lane);
  return round;
}

/** What is listened for, the groove that is called among it; the same object while it is the same. */
function listenedForOn(shelf: Shelf): (called: Groove | undefined) => ListenedFor {
  let latest:
    | undefined
    | { readonly changes: number; readonly called: Groove | undefined; readonly all: ListenedFor };
  return (called) => {
    const { changes } = shelf.get();
    if (latest?.changes !== changes || latest.called !== called) {
      const all = listenedFor(shelf.index.all());
      const others = all.grooves.filter(({ id }) => id !== called?.id);
      latest = { changes, called, all: called ? { ...all, grooves: [called, ...others] } : all };
    }
    return latest.all;
  };
}
