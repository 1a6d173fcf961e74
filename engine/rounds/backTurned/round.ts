/**
 * Back Turned: surfaces are sounded, the one who looks away names them, or strikes them again.
 *
 * What was sounded is the key. It comes from the program's own sounds, or from a kit: then the key is what was heard there,
 * whatever was meant.
 */
import { type Draft, produce } from "immer";
import { z } from "zod";
import {
  type HeardAs,
  heardAs,
  isRight,
  isSameMoment,
  type Moments,
  momentsSchema,
  momentsWords,
  type RungAnswer,
  SURFACES,
  type Surface,
  surfaceName,
} from "../../ear/index.ts";
import { type PlayerId, playerIdSchema, type RoundRules, type Shown, type ShownItem } from "../frame/play.ts";

/** Who names: the student what is sounded to them; or, turned round, the teacher what the student sounds. */
export const ROLES = ["student-names", "teacher-names"] as const;
export type Roles = (typeof ROLES)[number];

/** Where the sounds come from: the program's own, or the kit of whoever asks. */
export const SOURCES = ["sampler", "kit"] as const;
export type SoundSource = (typeof SOURCES)[number];

export const ANSWER_WAYS = ["named", "typed", "struck"] as const;
export type AnswerWay = (typeof ANSWER_WAYS)[number];

const player = playerIdSchema.nullable();

export const backTurnedEventSchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("source-chosen"), source: z.enum(SOURCES) }).readonly(),
  /** Heard once more before anything is asked. */
  z.object({ kind: z.literal("refreshed"), surface: z.enum(SURFACES) }).readonly(),
  z
    .object({
      kind: z.literal("asked"),
      /** What was sounded. */
      moments: momentsSchema,
      /** How hard it is: a rung of `engine/ear`, from 1; `null` where a person chose it. */
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
      moments: momentsSchema,
      way: z.enum(ANSWER_WAYS),
    })
    .readonly(),
  /** The question is taken back: it counts for nothing. */
  z.object({ kind: z.literal("let-be") }).readonly(),
  /** What was asked and what was said, sounded one after the other. */
  z.object({ kind: z.literal("contrasted") }).readonly(),
  z.object({ kind: z.literal("turned-round") }).readonly(),
]);
export type BackTurnedEvent = z.infer<typeof backTurnedEventSchema>;

export interface Answer {
  readonly by: PlayerId | null;
  readonly moments: Moments;
  readonly way: AnswerWay;
  readonly right: boolean;
}

export interface Question {
  readonly moments: Moments;
  readonly rung: number | null;
  readonly roles: Roles;
  readonly of: readonly (PlayerId | null)[];
  /** How often it was sounded once more before it was answered. */
  readonly agains: number;
  readonly answers: readonly Answer[];
  /** How often it was sounded beside what was said, once it was answered. */
  readonly contrasts: number;
}

export interface BackTurned {
  readonly roles: Roles;
  readonly source: SoundSource;
  /** What was sounded before anything was asked. */
  readonly refreshed: readonly Surface[];
  /** `asked` while an answer is waited for; `answered` once all have answered; `null` between questions. */
  readonly question: Question | null;
  /** All questions that were answered, the latest last; the one on the page among them once it is. */
  readonly past: readonly Question[];
}

export const NEW_BACK_TURNED: BackTurned = {
  roles: "student-names",
  source: "sampler",
  refreshed: [],
  question: null,
  past: [],
};

/** Whether an answer is still waited for: what was sounded must not be shown. */
export function isOpen({ of, answers }: Pick<Question, "of" | "answers">): boolean {
  return answers.length < of.length;
}

/** Who has not answered yet. */
export function stillToAnswer({ of, answers }: Question): readonly (PlayerId | null)[] {
  return of.filter((each) => !answers.some(({ by }) => by === each));
}

export const backTurnedAfter: (own: BackTurned, event: BackTurnedEvent) => BackTurned = produce(
  (own: Draft<BackTurned>, event: BackTurnedEvent) => {
    const { question } = own;
    switch (event.kind) {
      case "source-chosen":
        if (!question || !isOpen(question)) own.source = event.source;
        return;
      case "refreshed":
        if (!question && !own.refreshed.includes(event.surface)) own.refreshed.push(event.surface);
        return;
      case "asked":
        if (question && isOpen(question)) return;
        own.question = {
          moments: event.moments as Draft<Moments>,
          rung: event.rung,
          roles: own.roles,
          of: [...new Set(event.of)],
          agains: 0,
          answers: [],
          contrasts: 0,
        };
        return;
      case "heard-again":
        if (question && isOpen(question)) question.agains += 1;
        return;
      case "answered": {
        if (!question || !stillToAnswer(question).includes(event.by)) return;
        const { by, moments, way } = event;
        question.answers.push({
          by,
          moments: moments as Draft<Moments>,
          way,
          right: isRight(question.moments, moments),
        });
        if (!isOpen(question)) own.past.push(question);
        return;
      }
      case "let-be":
        letBe(own);
        return;
      case "contrasted":
        // A step that changes nothing is not kept, and Replay could not tell it.
        if (question && !isOpen(question)) question.contrasts += 1;
        return;
      case "turned-round":
        letBe(own);
        own.roles = own.roles === "student-names" ? "teacher-names" : "student-names";
        return;
    }
  },
);

