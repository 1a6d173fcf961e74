import { expect, test } from "vitest";
import { grooveById } from "../../../../engine/catalogue/index.ts";
import type { Hearing } from "../../../../engine/listening/index.ts";
import type { Judgement } from "../../../../engine/rounds/index.ts";
import {
  MOST_TAKES,
  NEW_ROUND,
  type Round,
  type RoundEvent,
  roundAfter,
  type Sitting,
} from "../../../../engine/rounds/index.ts";
import { usualTempo } from "../../../../engine/score/index.ts";

const hearing: Hearing = { kind: "nothing", reason: "too-few-hits" };
const judgement: Judgement = { hearing, compared: null, hitCount: 1, click: null };
const hits = [{ time: 1, voice: "snare", zone: "whole", velocity: 0.5, pad: 38 }] as const;

const started: RoundEvent = { kind: "started", click: null };
const stopped: RoundEvent = { kind: "stopped", hits };
const judged: RoundEvent = { kind: "judged", judgement };

function after(...events: readonly RoundEvent[]): Sitting {
  return events.reduce(roundAfter, NEW_ROUND);
}

test("a round goes from the call over the take to the report, and keeps the take", () => {
  expect(after({ kind: "called", styleId: "shuffle" }).asked.styleId).toBe("shuffle");
  expect(after(started).at).toMatchObject({ stage: "playing", hearing: null });
  expect(after(started, { kind: "heard", hearing }).at).toMatchObject({ hearing });
  expect(after(started, stopped).at).toEqual({ stage: "judging", hits, isAgainAsked: false });
  expect(after(started, stopped, judged).at).toEqual({ stage: "after", hits, judgement });
});

test("again is kept while a take is thought over, and asked for at no other time", () => {
  const again: RoundEvent = { kind: "again-asked" };
  expect(after(started, stopped, again).at).toEqual({ stage: "judging", hits, isAgainAsked: true });
  for (const events of [[], [started], [started, stopped, judged]])
    expect(after(...events, again)).toEqual(after(...events));
  expect(after(started, stopped, again, judged, started, stopped).at).toMatchObject({ isAgainAsked: false });
});

test("again starts from the report; another style goes back to the call, which is kept", () => {
  const called: RoundEvent = { kind: "called", styleId: "samba" };
  expect(after(called, started, stopped, judged, started).at.stage).toBe("playing");
  const another = after(called, started, stopped, judged, { kind: "another-style" });
  expect(another).toMatchObject({ asked: { styleId: "samba" }, at: { stage: "before" } });
});

test.each<[string, readonly RoundEvent[], Round["at"]["stage"]]>([
  ["a hearing before the start", [{ kind: "heard", hearing }], "before"],
  ["a stop before the start", [stopped], "before"],
  ["a second start", [started, { kind: "started", click: { tempoBpm: 90, from: 1 } }], "playing"],
  ["a start while it is thought over", [started, stopped, started], "judging"],
  ["a judgement while playing", [started, judged], "playing"],
  ["a hearing after the stop", [started, stopped, { kind: "heard", hearing }], "judging"],
  ["leaving while playing", [started, { kind: "another-style" }], "playing"],
])("%s changes nothing", (_, events, stage) => {
  const round = after(...events);
  expect(round.at.stage).toBe(stage);
  if (round.at.stage === "playing") expect(round.at.click).toBeNull();
});

test("a called style brings its usual tempo for the click; a free choice keeps the last", () => {
  const groove = grooveById("samba");
  const round = after({ kind: "called", styleId: "samba" }, { kind: "called", styleId: null });
  expect(round.asked).toMatchObject({ styleId: null, tempoBpm: groove && usualTempo(groove) });
});

test("what is called cannot change during the take", () => {
  const round = after(started, { kind: "called", styleId: "samba" }, { kind: "set", to: { click: true } });
  expect(round.asked).toEqual(NEW_ROUND.asked);
});

test("when listening fails the take goes on; when judging fails the reason is kept", () => {
  expect(after(started, { kind: "listening-stopped", reason: "lost" }).at).toMatchObject({
    stage: "playing",
    trouble: "lost",
  });
  expect(after(started, stopped, { kind: "failed", reason: "lost" }).at).toEqual({
    stage: "failed",
    reason: "lost",
  });
});

test("takes of a sitting are kept in order, each with what was called; an empty one is not", () => {
  const empty: RoundEvent = { kind: "judged", judgement: { ...judgement, hitCount: 0 } };
  const another: RoundEvent = { kind: "another-style" };
  const round = after(
    ...[{ kind: "called", styleId: "samba" } as const, started, stopped, judged],
    ...[started, stopped, empty],
    ...[another, { kind: "called", styleId: null } as const, started, stopped, judged],
  );
  expect(round.takes.map(({ number, styleId }) => ({ number, styleId }))).toEqual([
    { number: 1, styleId: "samba" },
    { number: 2, styleId: null },
  ]);
  expect(round.takes[0]).toMatchObject({ hits, judgement });
});

test("of many takes the latest are kept, under their own numbers", () => {
  const many = Array.from({ length: MOST_TAKES + 3 }, () => [started, stopped, judged]).flat();
  const { takes } = after(...many);
  expect(takes).toHaveLength(MOST_TAKES);
  expect(takes[0]?.number).toBe(4);
  expect(takes.at(-1)?.number).toBe(MOST_TAKES + 3);
});

test("another take may be laid beside the report, until the next take", () => {
  const chosen: RoundEvent = { kind: "laid-beside", beside: 1 };
  expect(after(started, stopped, judged, chosen).beside).toBe(1);
  expect(after(started, chosen).beside).toBe("before");
  expect(after(started, stopped, judged, chosen, started, stopped, judged).beside).toBe("before");
});

test("when another player sits down, the takes of the one before are gone and nothing is playing", () => {
  const round = after({ kind: "called", styleId: "samba" }, started, stopped, judged, started, {
    kind: "another-player",
  });
  expect(round).toMatchObject({ asked: { styleId: "samba" }, at: { stage: "before" }, takes: [] });
  expect(after(started, stopped, { kind: "another-player" }, judged).at.stage).toBe("before");
});
