/**
 * Wall Chart: the chart of rudiments is looked at, hidden, and named; looked at shortly, and named again; the gain is shown.
 * Or one rudiment after the other is asked for its hands, said or played.
 *
 * Several may look at once, and write the names down for themselves; their lists are then taken in one after the other. Of
 * the hands everybody is asked the same, and answers alone.
 *
 * Time comes in with the events: seconds of looking that have passed. A pause is the frame's: no time passes in it.
 */
import { type Draft, produce } from "immer";
import { z } from "zod";
import { rudimentById } from "../../catalogue/index.ts";
import { type LookFigures, namedInOrder, recallCurve } from "../../recall/index.ts";
import type { Seconds } from "../../units/index.ts";
import {
  MOST_PLAYERS,
  type PlayerId,
  playerIdSchema,
  type RoundRules,
  type Shown,
  type ShownItem,
} from "../frame/play.ts";
import {
  type ChartSettings,
  chartList,
  chartName,
  chartSettingsSchema,
  FIRST_SETTINGS,
  isOfLooks,
  isSamePart,
  MOST_LOOK_SECONDS,
} from "./task.ts";

export const NAMING_WAYS = ["typed", "ticked"] as const;
/** What is named and not on the list: a rudiment of another part of the chart, or none. */
export const STRAY_KINDS = ["elsewhere", "none", "unclear"] as const;
export const STICKING_WAYS = ["said", "chosen", "typed", "played"] as const;

const player = playerIdSchema.nullable();
/** Those who look, or are asked, at once. */
const players = z.array(player).min(1).max(MOST_PLAYERS).readonly();
const entry = z.string().min(1).max(60);
const words = z.string().max(400);

export const wallChartEventSchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("set"), settings: chartSettingsSchema }).readonly(),
  /** The chart is shown to somebody: long the first time, shortly after that. */
  z.object({ kind: z.literal("look-began"), of: players }).readonly(),
  z.object({ kind: z.literal("looked"), seconds: z.number().positive().max(MOST_LOOK_SECONDS) }).readonly(),
  /** Sooner than its time. */
  z.object({ kind: z.literal("hidden") }).readonly(),
  z.object({ kind: z.literal("named"), entry, way: z.enum(NAMING_WAYS) }).readonly(),
  z.object({ kind: z.literal("taken-back"), entry }).readonly(),
  z.object({ kind: z.literal("strayed"), given: z.string().max(80), as: z.enum(STRAY_KINDS) }).readonly(),
  z.object({ kind: z.literal("named-all") }).readonly(),
  /** It is this player's names, or hands, that are taken in now. */
  z.object({ kind: z.literal("turned-to"), by: player }).readonly(),
  z.object({ kind: z.literal("asked"), entry, of: players }).readonly(),
  z
    .object({
      kind: z.literal("answered"),
      way: z.enum(STICKING_WAYS),
      held: z.boolean(),
      /** What happened, in a clause for the teacher; empty where it held. */
      words,
    })
    .readonly(),
  z.object({ kind: z.literal("let-be") }).readonly(),
  z.object({ kind: z.literal("turned-round") }).readonly(),
]);
export type WallChartEvent = z.infer<typeof wallChartEventSchema>;

export interface Stray {
  readonly given: string;
  readonly as: (typeof STRAY_KINDS)[number];
}

/** One look and what was named after it. */
export interface ChartLook {
  readonly by: PlayerId | null;
  /** What was to be named then, and how. */
  readonly settings: ChartSettings;
  /** How long it is meant to last, and has lasted. */
  readonly forSeconds: Seconds;
  readonly seconds: Seconds;
  /** In the order they were named, each once. */
  readonly named: readonly string[];
  readonly stray: readonly Stray[];
  /** The teacher was examined: it shows nothing of a student. */
  readonly ofTeacher: boolean;
}

/** One rudiment asked for its hands. */
export interface StickingAsked {
  readonly by: PlayerId | null;
  readonly entry: string;
  readonly way: (typeof STICKING_WAYS)[number];
  readonly held: boolean;
  readonly words: string;
  readonly ofTeacher: boolean;
}

/** Everybody who looked, or was asked, in the order they were given. */
type Everybody = readonly (PlayerId | null)[];

export type ChartStage =
  | { readonly at: "before" }
  /** `look` is that of the first; the others look with them. */
  | { readonly at: "looking"; readonly look: ChartLook; readonly of: Everybody }
  /** `look` is the one that is named now; `others` wait to be named. */
  | {
      readonly at: "naming";
      readonly look: ChartLook;
      readonly others: readonly ChartLook[];
      readonly of: Everybody;
    }
  | { readonly at: "told"; readonly of: Everybody }
  /** `by` answers now; `others` wait. */
  | {
      readonly at: "asked";
      readonly entry: string;
      readonly by: PlayerId | null;
      readonly others: Everybody;
      readonly of: Everybody;
    }
  | { readonly at: "answered"; readonly of: Everybody };

