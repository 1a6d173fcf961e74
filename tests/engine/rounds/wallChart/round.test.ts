import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { RUDIMENTS, rudimentById, stickingOf } from "../../../../engine/catalogue/index.ts";
import {
  chartList,
  curveOf,
  isOfLooks,
  isStickingOf,
  looksAt,
  NEW_WALL_CHART,
  offeredStickings,
  orderOf,
  type WallChart,
  type WallChartEvent,
  wallChartAfter,
  wallChartEventSchema,
  wallChartRules,
} from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { anyWallChartEvent } from "./events.ts";

const anyEvent = anyWallChartEvent([null, "ottilie", "bram"]);

type Player = string | null;

/** The round as plainly as it can be told: where it is, how long was looked, whose list it is and what stands on each. */
interface Model {
  at: "between" | "looking" | "naming" | "asked";
  left: number;
  /** Those who are still to name, or to answer, with their lists; the one whose turn it is first. */
  lists: Map<Player, Set<string>>;
  finished: number;
  looked: Set<string>;
  turned: boolean;
}

const BEFORE: Model = {
  at: "between",
  left: 0,
  lists: new Map(),
  finished: 0,
  looked: new Set(),
  turned: false,
};

function firstOf(model: Model): Player | undefined {
  return [...model.lists.keys()][0];
}

function oneIsDone(model: Model): void {
  const first = firstOf(model);
  if (first !== undefined) model.lists.delete(first);
  model.finished += 1;
  if (model.lists.size === 0) model.at = "between";
}

function modelAfter(model: Model, { settings }: WallChart, event: WallChartEvent): void {
  const whose = (by: Player) => JSON.stringify([by, settings.task, settings.from, settings.to, model.turned]);
  const named = model.lists.get(firstOf(model) ?? null);
  switch (event.kind) {
    case "look-began":
      if (model.at !== "between" || !isOfLooks(settings.task)) return;
      model.at = "looking";
      model.lists = new Map(event.of.map((by) => [by, new Set()]));
      model.left = event.of.every((by) => model.looked.has(whose(by)))
        ? settings.shortSeconds
        : settings.longSeconds;
      return;
    case "looked":
      if (model.at !== "looking") return;
      model.left -= event.seconds;
      if (model.left <= 0) model.at = "naming";
      return;
    case "hidden":
      if (model.at === "looking") model.at = "naming";
      return;
    case "named":
      if (model.at === "naming" && chartList(settings).includes(event.entry)) named?.add(event.entry);
      return;
    case "taken-back":
      if (model.at === "naming") named?.delete(event.entry);
      return;
    case "turned-to": {
      const list = model.lists.get(event.by);
      if (!list || (model.at !== "naming" && model.at !== "asked")) return;
      model.lists.delete(event.by);
      model.lists = new Map([[event.by, list], ...model.lists]);
      return;
    }
    case "named-all":
      if (model.at !== "naming") return;
      model.looked.add(whose(firstOf(model) ?? null));
      oneIsDone(model);
      return;
    case "asked":
      if (model.at !== "between" || isOfLooks(settings.task) || !rudimentById(event.entry)) return;
      model.at = "asked";
      model.lists = new Map(event.of.map((by) => [by, new Set()]));
      return;
    case "answered":
      if (model.at === "asked") oneIsDone(model);
      return;
    case "turned-round":
      model.turned = !model.turned;
      model.at = "between";
      return;
    case "let-be":
      model.at = "between";
      return;
    default:
      return;
  }
}

function placeOf({ stage }: WallChart): Model["at"] {
  return stage.at === "looking" || stage.at === "naming" || stage.at === "asked" ? stage.at : "between";
}

