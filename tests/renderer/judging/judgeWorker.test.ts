import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { grooveById, NOTHING_OF_SHELF } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { judgeTake, type OwnTakes, stockOfPlayer } from "../../../engine/rounds/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import type { JudgeAnswer, JudgeRequest } from "../../../renderer/judging/judgeMessages.ts";
import { withHabit } from "../../engine/listening/habit.ts";
import { steadily } from "../../engine/listening/played.ts";

/** The worker's own global, as far as it uses it. */
const worker: {
  onmessage?: (event: { readonly data: JudgeRequest }) => void;
  postMessage: (answer: JudgeAnswer) => void;
  answers: JudgeAnswer[];
} = {
  answers: [],
  postMessage(answer) {
    this.answers.push(answer);
  },
};

beforeAll(async () => {
  vi.stubGlobal("self", worker);
  await import("../../../renderer/judging/judge.worker.ts");
});
afterAll(() => vi.unstubAllGlobals());

/** Posts requests as a page does, by copy, and gives the last answer. */
function asked(...requests: readonly JudgeRequest[]): JudgeAnswer | undefined {
  for (const request of requests) worker.onmessage?.({ data: structuredClone(request) });
  return worker.answers.at(-1);
}

function ofPlayer(seed: number): readonly Hit[] {
  const groove = grooveById("rock-eighths");
  if (!groove) throw new Error("The catalogue has no rock-eighths.");
  return steadily(withHabit(groove, seededChance(7)), { chance: seededChance(seed) });
}

const own: readonly OwnTakes[] = [{ styleId: "rock-eighths", takes: [ofPlayer(1), ofPlayer(2)] }];
const take = { hits: ofPlayer(9), styleId: null, click: null };

test("a take is judged, and heard while it is played, by the takes it was begun with", () => {
  const judged = asked({ kind: "begin", styleId: null, own }, { kind: "judge", id: 1, take });
  const byOwn = judgeTake(take, stockOfPlayer(own));
  expect(byOwn).not.toEqual(judgeTake(take));
  expect(judged).toEqual({ kind: "judged", id: 1, judgement: byOwn });

  const live = (takes: readonly OwnTakes[], id: number) =>
    asked(
      { kind: "begin", styleId: null, own: takes },
      { kind: "add", hits: take.hits },
      { kind: "hear", id },
    );
  const heard = live(own, 2);
  const heardAsWritten = live([], 2);
  expect(heard).toMatchObject({ kind: "heard", id: 2, hearing: { kind: "heard" } });
  expect(heard).not.toEqual(heardAsWritten);
});

test("what the last take was begun with is forgotten with the next", () => {
  const judged = asked(
    { kind: "begin", styleId: null, own },
    { kind: "begin", styleId: null, own: [] },
    { kind: "judge", id: 3, take },
  );
  expect(judged).toEqual({ kind: "judged", id: 3, judgement: judgeTake(take) });
});

test("the grooves of the Shelf are listened for from the next take on, until others are", () => {
  const mill = parseGrid(
    "groove: own/mill\nname: Mill\nmetre: 4/4\ntempo: 80-110\nfloor-tom | x.x. xx.x .x.x x.xx |\nkick | .x.. ..x. x.x. .x.. |",
  );
  const played = { hits: steadily(mill), styleId: null, click: null };
  const heard = (id: number, ...before: readonly JudgeRequest[]) =>
    asked(...before, { kind: "begin", styleId: null, own: [] }, { kind: "judge", id, take: played });
  const named = (answer: JudgeAnswer | undefined) =>
    answer?.kind === "judged" && answer.judgement.hearing.kind === "heard"
      ? answer.judgement.hearing.candidates[0]?.id
      : undefined;
  expect(named(heard(4, { kind: "shelf", shelf: { ...NOTHING_OF_SHELF, grooves: [mill] } }))).toBe(
    "own/mill",
  );
  expect(named(heard(5))).toBe("own/mill");
  expect(heard(6, { kind: "shelf", shelf: NOTHING_OF_SHELF })).toEqual({
    kind: "judged",
    id: 6,
    judgement: judgeTake(played),
  });
});