export interface WallChart {
  readonly settings: ChartSettings;
  readonly roles: "student-names" | "teacher-names";
  readonly stage: ChartStage;
  /** What is over, in its order. It only grows. */
  readonly past: readonly (
    | { readonly kind: "look"; readonly look: ChartLook }
    | { readonly kind: "sticking"; readonly asked: StickingAsked }
  )[];
}

export const NEW_WALL_CHART: WallChart = {
  settings: FIRST_SETTINGS,
  roles: "student-names",
  stage: { at: "before" },
  past: [],
};

/** Seconds may be added up in small pieces. */
const ROUNDING: Seconds = 1e-6;

export const wallChartAfter: (own: WallChart, event: WallChartEvent) => WallChart = produce(
  (own: Draft<WallChart>, event: WallChartEvent) => {
    const { stage } = own;
    switch (event.kind) {
      case "set":
        if (isBetween(stage)) {
          own.settings = event.settings as Draft<ChartSettings>;
          own.stage = { at: "before" };
        }
        return;
      case "look-began":
        if (isBetween(stage) && isOfLooks(own.settings.task))
          own.stage = newLook(own, [...new Set(event.of)]);
        return;
      case "looked":
        if (stage.at !== "looking") return;
        stage.look.seconds = Math.min(stage.look.forSeconds, stage.look.seconds + event.seconds);
        if (stage.look.seconds >= stage.look.forSeconds - ROUNDING) own.stage = hidden(stage);
        return;
      case "hidden":
        if (stage.at === "looking") own.stage = hidden(stage);
        return;
      case "named":
        if (stage.at === "naming" && isToName(stage.look, event.entry)) stage.look.named.push(event.entry);
        return;
      case "taken-back":
        if (stage.at === "naming" && stage.look.named.includes(event.entry))
          stage.look.named = stage.look.named.filter((each) => each !== event.entry);
        return;
      case "strayed":
        if (stage.at === "naming") stage.look.stray.push({ given: event.given, as: event.as });
        return;
      case "named-all":
        if (stage.at !== "naming") return;
        own.past.push({ kind: "look", look: stage.look });
        own.stage = afterOne(stage, (look, others) => ({ ...stage, look, others }), "told");
        return;
      case "turned-to":
        turnTo(stage, event.by);
        return;
      case "asked": {
        if (!isBetween(stage) || isOfLooks(own.settings.task) || !rudimentById(event.entry)) return;
        const [by = null, ...others] = new Set(event.of);
        own.stage = { at: "asked", entry: event.entry, by, others, of: [by, ...others] };
        return;
      }
      case "answered":
        if (stage.at !== "asked") return;
        own.past.push({
          kind: "sticking",
          asked: {
            by: stage.by,
            entry: stage.entry,
            way: event.way,
            held: event.held,
            words: event.words,
            ofTeacher: own.roles === "teacher-names",
          },
        });
        own.stage = afterOne(stage, (by, others) => ({ ...stage, by, others }), "answered");
        return;
      case "let-be":
        if (!isBetween(stage)) own.stage = { at: "before" };
        return;
      case "turned-round":
        if (!isBetween(stage)) own.stage = { at: "before" };
        own.roles = own.roles === "student-names" ? "teacher-names" : "student-names";
        return;
    }
  },
);

/** Whether nothing is being looked at, named or waited for. */
function isBetween({ at }: ChartStage): boolean {
  return at === "before" || at === "told" || at === "answered";
}

function isToName({ settings, named }: Pick<ChartLook, "settings" | "named">, id: string): boolean {
  return chartList(settings).includes(id) && !named.includes(id);
}

/** It is long where one of them looks at this part of the chart for the first time. */
function newLook(own: Draft<WallChart>, of: (PlayerId | null)[]): Draft<ChartStage> {
  const { settings } = own;
  const ofTeacher = own.roles === "teacher-names";
  const isFirst = of.some((by) => looksAt(own, settings, by, ofTeacher).length === 0);
  return {
    at: "looking",
    look: {
      by: of[0] ?? null,
      settings: { ...settings } as Draft<ChartSettings>,
      forSeconds: isFirst ? settings.longSeconds : settings.shortSeconds,
      seconds: 0,
      named: [],
      stray: [],
      ofTeacher,
    },
    of,
  };
}

type Looking = Extract<Draft<ChartStage>, { at: "looking" }>;