test("any sequence of events keeps to the plain model, and what was shown only grows", () => {
  fc.assert(
    fc.property(fc.array(anyEvent, { maxLength: 50 }), (events) => {
      const model: Model = { ...BEFORE, lists: new Map(), looked: new Set() };
      let own: WallChart = NEW_WALL_CHART;
      for (const event of events) {
        const before = own;
        own = wallChartAfter(before, event);
        modelAfter(model, before, event);
        expect(placeOf(own)).toBe(model.at);
        expect(own.past).toHaveLength(model.finished);
        if (own.stage.at === "looking") {
          const { forSeconds, seconds } = own.stage.look;
          expect(forSeconds - seconds).toBeCloseTo(model.left);
          expect(own.stage.look.named).toEqual([]);
        }
        if (own.stage.at === "naming")
          expect([own.stage.look, ...own.stage.others].map(({ by, named }) => [by, named])).toEqual(
            [...model.lists].map(([by, list]) => [by, [...list]]),
          );
        if (own.stage.at === "asked")
          expect([own.stage.by, ...own.stage.others]).toEqual([...model.lists.keys()]);
        const shownBefore = wallChartRules.shown(before);
        expect(wallChartRules.shown(own).slice(0, shownBefore.length)).toEqual(shownBefore);
      }
      for (const each of own.past) {
        if (each.kind !== "look") continue;
        const { named, settings, seconds, forSeconds } = each.look;
        expect(new Set(named).size).toBe(named.length);
        expect(named.filter((id) => !chartList(settings).includes(id))).toEqual([]);
        expect(seconds).toBeLessThanOrEqual(forSeconds);
      }
      expect(events.map((event) => wallChartEventSchema.parse(event))).toEqual(events);
    }),
    { numRuns: 300 },
  );
});

test("what the teacher names shows nothing of a student", () => {
  fc.assert(
    fc.property(fc.array(anyEvent, { maxLength: 40 }), (events) => {
      const turned = events.filter(({ kind }) => kind !== "turned-round");
      const own = [{ kind: "turned-round" as const }, ...turned].reduce(wallChartAfter, NEW_WALL_CHART);
      expect(wallChartRules.shown(own)).toEqual([]);
    }),
    { numRuns: 100 },
  );
});

function after(...events: readonly WallChartEvent[]): WallChart {
  return events.reduce(wallChartAfter, NEW_WALL_CHART);
}

const set = (settings: Partial<WallChart["settings"]>): WallChartEvent => ({
  kind: "set",
  settings: { ...NEW_WALL_CHART.settings, ...settings },
});
const began: WallChartEvent = { kind: "look-began", of: ["ottilie"] };
const named = (...entries: readonly string[]): readonly WallChartEvent[] =>
  entries.map((entry) => ({ kind: "named", entry, way: "typed" }));

describe("two looks", () => {
  const own = after(
    began,
    { kind: "looked", seconds: 70 },
    { kind: "looked", seconds: 50 },
    ...named("flam", "drag", "flam"),
    { kind: "strayed", given: "quadruple paradiddle", as: "none" },
    { kind: "named-all" },
    began,
    { kind: "looked", seconds: 29.9 },
  );

  test("the first lasts two minutes, the second half a minute", () => {
    expect(own.past[0]).toMatchObject({ look: { forSeconds: 120, seconds: 120, named: ["flam", "drag"] } });
    expect(own.stage).toMatchObject({ at: "looking", look: { forSeconds: 30, seconds: 29.9 } });
  });

  test("the second shows its gain", () => {
    const over = [
      { kind: "hidden" as const },
      ...named("drag", "flam-tap"),
      { kind: "named-all" as const },
    ].reduce(wallChartAfter, own);
    expect(curveOf(looksAt(over, over.settings, "ottilie"))[1]).toEqual({
      count: 2,
      gained: ["flam-tap"],
      gone: ["flam"],
      soFar: 3,
    });
  });
});

test("in order: the place of each slip, for memory too", () => {
  const own = after(
    set({ task: "order", from: 1, to: 4 }),
    began,
    { kind: "hidden" },
    ...named("single-stroke-roll", "single-stroke-seven", "single-stroke-four"),
    { kind: "named-all" },
  );
  const [look] = looksAt(own, own.settings, "ottilie");
  expect(look && orderOf(look)).toEqual({
    inOrder: ["single-stroke-roll", "single-stroke-four"],
    moved: [{ at: 2, id: "single-stroke-seven", belongsAt: 3 }],
    leftOut: ["multiple-bounce-roll"],
  });
  expect(wallChartRules.shown(own).filter(({ outcome }) => outcome === "missed")).toEqual([
    {
      by: "ottilie",
      item: "rudiment:multiple-bounce-roll",
      outcome: "missed",
      words: "Not named after a look.",
    },
    {
      by: "ottilie",
      item: "order:single-stroke-seven",
      outcome: "missed",
      words: "Named as the 2nd; it is the 3rd of these.",
    },
  ]);
});

