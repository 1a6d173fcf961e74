/** An invented round that is kept step by step: what is asked, what the student answers, and how long that takes. */
import { SIGNS, type Sign, signName } from "../../../../engine/catalogue/index.ts";
import { drawQuestion, type Moments, rungAt, type Sounded } from "../../../../engine/ear/index.ts";
import {
  type BackTurnedEvent,
  type CardTableEvent,
  type ChartSettings,
  type ChartTask,
  chartList,
  drawPerformance,
  FIRST_SETTINGS,
  isOfLooks,
  nameItem,
  type RoundStep,
  type ShownItem,
  type SpottingEvent,
  STOCK_TO_SPOT,
  shuffled,
  type WallChartEvent,
} from "../../../../engine/rounds/index.ts";
import { LEVELS } from "../../../../engine/score/index.ts";
import type { ItemId } from "../../../../engine/session/index.ts";
import type { Chance, Seconds } from "../../../../engine/units/index.ts";
import type { AskedRound, InventedStudent } from "./millrace.ts";

export interface InventedStep {
  /** Since the step before it. */
  readonly after: Seconds;
  readonly step: RoundStep;
}

/** A student as he or she is in one lesson. */
export interface Answering {
  readonly who: InventedStudent;
  /** How much of the half year has passed, 0 to 1. */
  readonly along: number;
  readonly met: ReadonlySet<ItemId>;
  readonly chance: Chance;
}

/** How many are asked in a round. Our choice: what a few minutes hold. */
const SOUNDS_ASKED = 6;
const THINGS_ASKED = 4;
const CARDS_ASKED = 7;
const HANDS_ASKED = 4;

/** The steps of one round, from its beginning to its end. */
export function inventSteps(kind: AskedRound, answering: Answering): readonly InventedStep[] {
  const began = { kind: "began", players: [answering.who.student.id], answering: "in-turn" } as const;
  const stopped = { kind: "stopped" } as const;
  const all = [{ after: 0, event: began }, ...STEPS[kind](answering), { after: 4, event: stopped }];
  return all.map(({ after, event }) => ({ after, step: { round: kind, event } as RoundStep }));
}

interface Timed<Event> {
  readonly after: Seconds;
  readonly event: Event;
}

const STEPS: Readonly<Record<AskedRound, (answering: Answering) => readonly Timed<object>[]>> = {
  "back-turned": inventSounds,
  "card-table": inventCards,
  spotting: inventThings,
  "wall-chart": inventChart,
};

/** What was met holds oftener the longer lessons go on; what is hard for this student holds less. */
function isHeld({ who, along, met, chance }: Answering, item: ShownItem): boolean {
  const known = met.has(item) ? 0.6 + 0.32 * along : 0.35 + 0.2 * along;
  return chance() < known * (who.hard.includes(item) ? 0.55 : 1);
}

function oneOf<Thing>(things: readonly Thing[], chance: Chance): Thing | undefined {
  return things[Math.floor(chance() * things.length)];
}

/** Thinking takes its time. */
function thought({ chance }: Answering): Seconds {
  return Math.round((3 + 9 * chance()) * 10) / 10;
}

function inventSounds(answering: Answering): readonly Timed<BackTurnedEvent>[] {
  const { who, along, chance } = answering;
  const id = who.student.id;
  return Array.from({ length: SOUNDS_ASKED }, (): readonly Timed<BackTurnedEvent>[] => {
    const stands = who.rungs.first + (who.rungs.last - who.rungs.first) * along;
    const rung = Math.max(1, Math.round(stands + 3 * chance() - 1.5));
    const { pool } = rungAt(rung);
    const moments = drawQuestion(rungAt(rung), chance);
    const said: Moments = moments.map((moment) =>
      moment.map((sounded): Sounded => {
        if (isHeld(answering, `sound:${sounded.surface}`)) return sounded;
        const others = pool.filter((each) => !moment.some(({ surface }) => surface === each));
        return { ...sounded, surface: oneOf(others, chance) ?? sounded.surface };
      }),
    );
    return [
      { after: 3, event: { kind: "asked", moments, rung, of: [id] } },
      {
        after: thought(answering),
        event: { kind: "answered", by: id, moments: said, way: chance() < 0.5 ? "named" : "struck" },
      },
    ];
  }).flat();
}

