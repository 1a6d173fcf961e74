/**
 * Say & Strike: a phrase of drum syllables is said, the other one strikes it; turned round, one strikes and the other says it.
 *
 * What was said, or struck, is the call. Rhythm and sound of the answer are judged apart, by the comparison of a call with its
 * answer (`engine/trading`). A sound that was said and struck as another was misheard: how often that is, is told by itself.
 */
import { type Draft, produce } from "immer";
import { z } from "zod";
import { VOICES, type Voice, voiceName } from "../../kit/index.ts";
import { LEVELS, type Level } from "../../score/index.ts";
import type { RungResult } from "../../speech/index.ts";
import { type Comparison, compareAnswer, comparisonWords } from "../../trading/index.ts";
import type { Bpm, Seconds } from "../../units/index.ts";
import { type PlayerId, playerIdSchema, type RoundRules, type Shown } from "../frame/play.ts";

/** Who strikes: the student what is said to them; or, turned round, one strikes and the student says it. */
export const SAYING_ROLES = ["student-strikes", "student-says"] as const;
export type SayingRoles = (typeof SAYING_ROLES)[number];

/** Where a call comes from: made by the program, typed, said into the microphone, or struck on a kit. */
export const CALL_SOURCES = ["program", "typed", "said", "struck"] as const;
export type CallSource = (typeof CALL_SOURCES)[number];

/** How an answer came. */
export const ANSWERED_BY = ["struck", "said", "typed"] as const;
export type AnsweredBy = (typeof ANSWERED_BY)[number];

/** More strokes are no phrase any more. Our choice. */
export const MOST_STROKES = 64;

const player = playerIdSchema.nullable();
const strokeSchema = z.object({ time: z.number().min(0).max(600), voice: z.enum(VOICES) }).readonly();
const strokesSchema = z.array(strokeSchema).max(MOST_STROKES).readonly();
/** A stroke that was said or struck: seconds from the first of its side. */
export type SaidStroke = z.infer<typeof strokeSchema>;

export const sayAndStrikeEventSchema = z.discriminatedUnion("kind", [
  z
    .object({
      kind: z.literal("called"),
      strokes: strokesSchema,
      /** As it is written in syllables; `null` for what was struck. */
      text: z.string().max(400).nullable(),
      tempoBpm: z.number().min(20).max(400),
      source: z.enum(CALL_SOURCES),
      /** How hard it is, from 1; `null` where a person chose it. */
      rung: z.int().min(1).nullable(),
      /** Whose answers are waited for: `null` is the teacher, or nobody in particular. */
      of: z.array(player).min(1).readonly(),
    })
    .readonly(),
  z.object({ kind: z.literal("heard-again") }).readonly(),
  z
    .object({
      kind: z.literal("answered"),
      by: player,
      strokes: strokesSchema,
      way: z.enum(ANSWERED_BY),
      /** Whose band it is measured in. */
      level: z.enum(LEVELS),
    })
    .readonly(),
  /** The call is taken back: it counts for nothing. */
  z.object({ kind: z.literal("let-be") }).readonly(),
  z.object({ kind: z.literal("turned-round") }).readonly(),
]);
export type SayAndStrikeEvent = z.infer<typeof sayAndStrikeEventSchema>;

export interface SaidAnswer {
  readonly by: PlayerId | null;
  readonly strokes: readonly SaidStroke[];
  readonly way: AnsweredBy;
  readonly level: Level;
  readonly comparison: Comparison;
}

export interface Call {
  readonly strokes: readonly SaidStroke[];
  readonly text: string | null;
  readonly tempoBpm: Bpm;
  readonly source: CallSource;
  readonly rung: number | null;
  readonly roles: SayingRoles;
  readonly of: readonly (PlayerId | null)[];
  /** How often it was heard once more before it was answered. */
  readonly agains: number;
  readonly answers: readonly SaidAnswer[];
}

export interface SayAndStrike {
  readonly roles: SayingRoles;
  /** The call on the page; `null` between calls. */
  readonly call: Call | null;
  /** All calls that were answered, the latest last; the one on the page among them once it is. */
  readonly past: readonly Call[];
}

export const NEW_SAY_AND_STRIKE: SayAndStrike = { roles: "student-strikes", call: null, past: [] };

/** Whether an answer is still waited for. */
export function isCalled({ of, answers }: Pick<Call, "of" | "answers">): boolean {
  return answers.length < of.length;
}

/** Who has not answered yet. */
export function stillToStrike({ of, answers }: Pick<Call, "of" | "answers">): readonly (PlayerId | null)[] {
  return of.filter((each) => !answers.some(({ by }) => by === each));
}

/** Whether both rhythm and sound hold. */
export function holds({ comparison: { rhythm, sound } }: Pick<SaidAnswer, "comparison">): boolean {
  return rhythm.holds && sound.holds;
}