test("families only, for beginners", () => {
  const own = after(set({ task: "families" }), began, { kind: "hidden" }, ...named("family/roll", "flam"));
  expect(own.stage).toMatchObject({ look: { named: ["family/roll"] } });
});

test("the hands of one rudiment", () => {
  const own = after(
    set({ task: "said" }),
    { kind: "asked", entry: "flam-tap", of: ["bram"] },
    { kind: "answered", way: "chosen", held: false, words: "R L R L was chosen." },
  );
  expect(wallChartRules.shown(own)).toEqual([
    { by: "bram", item: "sticking:flam-tap", outcome: "missed", words: "R L R L was chosen." },
  ]);
});

describe("several at once", () => {
  const both: WallChartEvent = { kind: "look-began", of: ["ottilie", "bram"] };
  const takenIn = after(
    both,
    { kind: "hidden" },
    ...named("flam"),
    { kind: "turned-to", by: "bram" },
    ...named("flam", "drag"),
    { kind: "named-all" },
  );

  test("each has a list of their own; the one who was turned to is done first", () => {
    expect(takenIn.past).toMatchObject([{ look: { by: "bram", named: ["flam", "drag"] } }]);
    expect(takenIn.stage).toMatchObject({ at: "naming", look: { by: "ottilie", named: ["flam"] } });
    const over = wallChartAfter(takenIn, { kind: "named-all" });
    expect(over.stage).toEqual({ at: "told", of: ["ottilie", "bram"] });
    const held = wallChartRules.shown(over).filter(({ outcome }) => outcome === "held");
    expect(held.map(({ by, item }) => [by, item])).toEqual([
      ["bram", "rudiment:flam"],
      ["bram", "rudiment:drag"],
      ["ottilie", "rudiment:flam"],
    ]);
  });

  test("the look is short only where each of them has looked before", () => {
    const over = wallChartAfter(takenIn, { kind: "named-all" });
    expect(wallChartAfter(over, both).stage).toMatchObject({ look: { forSeconds: 30 } });
    expect(wallChartAfter(over, { kind: "look-began", of: ["bram", "noor"] }).stage).toMatchObject({
      look: { forSeconds: 120 },
    });
  });

  test("of the hands all are asked the same, and each answers alone", () => {
    const own = after(
      set({ task: "said" }),
      { kind: "asked", entry: "flam-tap", of: ["ottilie", "bram"] },
      { kind: "turned-to", by: "bram" },
      { kind: "answered", way: "chosen", held: true, words: "" },
    );
    expect(own.stage).toMatchObject({ at: "asked", by: "ottilie", others: [] });
    const over = wallChartAfter(own, { kind: "answered", way: "said", held: false, words: "Otherwise." });
    expect(over.stage.at).toBe("answered");
    expect(wallChartRules.shown(over)).toMatchObject([
      { by: "bram", outcome: "held" },
      { by: "ottilie", outcome: "missed" },
    ]);
  });
});

describe("a sticking that is said", () => {
  test.each([
    ["flam-tap", "lR R rL L", true],
    ["flam-tap", "RRLL", true],
    ["flam-tap", "r r l l", true],
    ["flam-tap", "lRRrLL", true],
    ["flam-tap", "RLRL", false],
    ["flam-tap", "", false],
    ["five-stroke-roll", "rrllr", true],
    ["five-stroke-roll", "RRLLR LLRRL", true],
    ["five-stroke-roll", "RRLL", false],
  ])("%s: %s is right: %s", (id, given, isRight) => {
    const rudiment = rudimentById(id);
    expect(rudiment && isStickingOf(rudiment, given)).toBe(isRight);
  });

  test("four are offered, one of them right, the others not", () => {
    for (const rudiment of RUDIMENTS) {
      const offered = offeredStickings(rudiment, seededChance(rudiment.number));
      expect(new Set(offered).size).toBe(4);
      expect(offered.filter((sticking) => sticking === stickingOf(rudiment))).toHaveLength(1);
    }
  });
});