/** The chart is hidden from all: each has a list of their own. */
function hidden({ look, of }: Looking): Draft<ChartStage> {
  return { at: "naming", look, others: of.slice(1).map((by) => ({ ...look, by, named: [], stray: [] })), of };
}

/** One is done: the next of those who wait, or, where nobody does, the end of it. */
function afterOne<Each>(
  { others, of }: { others: Each[]; of: (PlayerId | null)[] },
  next: (now: Each, others: Each[]) => Draft<ChartStage>,
  end: "told" | "answered",
): Draft<ChartStage> {
  const [now, ...rest] = others;
  return now === undefined ? { at: end, of } : next(now, rest);
}

/** One of those who wait comes first. */
function turnTo(stage: Draft<ChartStage>, by: PlayerId | null): void {
  if (stage.at === "naming") {
    const wanted = stage.others.find((look) => look.by === by);
    if (!wanted) return;
    stage.others = [stage.look, ...stage.others.filter((look) => look !== wanted)];
    stage.look = wanted;
  } else if (stage.at === "asked" && stage.others.includes(by)) {
    stage.others = [stage.by, ...stage.others.filter((each) => each !== by)];
    stage.by = by;
  }
}

/** Looks of one player at the same part of the chart with the same task, in order. */
export function looksAt(
  { past }: Pick<WallChart, "past">,
  part: Pick<ChartSettings, "task" | "from" | "to" | "these">,
  by: PlayerId | null,
  ofTeacher = false,
): readonly ChartLook[] {
  return past.flatMap((each) => {
    if (each.kind !== "look" || each.look.by !== by || each.look.ofTeacher !== ofTeacher) return [];
    return isSamePart(each.look.settings, part) ? [each.look] : [];
  });
}

/** What each of these looks gained. */
export function curveOf(looks: readonly ChartLook[]): readonly LookFigures[] {
  return recallCurve(looks);
}

/** The place of each slip of a look that was named in order. */
export function orderOf({ named, settings }: Pick<ChartLook, "named" | "settings">) {
  return namedInOrder(named, chartList(settings));
}

function shownByLook(look: ChartLook): readonly Shown[] {
  if (look.ofTeacher) return [];
  const { by, named, settings } = look;
  const list = chartList(settings);
  const all = list.map((id): Shown => {
    const held = named.includes(id);
    const item: ShownItem = `rudiment:${id}`;
    return { by, item, outcome: held ? "held" : "missed", words: held ? "" : "Not named after a look." };
  });
  if (settings.task !== "order") return all;
  const { inOrder, moved } = orderOf(look);
  return [
    ...all,
    ...inOrder.map((id): Shown => ({ by, item: `order:${id}`, outcome: "held", words: "" })),
    ...moved.map(
      ({ id, at, belongsAt }): Shown => ({
        by,
        item: `order:${id}`,
        outcome: "missed",
        words: `Named as the ${ordinal(at)}; it is the ${ordinal(belongsAt)} of these.`,
      }),
    ),
  ];
}

function ordinal(place: number): string {
  const teens = place % 100 >= 11 && place % 100 <= 13;
  const end = teens ? "th" : (["th", "st", "nd", "rd"][place % 10] ?? "th");
  return `${place}${end}`;
}

export const wallChartRules: RoundRules<WallChart, WallChartEvent> = {
  fresh: NEW_WALL_CHART,
  after: wallChartAfter,
  shown: ({ past }) =>
    past.flatMap((each) => {
      if (each.kind === "look") return shownByLook(each.look);
      const { by, entry, held, words, ofTeacher } = each.asked;
      if (ofTeacher) return [];
      return [
        {
          by,
          item: `sticking:${entry}` as const,
          outcome: held ? ("held" as const) : ("missed" as const),
          words,
        },
      ];
    }),
  words: (own, event) => {
    switch (event.kind) {
      case "look-began":
        return "A look at the chart.";
      case "hidden":
        return "The chart was hidden.";
      case "named":
        return `Named: ${chartName(event.entry)}.`;
      case "strayed":
        return `Said: ${event.given}, which is ${event.as === "elsewhere" ? "of another part of the chart" : event.as === "unclear" ? "one of several" : "none of them"}.`;
      case "named-all":
        return own.stage.at === "naming"
          ? `${own.stage.look.named.length} of ${chartList(own.stage.look.settings).length} named.`
          : null;
      case "asked":
        return `Asked for the hands of ${chartName(event.entry)}.`;
      case "answered":
        return event.held ? "The hands held." : `The hands slipped: ${event.words}`;
      case "let-be":
        return "It was taken back.";
      case "turned-round":
        return own.roles === "student-names"
          ? "Turned round: the student examines."
          : "Turned round again: the student names.";
      default:
        return null;
    }
  },
};