export const sayAndStrikeAfter: (own: SayAndStrike, event: SayAndStrikeEvent) => SayAndStrike = produce(
  (own: Draft<SayAndStrike>, event: SayAndStrikeEvent) => {
    const { call } = own;
    switch (event.kind) {
      case "called": {
        if ((call && isCalled(call)) || event.strokes.length === 0) return;
        const { strokes, text, tempoBpm, source, rung } = event;
        own.call = {
          strokes: fromFirst(strokes) as Draft<SaidStroke>[],
          text,
          tempoBpm,
          source,
          rung,
          roles: own.roles,
          of: [...new Set(event.of)],
          agains: 0,
          answers: [],
        };
        return;
      }
      case "heard-again":
        if (call && isCalled(call)) call.agains += 1;
        return;
      case "answered": {
        if (!call || !stillToStrike(call).includes(event.by)) return;
        const { by, way, level } = event;
        const strokes = fromFirst(event.strokes);
        const comparison = compared(call, strokes, way === "said" ? WIDEST_LEVEL : level);
        call.answers.push({ by, strokes, way, level, comparison } as Draft<SaidAnswer>);
        if (!isCalled(call)) own.past.push(call);
        return;
      }
      case "let-be":
        letBe(own);
        return;
      case "turned-round":
        letBe(own);
        own.call = null;
        own.roles = own.roles === "student-strikes" ? "student-says" : "student-strikes";
        return;
    }
  },
);

/** When exactly a syllable is felt is known to some 50 ms only: what is said is measured in the widest band. */
const WIDEST_LEVEL: Level = "first-year";
/** Syllables say nothing of touch: all strokes count as struck alike. */
const ALIKE = 0.63;

function compared(
  { strokes, tempoBpm }: Pick<Call, "strokes" | "tempoBpm">,
  answered: readonly SaidStroke[],
  level: Level,
): Comparison {
  const alike = (all: readonly SaidStroke[]) => all.map((stroke) => ({ ...stroke, velocity: ALIKE }));
  return compareAnswer(alike(strokes), alike(answered), { level, tempoBpm });
}

/** Takes the open call back. Answers that were given to it hold. */
function letBe(own: Draft<SayAndStrike>): void {
  const { call } = own;
  if (!call || !isCalled(call)) return;
  if (call.answers.length > 0) own.past.push({ ...call, of: call.answers.map(({ by }) => by) });
  own.call = null;
}

function fromFirst(strokes: readonly SaidStroke[]): readonly SaidStroke[] {
  const first: Seconds = strokes.reduce((least, { time }) => Math.min(least, time), Number.POSITIVE_INFINITY);
  return [...strokes]
    .sort((a, b) => a.time - b.time)
    .map((stroke) => ({ ...stroke, time: stroke.time - first }));
}

/** What became of a player's calls of the program, for how hard the next one is. */
export function rungResultsOf(
  { past }: Pick<SayAndStrike, "past">,
  of: PlayerId | null,
): readonly RungResult[] {
  return past.flatMap(({ rung, answers }) =>
    rung === null
      ? []
      : answers.flatMap((answer) => (answer.by === of ? [{ rung, held: holds(answer) }] : [])),
  );
}

/** Sounds said or struck to a player, and how many were taken for another. */
export interface Misheard {
  readonly sounds: number;
  readonly misheard: number;
}

/** How often a player took a sound for another. A stroke left out says nothing of what was heard. */
export function misheardBy({ past }: Pick<SayAndStrike, "past">, of: PlayerId | null): Misheard {
  const answers = past.flatMap((call) => call.answers.filter(({ by }) => by === of));
  return {
    sounds: answers.reduce((sum, { comparison }) => sum + comparison.pairs.length, 0),
    misheard: answers.reduce((sum, { comparison }) => sum + comparison.sound.moved.length, 0),
  };
}

/** Each voice of the call once: it holds where none of its strokes was taken for another. */
function shownBy({ answers, strokes }: Pick<Call, "answers" | "strokes">): readonly Shown[] {
  return answers.flatMap(({ by, comparison }) => {
    const answered = new Set(comparison.pairs.map(({ called }) => called));
    const voices = [...new Set(strokes.flatMap(({ voice }, index) => (answered.has(index) ? [voice] : [])))];
    return voices.map((voice): Shown => {
      const moved = comparison.sound.moved.find(({ called }) => called === voice);
      return {
        by,
        item: `syllable:${voice}`,
        outcome: moved ? "missed" : "held",
        words: moved ? `Taken for ${voiceName(moved.answered)}.` : "",
      };
    });
  });
}

/** The voices of a call or an answer, in a clause. */
export function voicesWords(strokes: readonly { readonly voice: Voice }[]): string {
  return strokes.map(({ voice }) => voiceName(voice)).join(", ");
}

export const sayAndStrikeRules: RoundRules<SayAndStrike, SayAndStrikeEvent> = {
  fresh: NEW_SAY_AND_STRIKE,
  after: sayAndStrikeAfter,
  shown: ({ past, call }) => [
    ...past.flatMap(shownBy),
    // Some have answered, others are still waited for.
    ...(call && isCalled(call) ? shownBy(call) : []),
  ],
  words: (own, event) => {
    switch (event.kind) {
      case "called":
        return event.text === null
          ? `Struck: ${voicesWords(event.strokes)}.`
          : `${event.source === "program" ? "Said by the program" : "Said"}: ${event.text}.`;
      case "answered": {
        const after = sayAndStrikeAfter(own, event);
        const told = after.call?.answers.find(({ by }) => by === event.by);
        return told ? comparisonWords(told.comparison) : null;
      }
      case "let-be":
        return "The phrase was taken back.";
      case "turned-round":
        return own.roles === "student-strikes"
          ? "Turned round: one strikes, the other says it."
          : "Turned round again: what is said is struck.";
      default:
        return null;
    }
  },
};
