/**
 * Spotting: a groove, a fill or the drum part of a tune is played, the one who listens names it.
 *
 * The program plays what it knows; or a kit is played, and the key is what was heard there, whatever was announced, until
 * the teacher says otherwise. What was heard can be overruled after the answer as well, so that an answer to a kit shows
 * something only once the question is settled.
 */
import { type Draft, produce } from "immer";
import { z } from "zod";
import { type PlayerId, playerIdSchema, type RoundRules, type Shown } from "../frame/play.ts";
import { isSameThing, nameItem, playItem, type Thing, thingSchema } from "./thing.ts";

/** Who names: the student what is played to them; or, turned round, the teacher what the student plays. */
export type SpottingRoles = "student-names" | "teacher-names";

/** What a name may be of. */
export const ABOUT = ["grooves", "fills", "both"] as const;
export type About = (typeof ABOUT)[number];

/** Longer names are not read. */
const said = z.string().min(1).max(120);

export const spottingAnswerSchema = z.discriminatedUnion("way", [
  z.object({ way: z.literal("named"), thing: thingSchema, said }).readonly(),
  /** A name of nothing the program knows. */
  z.object({ way: z.literal("other-name"), said }).readonly(),
  /** Said aloud; the teacher says whether it was right. */
  z.object({ way: z.literal("aloud"), isRight: z.boolean() }).readonly(),
  z.object({ way: z.literal("played"), thing: thingSchema }).readonly(),
  /** "I know where it is from, but not its name." */
  z.object({ way: z.literal("knows-place") }).readonly(),
  z.object({ way: z.literal("never-heard") }).readonly(),
]);
export type SpottingAnswer = z.infer<typeof spottingAnswerSchema>;

/** How the program played it: the same again, also when it is opened anew. */
export const performanceSchema = z
  .object({
    /** Which of its written ways, from 0. */
    way: z.int().min(0),
    /** Felt beats a minute. */
    tempoBpm: z.number().positive(),
    seed: z.int().min(0),
  })
  .readonly();
export type Performance = z.infer<typeof performanceSchema>;

const player = playerIdSchema.nullable();
/** Whose answers are waited for: `null` is the teacher, or nobody in particular. */
const of = z.array(player).min(1).readonly();

export const spottingEventSchema = z.discriminatedUnion("kind", [
  z
    .object({ kind: z.literal("source-chosen"), source: z.enum(["program", "kit"]), about: z.enum(ABOUT) })
    .readonly(),
  z
    .object({
      kind: z.literal("asked"),
      thing: thingSchema,
      performance: performanceSchema,
      /** Whether the student meets it here for the first time. */
      isNew: z.boolean(),
      of,
    })
    .readonly(),
  /** A kit begins to play: what it is shows while it is heard. */
  z.object({ kind: z.literal("asked-by-kit"), of }).readonly(),
  z
    .object({
      kind: z.literal("heard"),
      /** `null`: none that is known. */
      thing: thingSchema.nullable(),
      confidence: z.number().min(0).max(1),
    })
    .readonly(),
  /** What it was, by who played it. */
  z.object({ kind: z.literal("overruled"), thing: thingSchema }).readonly(),
  z.object({ kind: z.literal("heard-again") }).readonly(),
  z.object({ kind: z.literal("answered"), by: player, answer: spottingAnswerSchema }).readonly(),
  /** What a kit played is left at what it is taken for now. */
  z.object({ kind: z.literal("settled") }).readonly(),
  /** The question is taken back. Answers that were given to it hold. */
  z.object({ kind: z.literal("let-be") }).readonly(),
  z.object({ kind: z.literal("turned-round") }).readonly(),
]);
export type SpottingEvent = z.infer<typeof spottingEventSchema>;

/** What it is taken for, and who says so. */
export type SpottingKey =
  | {
      readonly by: "program";
      readonly thing: Thing;
      readonly performance: Performance;
      readonly isNew: boolean;
    }
  | { readonly by: "ear"; readonly thing: Thing | null; readonly confidence: number }
  | { readonly by: "player"; readonly thing: Thing };

export interface GivenAnswer {
  readonly by: PlayerId | null;
  readonly answer: SpottingAnswer;
}

export interface SpottingQuestion {
  readonly key: SpottingKey;
  readonly roles: SpottingRoles;
  readonly of: readonly (PlayerId | null)[];
  readonly agains: number;
  readonly answers: readonly GivenAnswer[];
  /** Nothing of it changes any more. */
  readonly isSettled: boolean;
}

export interface Spotting {
  readonly roles: SpottingRoles;
  readonly source: "program" | "kit";
  readonly about: About;
  readonly question: SpottingQuestion | null;
  /** All questions that were settled, the latest last; the one on the page among them once it is. */
  readonly past: readonly SpottingQuestion[];
}

export const NEW_SPOTTING: Spotting = {
  roles: "student-names",
  source: "program",
  about: "grooves",
  question: null,
  past: [],
};

/** Whether an answer is still waited for: what was played must not be shown. */
export function isNameDue({ of: asked, answers }: Pick<SpottingQuestion, "of" | "answers">): boolean {
  return answers.length < asked.length;
}

/** Who has not answered yet. */
export function stillToName({ of: asked, answers }: SpottingQuestion): readonly (PlayerId | null)[] {
  return asked.filter((each) => !answers.some(({ by }) => by === each));
}

/** Whether an answer is right; `null` where that cannot be told: nobody knows what was played, or it was no name. */
export function isSpotted({ key: { thing } }: SpottingQuestion, answer: SpottingAnswer): boolean | null {
  switch (answer.way) {
    case "aloud":
      return answer.isRight;
    case "named":
    case "played":
      return thing && isSameThing(thing, answer.thing);
    case "other-name":
      return thing && false;
    case "knows-place":
    case "never-heard":
      return null;
  }
}

