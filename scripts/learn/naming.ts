/**
 * Learns when to name a groove: the weights of what is asked before one is named rather than another, or none.
 * Questions: the catalogue as people play it, on either cymbal, with strokes lost and added; grooves of human takes as
 * other players may play them, from one and from three reference takes; windows of long human takes; styles people play. Each
 * with the groove that was played among the known ones, and without it. Method: conditional logistic regression.
 */
import { demonstrate, STYLES } from "../../engine/catalogue/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import { catalogueStock, shelfStock } from "../../engine/listening/index.ts";
import type { Background } from "../../engine/listening/learning.ts";
import {
  beatsPerBar,
  DYNAMIC_VELOCITY,
  type Groove,
  playedBeat,
  usualTempo,
} from "../../engine/score/index.ts";
import { type Chance, toNumber } from "../../engine/units/index.ts";
import { question } from "./namingQuestion.ts";
import { peopleQuestions } from "./people.ts";
import { type DerivedGroove, derivedGroove, partOf, STEPS_PER_BEAT } from "./players/derivedGroove.ts";
import { type Fill, humanFills, tomsDown } from "./players/fills.ts";
import type { HumanTake } from "./players/humanTake.ts";
import { anotherPlayer } from "./players/otherPlayers.ts";
import { type Performance, perform } from "./players/performance.ts";
import { distinct } from "./players/shelves.ts";
import { barsOf, windowOf } from "./players/windows.ts";
import type { Question } from "./regression.ts";
import type { Take } from "./takes.ts";

/** Of five questions two are about a groove that is not known. Our choice, between as many and one of four, as in lessons. */
const UNKNOWN_SHARE = 0.4;
const UNKNOWN_LEFT_OUT = 1 / 3;

/** Of the features of naming: one, and the evidence. */
export const FREE_IN_NAMING = [0, 1];

/** What written grooves and what reference takes are learnt from: each has weights of its own. */
export interface NamingQuestions {
  readonly asWritten: readonly Question[];
  readonly byTakes: readonly Question[];
}

/**
 * All questions about these players' takes.
 *
 * @param fills takes of fills, whoever plays them: other players' are drawn from these.
 */
export function namingQuestions(
  takes: readonly Take[],
  fills: readonly Take[],
  general: Background,
  chance: Chance,
): NamingQuestions {
  return {
    asWritten: [
      ...catalogueQuestions(general, 2, chance),
      ...peopleQuestions(takes, general, UNKNOWN_SHARE, chance),
    ],
    byTakes: [
      ...otherPlayersQuestions(takes, humanFills(fills.map(human)), general, 24, chance),
      ...windowQuestions(takes, general, 9, chance),
    ],
  };
}

/** Questions about the styles of the catalogue: played by the book, loosely, and as players with habits of their own do. */
function catalogueQuestions(general: Background, rounds: number, chance: Chance): readonly Question[] {
  const stock = catalogueStock(STYLES, general);
  const fills: readonly Fill[] = Array.from({ length: 12 }, () => tomsDown(chance));
  return Array.from({ length: rounds }).flatMap(() =>
    STYLES.flatMap((style) =>
      style.variants.flatMap((groove) => {
        const bars = [2, 4, 8][Math.floor(3 * chance())] ?? 8;
        const hits =
          chance() < 0.4 ? byTheBook(groove, bars, chance) : withHabits(groove, bars, fills, chance);
        const unknown = chance() < UNKNOWN_SHARE;
        const among = unknown
          ? { ...stock, grooves: stock.grooves.filter(({ id }) => id !== style.id) }
          : stock;
        return question(hits, among, [style.id], "catalogue");
      }),
    ),
  );
}

function byTheBook(groove: Groove, bars: number, chance: Chance): readonly Hit[] {
  const strokes = demonstrate(groove, {
    tempoBpm: usualTempo(groove) * (0.75 + 0.5 * chance()),
    bars,
    leanMs: 40 * (chance() - 0.5),
    spreadMs: 8 + 14 * chance(),
    leftOut: 0.1 * chance(),
    added: 0.1 * chance(),
    chance,
    ...(chance() < 0.5 ? { orchestration: { timeOn: chance() < 0.5 ? "ride" : "hi-hat-closed" } } : {}),
  });
  return strokes.map((stroke): Hit => ({ ...stroke, zone: "whole", pad: 0 }));
}

/** A written stroke is played by nearly everybody; a ghost note by most. Our choice. */
const PLAYED_SHARE = { plain: 0.95, accent: 0.95, ghost: 0.7 } as const;

