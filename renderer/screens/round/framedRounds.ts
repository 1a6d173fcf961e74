/** The rounds that are kept step by step, put together once for the program. */
import type { PlayerId, SteppedKind } from "../../../engine/rounds/index.ts";
import type { Level } from "../../../engine/score/index.ts";
import type { LessonState } from "../../../engine/session/index.ts";
import { heardBefore, NOTHING_HEARD } from "../../app/heardEarlier.ts";
import type { KitProgram } from "../../app/kitProgram.ts";
import { phrasesBefore } from "../../app/phrasesEarlier.ts";
import { ANYBODY } from "../../app/players.ts";
import { ReadForLesson } from "../../app/readForLesson.ts";
import type { Studio } from "../../app/studio.ts";
import { Judge } from "../../judging/judge.ts";
import { SyllableEar } from "../../microphone/syllableEar.ts";
import { SyllableThinking } from "../../microphone/syllableThinking.ts";
import type { HeardKit } from "../../session/heardKit.ts";
import { SteppedRound } from "../../session/steppedRound.ts";
import type { Shelf } from "../../store/index.ts";
import { BackTurnedRound } from "../back-turned/backTurnedRound.ts";
import { CardTableRound } from "../card-table/cardTableRound.ts";
import { remembered } from "../card-table/studentDeck.ts";
import { SayAndStrikeRound } from "../say-and-strike/sayAndStrikeRound.ts";
import { listenedForOnShelf, spottablesOnShelf, standingIn } from "../spotting/known.ts";
import { SpottingRound } from "../spotting/spottingRound.ts";
import { TradingRound } from "../trading/tradingRound.ts";
import { WallChartRound } from "../wall-chart/wallChartRound.ts";
import type { FramedRound } from "./framedRound.ts";

export interface FramedRounds extends Readonly<Record<SteppedKind, FramedRound>> {
  readonly "back-turned": BackTurnedRound;
  readonly spotting: SpottingRound;
  readonly "say-and-strike": SayAndStrikeRound;
  readonly "card-table": CardTableRound;
  readonly "wall-chart": WallChartRound;
  readonly trading: TradingRound;
}

/** They are played at the kit whose turn it is. */
export function framedRounds(
  { session, sound, toms, cards, hands, syllables }: KitProgram,
  { database, book, players, roster }: Studio,
  shelf: Shelf,
): FramedRounds {
  const stepped = <Kind extends SteppedKind>(kind: Kind): SteppedRound<Kind> =>
    new SteppedRound(kind, book, () => players.get().lane, players);
  const levelOf = (player: PlayerId | null): Level =>
    (player === null ? undefined : roster.student(player)?.level) ?? ANYBODY.level;
  const nicknameOf = (player: PlayerId): string | undefined => roster.student(player)?.nickname;
  const heardEarlier = new ReadForLesson(
    book.log,
    (student, lesson) => heardBefore(database, student, lesson),
    "What was heard in earlier lessons could not be read.",
  );
  const phrases = new ReadForLesson(
    book.log,
    (student, lesson) => phrasesBefore(database, student, lesson),
    "Where each left off in Say & Strike could not be read.",
  );
  const kits = {
    answering: () => session.listened.get().log,
    asking: () => {
      const other = session.kits.find((kit) => kit !== session.listened.get());
      return (
        (session.secondKit.get().state === "none" ? undefined : other)?.log ?? session.listened.get().log
      );
    },
  };
  return {
    spotting: new SpottingRound(stepped("spotting"), {
      sound,
      book,
      kits,
      judge: new Judge(),
      spottables: spottablesOnShelf(shelf),
      listenedFor: listenedForOnShelf(shelf),
      standing: standingIn(database),
      chance: Math.random,
    }),
    "back-turned": new BackTurnedRound(stepped("back-turned"), {
      sound,
      book,
      kits,
      toms: toms.get,
      earlier: (by) => heardEarlier.by(by) ?? NOTHING_HEARD,
      chance: Math.random,
    }),
    "say-and-strike": new SayAndStrikeRound(stepped("say-and-strike"), {
      sound,
      book,
      kits: { ...kits, seatOf: (player) => seatOf(player, session.kits, book.log.get())?.log ?? null },
      ear: new SyllableEar(() => sound.openContext(), new SyllableThinking()),
      levelOf,
      phrases,
      nicknameOf,
      syllables,
      chance: Math.random,
    }),
    "card-table": new CardTableRound(stepped("card-table"), {
      book,
      kit: () => session.listened.get().log,
      levelOf,
      remembered: (of) => remembered(database, of),
      settings: cards,
      sound,
      chance: Math.random,
    }),
    "wall-chart": new WallChartRound(stepped("wall-chart"), {
      book,
      hands,
      kit: () => session.listened.get().log,
      sound,
      chance: Math.random,
    }),
    trading: new TradingRound(stepped("trading"), {
      sound,
      book,
      kits: session.kits,
      judge: new Judge(),
      levelOf: (player) => (player === null ? undefined : roster.student(player)?.level) ?? ANYBODY.level,
      nicknameOf,
      chance: Math.random,
      now: () => performance.now() / 1000,
    }),
  };
}

/** The kit a student sits at, where the lesson has several. */
function seatOf(
  player: PlayerId,
  kits: readonly HeardKit[],
  { began }: Pick<LessonState, "began">,
): HeardKit | undefined {
  const lanes = began?.lanes ?? [];
  return lanes.length < 2 ? undefined : kits[lanes.findIndex(({ studentId }) => studentId === player)];
}
