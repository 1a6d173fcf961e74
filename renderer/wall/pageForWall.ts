/** The page of the book as the wall view shows it. */
import { grooveById } from "../../engine/catalogue/index.ts";
import { bandMs, leanWords, workOnWords } from "../../engine/grading/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import { certaintyWords, type Hearing } from "../../engine/listening/index.ts";
import type { Asked, Round, RoundStage } from "../../engine/rounds/index.ts";
import { beatsPerBar, type Groove, printGrid } from "../../engine/score/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import type { ScreenId } from "../app/route.ts";
import { type KitState, kitSentence } from "../midi/kitState.ts";
import {
  countInOf,
  liveClock,
  liveGroove,
  liveMarks,
  writtenGroove,
} from "../screens/call-a-style/liveRing.ts";
import { foldedMarks, marksByPulse } from "../screens/call-a-style/report/foldedMarks.ts";
import {
  asksForWords,
  calledUnder,
  headingWords,
  isAnother,
  sublineWords,
} from "../screens/call-a-style/report/headingWords.ts";
import { isComparable } from "../screens/call-a-style/report/leanFigure.ts";
import { askedTitle, calledName, hearingLines } from "../screens/call-a-style/roundWords.ts";
import { struckName } from "../screens/kit/strikeWords.ts";
import type { FramedRound } from "../screens/round/framedRound.ts";
import type { WallContent } from "./wallPage.ts";

type RoundContent = Omit<WallContent, "struck" | "countIn" | "sheet">;

/** What the page depends on. `hits`: those of the take under way. */
export interface BookNow {
  readonly screen: ScreenId;
  readonly kit: KitState;
  readonly lastHit: Hit | undefined;
  readonly round: Round;
  readonly hits: readonly Hit[];
  /** The round whose page it is, where it is one that is kept step by step. */
  readonly framed?: Pick<FramedRound, "onWall"> | undefined;
  /** How well the delay of the set-up is known, ± milliseconds; `null` where it is not. */
  readonly setUpGiveOrTakeMs: Milliseconds | null;
}

export function pageForWall(book: BookNow): WallContent {
  if (book.screen === "kit") {
    return {
      title: book.lastHit ? struckName(book.lastHit) : "Kit",
      sub: kitSentence(book.kit),
      says: [],
      countIn: null,
      ring: null,
      struck: book.lastHit ? { voice: book.lastHit.voice, velocity: book.lastHit.velocity } : null,
      sheet: null,
    };
  }
  if (book.framed) return { countIn: null, ring: null, struck: null, sheet: null, ...book.framed.onWall() };
  const { asked, at } = book.round;
  const countIn = (at.stage === "playing" && countInOf(asked, at)) || null;
  return { ...roundPage(book), countIn, struck: null, sheet: null };
}

function roundPage(book: BookNow): RoundContent {
  const { asked, at } = book.round;
  switch (at.stage) {
    case "before":
      return { title: askedTitle(asked), sub: "Call a Style", says: ["Get ready."], ring: beforeRing(asked) };
    case "playing":
      return playingPage(book, at);
    case "judging":
      return {
        title: askedTitle(asked),
        sub: "Thinking it over.",
        says: at.isAgainAsked ? ["Then again."] : [],
        ring: null,
      };
    case "failed":
      return { title: askedTitle(asked), sub: at.reason, says: [], ring: null };
    case "after":
      return afterPage(book, at);
  }
}

/** Which groove the ring and the staff show as written. */
function writtenOn(
  groove: Groove | undefined,
): Pick<NonNullable<WallContent["ring"]>, "grooveId" | "shelfGrid"> {
  if (!groove) return { grooveId: null };
  return grooveById(groove.id)
    ? { grooveId: groove.id }
    : { grooveId: groove.id, shelfGrid: printGrid(groove) };
}

/** What is called, as it is written, while the sticks are taken up. */
function beforeRing(asked: Asked): WallContent["ring"] {
  const groove = writtenGroove(asked);
  return groove
    ? { ...writtenOn(groove), beats: null, played: [], turn: null, label: `${groove.name} as written` }
    : null;
}