/** Takes the open question back. Answers that were given to it hold. */
function letBe(own: Draft<BackTurned>): void {
  const { question } = own;
  if (!question || !isOpen(question)) return;
  if (question.answers.length > 0) own.past.push({ ...question, of: question.answers.map(({ by }) => by) });
  own.question = null;
}

/** What a student answered to questions of the program, each with how hard it was. */
export function rungAnswersOf(
  { past }: Pick<BackTurned, "past">,
  of: PlayerId | null,
): readonly RungAnswer[] {
  return past.flatMap(({ rung, roles, answers }) =>
    rung === null || roles === "teacher-names"
      ? []
      : answers.flatMap(({ by, right }) => (by === of ? [{ rung, right }] : [])),
  );
}

/** What a student took for what. */
export function heardAsBy({ past }: Pick<BackTurned, "past">, of: PlayerId | null): readonly HeardAs[] {
  return past.flatMap(({ moments, roles, answers }) =>
    roles === "teacher-names"
      ? []
      : answers.flatMap((answer) => (answer.by === of ? heardAs(moments, answer.moments) : [])),
  );
}

/** What the answers to a question show, by sound. */
function shownBy({ moments, answers, roles }: Question): readonly Shown[] {
  // What the teacher names shows nothing of a student.
  if (roles === "teacher-names") return [];
  return answers.flatMap((answer) => {
    const of = (item: ShownItem, held: boolean, words: string): Shown => ({
      by: answer.by,
      item,
      outcome: held ? "held" : "missed",
      words: held ? "" : words,
    });
    const [only] = moments;
    const said = `${momentsWords(answer.moments)} was said for ${momentsWords(moments)}.`;
    const whole =
      moments.length > 1
        ? [of(`sound:sequence-${moments.length}`, answer.right, said)]
        : only && only.length > 1
          ? [of("sound:two-at-once", answer.right, said)]
          : [];
    return [...whole, ...soundsShown(moments, answer, of)];
  });
}

/**
 * Each surface that sounded, once. In a sequence it is enough that it is named as often as it sounded, in whatever place:
 * the order is shown by the sequence as a whole.
 */
function soundsShown(
  moments: Moments,
  answer: Answer,
  of: (item: ShownItem, held: boolean, words: string) => Shown,
): readonly Shown[] {
  const asked = moments.flat();
  const said = answer.moments.flat();
  const surfaces = [...new Set(asked.map(({ surface }) => surface))];
  return surfaces.flatMap((surface) => {
    const times = (all: typeof asked): number => all.filter((each) => each.surface === surface).length;
    const sounded = asked.find((each) => each.surface === surface);
    const held = times(said) >= times(asked);
    const instead = said.find((each) => !asked.some((other) => other.surface === each.surface));
    const shown = of(
      `sound:${surface}`,
      held,
      instead ? `Named as ${surfaceName(instead.surface)}.` : "Not named.",
    );
    if (sounded?.touch === undefined) return [shown];
    const touchHeld = isSameMoment([sounded], said.slice(0, 1));
    return [of(`sound:${sounded.touch}-stroke`, touchHeld, `Not heard as ${sounded.touch}.`), shown];
  });
}

export const backTurnedRules: RoundRules<BackTurned, BackTurnedEvent> = {
  fresh: NEW_BACK_TURNED,
  after: backTurnedAfter,
  shown: ({ past, question }) => [
    ...past.flatMap(shownBy),
    // Some have answered, others are still waited for.
    ...(question && isOpen(question) ? shownBy(question) : []),
  ],
  words: (own, event) => {
    switch (event.kind) {
      case "asked":
        return `Sounded: ${momentsWords(event.moments)}.`;
      case "answered": {
        const right = own.question && isRight(own.question.moments, event.moments);
        return `Answered${event.by === null ? " by the teacher" : ""}: ${momentsWords(event.moments)}${right ? "" : ", which was something else"}.`;
      }
      case "let-be":
        return "The question was taken back.";
      case "contrasted":
        return "Both were sounded one after the other.";
      case "turned-round":
        return own.roles === "student-names"
          ? "Turned round: the student asks."
          : "Turned round again: the student names.";
      default:
        return null;
    }
  },
};