export const spottingAfter: (own: Spotting, event: SpottingEvent) => Spotting = produce(
  (own: Draft<Spotting>, event: SpottingEvent) => {
    const { question } = own;
    switch (event.kind) {
      case "source-chosen":
        if (question && !question.isSettled) return;
        own.source = event.source;
        own.about = event.about;
        return;
      case "asked":
      case "asked-by-kit":
        if (question && !question.isSettled) return;
        own.question = {
          key: keyOf(event),
          roles: own.roles,
          of: [...new Set(event.of)],
          agains: 0,
          answers: [],
          isSettled: false,
        };
        return;
      case "heard":
        if (question && !question.isSettled && question.key.by === "ear")
          question.key = { by: "ear", thing: event.thing, confidence: event.confidence };
        return;
      case "overruled":
        if (question && !question.isSettled && question.key.by !== "program")
          question.key = { by: "player", thing: event.thing };
        return;
      case "heard-again":
        if (question && !question.isSettled && isNameDue(question)) question.agains += 1;
        return;
      case "answered":
        if (!question || question.isSettled || !stillToName(question).includes(event.by)) return;
        question.answers.push({ by: event.by, answer: event.answer });
        // Nobody can be mistaken about what the program played.
        if (question.key.by === "program" && !isNameDue(question)) settle(own);
        return;
      case "settled":
        if (question && !isNameDue(question) && question.key.thing !== null) settle(own);
        return;
      case "let-be":
        letBe(own);
        return;
      case "turned-round":
        letBe(own);
        own.roles = own.roles === "student-names" ? "teacher-names" : "student-names";
        return;
    }
  },
);

function keyOf(event: Extract<SpottingEvent, { kind: "asked" | "asked-by-kit" }>): SpottingKey {
  if (event.kind === "asked-by-kit") return { by: "ear", thing: null, confidence: 0 };
  const { thing, performance, isNew } = event;
  return { by: "program", thing, performance, isNew };
}

function settle(own: Draft<Spotting>): void {
  const { question } = own;
  if (!question || question.isSettled) return;
  question.isSettled = true;
  own.past.push(question);
}

/** Takes the open question back. Answers that were given to it hold, where it is known what they were answers to. */
function letBe(own: Draft<Spotting>): void {
  const { question } = own;
  if (!question || question.isSettled) return;
  own.question = null;
  if (question.answers.length === 0 || question.key.thing === null) return;
  own.past.push({ ...question, of: question.answers.map(({ by }) => by), isSettled: true });
}

/** What the answers to a question show, each of its own student. */
function shownBy(question: SpottingQuestion): readonly Shown[] {
  const { thing } = question.key;
  // What the teacher names shows nothing of a student; what nobody knows, nothing of anybody.
  if (question.roles === "teacher-names" || thing === null) return [];
  return question.answers.map(({ by, answer }): Shown => {
    const item = answer.way === "played" ? playItem(thing) : nameItem(thing);
    const isRight = isSpotted(question, answer);
    switch (answer.way) {
      case "knows-place":
        return { by, item, outcome: "faded", words: "Known from somewhere, but not by name." };
      case "never-heard":
        return { by, item, outcome: "not-met", words: "Never heard before." };
      default:
        return isRight
          ? { by, item, outcome: "held", words: answer.way === "played" ? "Played back." : "" }
          : { by, item, outcome: "missed", words: missedWords(answer) };
    }
  });
}

function missedWords(answer: SpottingAnswer): string {
  switch (answer.way) {
    case "named":
      return `Taken for ${answer.thing.name}.`;
    case "played":
      return `${answer.thing.name} was played back.`;
    case "other-name":
      return `Called “${answer.said}”.`;
    default:
      return "Another name was said.";
  }
}

function answerWords(answer: SpottingAnswer): string {
  switch (answer.way) {
    case "named":
      return `Named: ${answer.thing.name}`;
    case "other-name":
      return `Named: “${answer.said}”`;
    case "aloud":
      return "Named aloud";
    case "played":
      return `Played back: ${answer.thing.name}`;
    case "knows-place":
      return "Known from somewhere, but not by name";
    case "never-heard":
      return "Never heard before";
  }
}

export const spottingRules: RoundRules<Spotting, SpottingEvent> = {
  fresh: NEW_SPOTTING,
  after: spottingAfter,
  shown: ({ past, question }) => [
    ...past.flatMap(shownBy),
    // Some have answered, others are still waited for; what a kit played may still be overruled.
    ...(question && !question.isSettled && question.key.by === "program" ? shownBy(question) : []),
  ],
  words: (own, event) => {
    switch (event.kind) {
      case "asked":
        return `Played: ${event.thing.name}.`;
      case "asked-by-kit":
        return own.roles === "teacher-names"
          ? "The student plays something to be named."
          : "The teacher plays something to be named.";
      case "heard":
        return event.thing ? `Heard: ${event.thing.name}.` : "Heard: none that is known.";
      case "overruled":
        return `It was ${event.thing.name}, whatever was heard.`;
      case "answered": {
        const isRight = own.question && isSpotted(own.question, event.answer);
        const wrong = isRight === false ? ", which it was not" : "";
        return `${answerWords(event.answer)}${wrong}.`;
      }
      case "let-be":
        return "The question was taken back.";
      case "turned-round":
        return own.roles === "student-names"
          ? "Turned round: the student plays, the teacher names."
          : "Turned round again: the student names.";
      default:
        return null;
    }
  },
};
