/**
 * Question: is what a kit plays of the studio's own, fills and drum parts, proposed under its right name, and is nothing else
 * proposed under theirs?
 * Method: forty fills and forty parts made by chance (`ownMusic.ts`), known beside the whole catalogue; the demonstration
 * player's usual hand. A fill is played in eight bars of a groove; a part whole, at up to a tenth from its tempo, or its first
 * section only. What must not be taken for them: the catalogue's fills and styles, and parts that are not known.
 */
import { expect, test } from "vitest";
import { demonstrate, FILLS, NOTHING_OF_SHELF, STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { type About, hearTake, proposalOf, USUAL_HAND, withShelf } from "../../../engine/rounds/index.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { seededChance, wilson } from "../../../engine/units/index.ts";
import { FULL } from "../listening/size.ts";
import { IN_FOUR, ownFills, ownParts, passagesOf, takeOf, takeOfFill } from "./ownMusic.ts";

const TARGET = 0.97;
const TIMES = FULL ? 5 : 1;
const COUNT = 40;
const UNKNOWN = 20;
const LONG = { timeout: 1_800_000 };

const chance = seededChance(41);
const fills = ownFills(COUNT, chance);
const parts = ownParts(COUNT, [...IN_FOUR, ...fills], chance);
const own = withShelf({ ...NOTHING_OF_SHELF, fills, parts });
const withoutSome = withShelf({ ...NOTHING_OF_SHELF, fills, parts: parts.slice(UNKNOWN) });

const heard = (hits: readonly Hit[], stock = own) => hearTake(hits, null, undefined, stock);

function proposed(hits: readonly Hit[], about: About, stock = own): string {
  const proposal = proposalOf(heard(hits, stock), about);
  return proposal ? `${proposal.thing.kind} ${proposal.thing.id}` : "none";
}

/** Each of them so often; `true` where it is told as it should be. */
function share<Of>(name: string, all: readonly Of[], isRight: (one: Of, time: number) => boolean): number {
  const told = Array.from({ length: TIMES }, (_, time) => all.map((one) => isRight(one, time))).flat();
  const right = told.filter((each) => each).length;
  const { low, high } = wilson(right, told.length);
  console.log(
    `spotting, the studio's own: ${name} ${(right / told.length).toFixed(3)} [${low.toFixed(3)}, ${high.toFixed(3)}] of ${told.length}`,
  );
  return right / told.length;
}

const lastBar = (time: number): number => (time % 2 === 0 ? 4 : 8);
const tempoShare = (): number => 0.9 + 0.2 * chance();

test("own fills, proposed; and told by name inside a groove, where nobody asks for a fill", LONG, () => {
  const fresh = (fill: (typeof fills)[number], time: number) => takeOfFill(fill, lastBar(time), chance);
  expect(
    share(
      "fills proposed rightly",
      fills,
      (fill, time) => proposed(fresh(fill, time), "fills") === `fill ${fill.id}`,
    ),
  ).toBeGreaterThanOrEqual(TARGET);
  expect(
    share("fills set apart and named", fills, (fill, time) => {
      const hearing = heard(fresh(fill, time));
      return hearing.kind === "heard" && hearing.fills.some(({ id }) => id === fill.id);
    }),
  ).toBeGreaterThanOrEqual(0.9);
});

test("the catalogue's fills are not taken for own ones", LONG, () => {
  const stolen =
    1 -
    share(
      "catalogue fills not taken for own",
      FILLS,
      (fill, time) => !proposed(takeOfFill(fill, lastBar(time), chance), "fills").startsWith("fill own/"),
    );
  expect(stolen).toBeLessThanOrEqual(0.01);
  expect(
    share(
      "catalogue fills proposed rightly",
      FILLS,
      (fill, time) => proposed(takeOfFill(fill, lastBar(time), chance), "fills") === `fill ${fill.id}`,
    ),
  ).toBeGreaterThanOrEqual(0.96);
});

test("own parts: whole, and a section that has something of its own", LONG, () => {
  expect(
    share(
      "parts proposed rightly, played whole",
      parts,
      (part) => proposed(takeOf(passagesOf(part), tempoShare(), chance), "grooves") === `part ${part.id}`,
    ),
  ).toBeGreaterThanOrEqual(TARGET);
  const endingWithFill = parts.filter((part) => passagesOf(part)[0]?.fill !== undefined);
  expect(
    share(
      "parts proposed rightly, the first section that ends with a fill",
      endingWithFill,
      (part) =>
        proposed(takeOf(passagesOf(part).slice(0, 1), tempoShare(), chance), "grooves") === `part ${part.id}`,
    ),
  ).toBeGreaterThanOrEqual(TARGET);
  const plain = parts.filter((part) => passagesOf(part)[0]?.fill === undefined);
  expect(
    share("the first section without a fill, proposed as its groove", plain, (part) =>
      proposed(takeOf(passagesOf(part).slice(0, 1), tempoShare(), chance), "grooves").startsWith("groove "),
    ),
  ).toBeGreaterThanOrEqual(0.9);
});

test("what is none of them is not taken for a part", LONG, () => {
  expect(
    share(
      "parts that are not known, not taken for another",
      parts.slice(0, UNKNOWN),
      (part) =>
        !proposed(takeOf(passagesOf(part), tempoShare(), chance), "grooves", withoutSome).startsWith("part "),
    ),
  ).toBeGreaterThanOrEqual(0.97);
  const ways = STYLES.flatMap(({ id, variants }) => variants.map((groove) => ({ id, groove })));
  expect(
    share("styles, proposed rightly beside them", ways, ({ id, groove }) => {
      const tempoBpm = usualTempo(groove) * (0.75 + 0.5 * chance());
      const strokes = demonstrate(groove, { ...USUAL_HAND, tempoBpm, bars: 8, chance });
      const hits = strokes.map((stroke) => ({ ...stroke, zone: "whole" as const, pad: 0 }));
      return proposed(hits, "grooves") === `groove ${id}`;
    }),
  ).toBeGreaterThanOrEqual(TARGET);
});