function playingPage(
  { round, hits, kit }: BookNow,
  at: Extract<RoundStage, { stage: "playing" }>,
): RoundContent {
  const clock = liveClock(round.asked, at);
  const groove = liveGroove(round.asked, at, hits);
  const lines = playingLines(round.asked, at, hits.length);
  return {
    title: lines.title,
    sub: lines.sub,
    says: kit.state === "unplugged" ? [...lines.says, kitSentence(kit)] : lines.says,
    ring: {
      ...writtenOn(groove),
      beats: clock?.beatsPerTurn ?? null,
      played: clock ? [...liveMarks(hits, clock)] : [],
      turn: clock
        ? { fromSeconds: clock.turnFrom, seconds: clock.turnSeconds, beats: clock.beatsPerTurn }
        : null,
      label: "Bar ring of the latest bars",
    },
  };
}

/** In a free choice what is heard is the title, as soon as it is known; a called style keeps its name there. */
function playingLines(
  asked: Asked,
  at: Extract<RoundStage, { stage: "playing" }>,
  hitCount: number,
): Pick<WallContent, "title" | "sub" | "says"> {
  const { say, figures } = hearingLines(at, hitCount);
  const heard = at.hearing?.kind === "heard" && at.hearing.known ? at.hearing.candidates[0] : undefined;
  if (asked.styleId !== null || !heard) return { title: askedTitle(asked), sub: figures, says: [say] };
  return { title: heard.name, sub: figures, says: [`I am ${certaintyWords(heard.confidence)}.`] };
}

/** Strokes drawn on the wall at most: the ring is read, not counted. */
const MOST_MARKS = 300;
/** The same band as on the sheet. */
const LEVEL = "steady";

function afterPage(
  { round: { asked }, setUpGiveOrTakeMs }: BookNow,
  { hits, judgement }: Extract<RoundStage, { stage: "after" }>,
): RoundContent {
  const { hearing, compared } = judgement;
  if (judgement.hitCount === 0) {
    return {
      title: "Nothing was played",
      sub: "No strike came between start and stop.",
      says: [],
      ring: null,
    };
  }
  const called = calledName(asked);
  const words = {
    title: headingWords(hearing, called),
    sub: sublineWords(hearing, { click: judgement.click !== null, calledName: called }),
  };
  if (!compared) return { ...words, ...unmatched(hearing, hits) };
  const { groove, report } = compared;
  if (called !== undefined && isAnother(hearing, called)) {
    const under = calledUnder(groove, hearing);
    const { ring } = unmatched(hearing, hits);
    return {
      // Both names in one title would push the words off the wall.
      title: hearing.candidates[0]?.name ?? words.title,
      sub: `${called} was called.`,
      says: [asksForWords(called)],
      ring: ring && { ...ring, ...writtenOn(under) },
    };
  }
  if (!isComparable(report)) {
    const { says, ring } = unmatched(hearing, hits);
    return { ...words, says: [workOnWords(report.workOn), ...says], ring };
  }
  const band = bandMs(LEVEL, report.tempoBpm ?? groove.tempoBpm.low);
  const marks = foldedMarks(report, groove, band);
  return {
    ...words,
    says: [leanWords(report, LEVEL, setUpGiveOrTakeMs ?? 0), workOnWords(report.workOn, band)],
    ring: {
      ...writtenOn(groove),
      beats: null,
      played: marks.slice(-MOST_MARKS),
      turn: null,
      label: `Bar ring of ${groove.name}`,
    },
  };
}

/** What was played, where there is nothing to compare it with, and what it is nearest to. */
function unmatched(hearing: Hearing, hits: readonly Hit[]): Pick<RoundContent, "says" | "ring"> {
  if (hearing.kind !== "heard") return { says: [], ring: null };
  const nearest = hearing.candidates.slice(0, 2).map(({ name }) => name);
  return {
    says: nearest.length > 0 ? [`Nearest: ${nearest.join(", ")}.`] : [],
    ring: {
      grooveId: null,
      beats: beatsPerBar(hearing.pulse.metre),
      played: marksByPulse(hits, hearing.pulse).slice(-MOST_MARKS),
      turn: null,
      label: "Bar ring of what was played",
    },
  };
}
