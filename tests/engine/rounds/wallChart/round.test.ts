import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { RUDIMENTS, rudimentById, stickingOf } from "../../../../engine/catalogue/index.ts";
import {
  CHART_TASKS,
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

const ENTRIES = [
  ...RUDIMENTS.slice(0, 12).map(({ id }) => id),
  "family/roll",
  "family/flam",
  "no-such-thing",
];
const player = fc.constantFrom(null, "ottilie", "bram");
const entry = fc.constantFrom(...ENTRIES);

const anyEvent: fc.Arbitrary<WallChartEvent> = fc.oneof(
  fc.record({
    kind: fc.constant("set" as const),
    settings: fc.record({
      task: fc.constantFrom(...CHART_TASKS),
      from: fc.integer({ min: 1, max: 12 }),
      to: fc.integer({ min: 1, max: 40 }),
      longSeconds: fc.constantFrom(10, 120),
      shortSeconds: fc.constantFrom(5, 30),
    }),
  }),
  { weight: 3, arbitrary: fc.record({ kind: fc.constant("look-began" as const), by: player }) },
  {
    weight: 3,
    arbitrary: fc.record({ kind: fc.constant("looked" as const), seconds: fc.integer({ min: 1, max: 60 }) }),
  },
  { weight: 2, arbitrary: fc.constant({ kind: "hidden" as const }) },
  {
    weight: 5,
    arbitrary: fc.record({
      kind: fc.constant("named" as const),
      entry,
      way: fc.constantFrom("typed" as const, "ticked" as const),
    }),
  },
  fc.record({ kind: fc.constant("taken-back" as const), entry }),
  fc.record({
    kind: fc.constant("strayed" as const),
    given: fc.string({ maxLength: 10 }),
    as: fc.constantFrom("elsewhere" as const, "none" as const, "unclear" as const),
  }),
  { weight: 2, arbitrary: fc.constant({ kind: "named-all" as const }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("asked" as const), entry, by: player }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant("answered" as const),
      way: fc.constantFrom("said" as const, "chosen" as const, "typed" as const, "played" as const),
      held: fc.boolean(),
      words: fc.constant("The third stroke was by the other hand."),
    }),
  },
  fc.constant({ kind: "let-be" as const }),
  fc.constant({ kind: "turned-round" as const }),
);

/** The round as plainly as it can be told: where it is, how long was looked, what is named now. */
interface Model {
  at: "between" | "looking" | "naming" | "asked";
  left: number;
  named: Set<string>;
  finished: number;
  looked: Set<string>;
  turned: boolean;
}

function modelAfter(model: Model, { settings }: WallChart, event: WallChartEvent): void {
  const whose = (by: string | null) =>
    JSON.stringify([by, settings.task, settings.from, settings.to, model.turned]);
  switch (event.kind) {
    case "look-began":
      if (model.at !== "between" || !isOfLooks(settings.task)) return;
      model.at = "looking";
      model.left = model.looked.has(whose(event.by)) ? settings.shortSeconds : settings.longSeconds;
      model.named = new Set([whose(event.by)]);
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
      if (model.at === "naming" && chartList(settings).includes(event.entry)) model.named.add(event.entry);
      return;
    case "taken-back":
      if (model.at === "naming") model.named.delete(event.entry);
      return;
    case "named-all":
      if (model.at !== "naming") return;
      model.at = "between";
      model.finished += 1;
      model.looked.add([...model.named][0] ?? "");
      return;
    case "asked":
      if (model.at === "between" && !isOfLooks(settings.task) && rudimentById(event.entry))
        model.at = "asked";
      return;
    case "answered":
      if (model.at !== "asked") return;
      model.at = "between";
      model.finished += 1;
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
      const model: Model = {
        at: "between",
        left: 0,
        named: new Set(),
        finished: 0,
        looked: new Set(),
        turned: false,
      };
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
        if (own.stage.at === "naming") {
          expect(own.stage.look.named).toEqual([...model.named].slice(1));
        }
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
const began: WallChartEvent = { kind: "look-began", by: "ottilie" };
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
    { kind: "asked", entry: "flam-tap", by: "bram" },
    { kind: "answered", way: "chosen", held: false, words: "R L R L was chosen." },
  );
  expect(wallChartRules.shown(own)).toEqual([
    { by: "bram", item: "sticking:flam-tap", outcome: "missed", words: "R L R L was chosen." },
  ]);
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