function inventThings(answering: Answering): readonly Timed<SpottingEvent>[] {
  const { who, along, met, chance } = answering;
  const id = who.student.id;
  const heard = who.styles.concat(who.spotted);
  const taken = heard.slice(0, Math.max(THINGS_ASKED, Math.ceil(heard.length * (0.3 + 0.7 * along))));
  const asked = shuffled(taken, chance).slice(0, THINGS_ASKED);
  return [
    { after: 1, event: { kind: "source-chosen", source: "program", about: "grooves" } },
    ...asked.flatMap((style): readonly Timed<SpottingEvent>[] => {
      const spottable = STOCK_TO_SPOT.find(({ thing }) => thing.kind === "groove" && thing.id === style);
      if (!spottable) return [];
      const { thing } = spottable;
      const item = nameItem(thing);
      const isMet = met.has(item) || met.has(`style:${style}`);
      const other = STOCK_TO_SPOT.find(({ thing: each }) => each.id === oneOf(taken, chance));
      const confused = other && other.thing.id !== style && chance() < 0.6 ? other.thing : null;
      return [
        {
          after: 3,
          event: {
            kind: "asked",
            thing,
            performance: drawPerformance(spottable, chance),
            isNew: !isMet,
            of: [id],
          },
        },
        {
          after: 12 + thought(answering),
          event: {
            kind: "answered",
            by: id,
            answer: isHeld(answering, item)
              ? { way: "named", thing, said: thing.name.toLowerCase() }
              : !isMet
                ? { way: "never-heard" }
                : confused
                  ? { way: "named", thing: confused, said: confused.name.toLowerCase() }
                  : { way: "knows-place" },
          },
        },
      ];
    }),
  ];
}

function inventCards(answering: Answering): readonly Timed<CardTableEvent>[] {
  const { who, along, met, chance } = answering;
  const id = who.student.id;
  const reach = LEVELS.indexOf(who.student.level);
  const signs = SIGNS.filter(({ level }) => LEVELS.indexOf(level) <= reach);
  // More of them lie in the deck as the months go by.
  const known = signs.slice(0, Math.max(CARDS_ASKED, Math.ceil(signs.length * (0.25 + 0.6 * along))));
  const asked = shuffled(known, chance).slice(0, CARDS_ASKED);
  const cards = asked.map(({ id: sign }) => ({
    card: `symbol:${sign}` as const,
    reason: met.has(`symbol:${sign}`) ? ("held" as const) : ("new" as const),
  }));
  return [
    { after: 1, event: { kind: "deck-laid", cards } },
    ...asked.flatMap((sign): readonly Timed<CardTableEvent>[] => [
      { after: 2, event: { kind: "turned-up", choices: [], of: [id] } },
      { after: thought(answering), event: { kind: "card-answered", by: id, answer: cardAnswer(sign) } },
    ]),
    { after: 2, event: { kind: "laid-away" } },
  ];

  function cardAnswer(sign: Sign): Extract<CardTableEvent, { kind: "card-answered" }>["answer"] {
    const item = `symbol:${sign.id}` as const;
    const named = (each: Sign) =>
      ({ way: "word", given: signName(each, "us").toLowerCase(), meant: `symbol:${each.id}` }) as const;
    if (isHeld(answering, item)) return named(sign);
    if (!met.has(item)) return { way: "said", outcome: "never-met" };
    const other = oneOf(
      known.filter((each) => each.family === sign.family && each !== sign),
      chance,
    );
    return other ? named(other) : { way: "said", outcome: "slipped" };
  }
}

function inventChart(answering: Answering): readonly Timed<WallChartEvent>[] {
  const { who, along, chance } = answering;
  const id = who.student.id;
  const task = along > 0.5 ? who.chart.later : who.chart.first;
  const settings: ChartSettings = { ...FIRST_SETTINGS, ...who.chart.part, task };
  const set: Timed<WallChartEvent> = { after: 1, event: { kind: "set", settings } };
  const list = chartList(settings);
  if (!isOfLooks(task)) {
    const asked = shuffled(list, chance).slice(0, HANDS_ASKED);
    return [
      set,
      ...asked.flatMap((entry): readonly Timed<WallChartEvent>[] => {
        const held = isHeld(answering, `sticking:${entry}`);
        const words = held ? "" : "The hands were said otherwise.";
        return [
          { after: 2, event: { kind: "asked", entry, of: [id] } },
          { after: thought(answering), event: { kind: "answered", way: "said", held, words } },
        ];
      }),
    ];
  }
  const look = (seconds: Seconds, bonus: number): readonly Timed<WallChartEvent>[] => [
    { after: 2, event: { kind: "look-began", of: [id] } },
    { after: seconds, event: { kind: "looked", seconds } },
    ...inMind(list, task, chance).flatMap((entry): readonly Timed<WallChartEvent>[] =>
      chance() < bonus || isHeld(answering, `rudiment:${entry}`)
        ? [{ after: 2 + 3 * chance(), event: { kind: "named", entry, way: "ticked" } }]
        : [],
    ),
    { after: 6, event: { kind: "named-all" } },
  ];
  return [set, ...look(settings.longSeconds, 0), ...look(settings.shortSeconds, 0.3)];
}

/** As they come to mind: in any order where none is asked for, else in order but for two that change places. */
function inMind(list: readonly string[], task: ChartTask, chance: Chance): readonly string[] {
  if (task !== "order") return shuffled(list, chance);
  const at = Math.floor(chance() * (list.length - 1));
  return list.flatMap((entry, place) => {
    if (place === at) return list[at + 1] ?? entry;
    return place === at + 1 ? (list[at] ?? entry) : entry;
  });
}