function withHabits(groove: Groove, bars: number, fills: readonly Fill[], chance: Chance): readonly Hit[] {
  const learnt: DerivedGroove = {
    id: groove.id,
    tempoBpm: usualTempo(groove),
    beatsInBar: beatsPerBar(groove.metre),
    bars: groove.bars,
    strokes: groove.notes.flatMap(({ voice, position, dynamic }) => {
      const part = partOf(voice);
      const step = Math.round(playedBeat(groove.feel, toNumber(position)) * STEPS_PER_BEAT);
      return part
        ? [{ part, voice, step, share: PLAYED_SHARE[dynamic], velocity: DYNAMIC_VELOCITY[dynamic] }]
        : [];
    }),
  };
  return perform(learnt, anotherPlayer(learnt, fills, chance), { bars, slower: stretch(chance) }, chance)
    .hits;
}

const ON_A_SHELF = 10;
const REFERENCE_BARS = 16;
const ASKED: readonly Omit<Performance, "slower">[] = [
  { bars: 16 },
  { bars: 8 },
  { bars: 8, leftOut: 0.1, added: 0.05, jitterMs: 12 },
  { bars: 4 },
  { bars: 2 },
];

/** Questions about grooves of these takes as other players play them. */
function otherPlayersQuestions(
  takes: readonly Take[],
  fills: readonly Fill[],
  general: Background,
  shelves: number,
  chance: Chance,
): readonly Question[] {
  const grooves = takes.flatMap((take) => derivedGroove(human(take)) ?? []);
  return Array.from({ length: shelves }).flatMap(() => {
    const chosen = distinct(grooves, 2 * ON_A_SHELF, chance);
    const onShelf = chosen.slice(0, Math.ceil(chosen.length / 2));
    const takeBy = (groove: DerivedGroove, how: Performance): readonly Hit[] =>
      perform(groove, anotherPlayer(groove, fills, chance), how, chance).hits;
    const references = chance() < 0.3 ? 1 : 3;
    const stock = shelfStock(
      onShelf.map((groove) => ({
        id: groove.id,
        name: groove.id,
        takes: Array.from({ length: references }, () =>
          takeBy(groove, { bars: REFERENCE_BARS, slower: stretch(chance) }),
        ),
      })),
      general,
    );
    return ASKED.flatMap((how) =>
      chosen.flatMap((groove, index) => {
        const known = index < onShelf.length;
        // Two of three of those not on the shelf: two unknown to three known.
        if (!known && chance() < UNKNOWN_LEFT_OUT) return [];
        return question(takeBy(groove, { ...how, slower: stretch(chance) }), stock, [groove.id], "players");
      }),
    );
  });
}

const WINDOW_BARS = 8;

/** Questions about windows of these takes, where they are long. */
function windowQuestions(
  takes: readonly Take[],
  general: Background,
  shelves: number,
  chance: Chance,
): readonly Question[] {
  const long = takes.map(human).flatMap((take) => {
    const groove = derivedGroove(take);
    return groove && barsOf(take) >= 4 * WINDOW_BARS ? [{ take, groove }] : [];
  });
  return Array.from({ length: shelves }).flatMap(() => {
    const chosen = distinct(
      long.map(({ groove }) => groove),
      2 * ON_A_SHELF,
      chance,
    ).flatMap(({ id }) => long.find(({ groove }) => groove.id === id) ?? []);
    const onShelf = chosen.slice(0, Math.ceil(chosen.length / 2));
    const windows = ({ take }: (typeof long)[number]): number => Math.floor(barsOf(take) / WINDOW_BARS);
    const stock = shelfStock(
      onShelf.map((one) => ({
        id: one.groove.id,
        name: one.groove.id,
        takes: [0, 2, 4]
          .filter((window) => window < windows(one))
          .map((window) => windowOf(one.take, window * WINDOW_BARS, WINDOW_BARS).hits),
      })),
      general,
    );
    return chosen.flatMap((one, index) => {
      if (index >= onShelf.length && chance() < UNKNOWN_LEFT_OUT) return [];
      const odd = 2 * Math.floor(chance() * Math.floor(windows(one) / 2)) + 1;
      const bars = [8, 4, 2][Math.floor(3 * chance())] ?? 8;
      const { hits } = windowOf(one.take, odd * WINDOW_BARS + chance(), bars, stretch(chance));
      return question(hits, stock, [one.groove.id], "windows");
    });
  });
}

function human({ id, tempoBpm, beatsInBar, hits }: Take): HumanTake {
  return { id, bpm: tempoBpm, beatsInBar, hits };
}

/** From ×0.8 to ×1.25, ratios alike. */
function stretch(chance: Chance): number {
  return 0.8 * 1.5625 ** chance();
}
