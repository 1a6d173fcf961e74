import { describe, expect, test } from "vitest";
import { RUDIMENTS } from "../../../../engine/catalogue/index.ts";
import {
  chartList,
  type Dealt,
  dealtTasks,
  nextDealtTask,
  type Play,
  playOf,
  type RoundStep,
  type WallChart,
  type WallChartEvent,
} from "../../../../engine/rounds/index.ts";

const dealt: Dealt = {
  items: ["sticking:flam-tap", "rudiment:flam", "rudiment:drag", "order:flam", "rudiment:family/roll"],
  nothingElse: false,
};

function playedAs(...events: readonly WallChartEvent[]): Play<WallChart> {
  const steps: RoundStep[] = [
    { round: "wall-chart", event: { kind: "began", players: ["bram"], answering: "in-turn", dealt } },
    ...events.map((event): RoundStep => ({ round: "wall-chart", event })),
  ];
  return playOf("wall-chart", steps);
}

/** Goes through the task that comes next, whatever it is. */
function through(play: Play<WallChart>): readonly WallChartEvent[] {
  const settings = nextDealtTask(play);
  if (!settings) return [];
  const set: WallChartEvent = { kind: "set", settings };
  if (settings.task !== "said")
    return [set, { kind: "look-began", of: ["bram"] }, { kind: "hidden" }, { kind: "named-all" }];
  return [
    set,
    ...chartList(settings).flatMap((entry): WallChartEvent[] => [
      { kind: "asked", entry, of: ["bram"] },
      { kind: "answered", way: "said", held: true, words: "" },
    ]),
  ];
}

describe("the tasks of a set", () => {
  test("names, order among neighbours, families, hands: each with what was dealt for it alone", () => {
    const tasks = dealtTasks(dealt);
    expect(tasks.map(({ task }) => task)).toEqual(["names", "order", "families", "said"]);
    const [names, order, families, hands] = tasks.map((each) => chartList(each));
    expect(names).toEqual(["flam", "drag"]);
    const place = RUDIMENTS.findIndex(({ id }) => id === "flam");
    expect(order).toEqual(RUDIMENTS.slice(place - 1, place + 2).map(({ id }) => id));
    expect(families).toContain("family/roll");
    expect(hands).toEqual(["flam-tap"]);
  });

  test("there is less to look at, and less time for it, but never less than ten seconds", () => {
    const [names] = dealtTasks({ items: ["rudiment:flam"], nothingElse: false });
    expect(names).toMatchObject({ longSeconds: 10, shortSeconds: 10 });
    const eight = RUDIMENTS.slice(0, 8).map(({ id }) => `rudiment:${id}` as const);
    expect(dealtTasks({ items: eight, nothingElse: false })[0]).toMatchObject({ longSeconds: 24 });
  });

  test("on a bad day the order is asked without neighbours", () => {
    const [order] = dealtTasks({ items: ["order:flam"], nothingElse: true });
    expect(order && chartList(order)).toEqual(["flam"]);
  });

  test("what is not on the chart is passed over", () => {
    expect(dealtTasks({ items: ["rudiment:no-such", "sticking:no-such"], nothingElse: false })).toEqual([]);
  });
});

test("one task comes after the other, and then none", () => {
  const events: WallChartEvent[] = [];
  const tasks: string[] = [];
  for (let task = nextDealtTask(playedAs()); task; task = nextDealtTask(playedAs(...events))) {
    tasks.push(task.task);
    events.push(...through(playedAs(...events)));
  }
  expect(tasks).toEqual(["names", "order", "families", "said"]);
  expect(playedAs(...events).own.past).toHaveLength(4);
});

test("of two players both look before the next task comes", () => {
  const two = playedAs(...through(playedAs()));
  expect(nextDealtTask({ ...two, players: ["bram", "noor"] })?.task).toBe("names");
  expect(nextDealtTask(two)?.task).toBe("order");
});
