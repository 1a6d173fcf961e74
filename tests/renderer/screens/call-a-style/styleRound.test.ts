import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Hearing } from "../../../../engine/listening/index.ts";
import type { Judgement, OwnTakes, TakeToJudge } from "../../../../engine/rounds/index.ts";
import { FOUR_FOUR, plainClick } from "../../../../engine/score/index.ts";
import { SoundDesk } from "../../../../renderer/audio/soundDesk.ts";
import { StyleRound } from "../../../../renderer/screens/call-a-style/styleRound.ts";
import { KitLog, type LogEntry } from "../../../../renderer/session/kitLog.ts";

const hearing: Hearing = { kind: "nothing", reason: "too-few-hits" };

function heardAs(id: string): Hearing {
  return {
    kind: "heard",
    pulse: {
      tempoBpm: 100,
      metre: { numerator: 4, denominator: 4 },
      beats: [],
      downbeats: [],
      confidence: 1,
    },
    doubt: { between: 0, one: 0 },
    span: { from: 0, to: 20, bars: 8 },
    swing: null,
    candidates: [{ id, name: id, confidence: 0.8 }],
    noneConfidence: 0.2,
    known: true,
    fills: [],
    fillCandidates: [],
  };
}

/** A judge that remembers what it was given and answers at once. */
class RecordingJudge {
  begun = 0;
  added = 0;
  asked = 0;
  judged: TakeToJudge | undefined;
  own: readonly OwnTakes[] = [];
  hears: Hearing = hearing;
  fails = false;
  /** What an answer waits for. */
  readonly waits: Promise<void>[] = [];

  begin(_styleId: string | null, own: readonly OwnTakes[]): void {
    this.begun += 1;
    this.own = own;
  }
  add(hits: readonly unknown[]): void {
    this.added += hits.length;
  }
  async hear(): Promise<Hearing> {
    this.asked += 1;
    return hearing;
  }
  async judge(take: TakeToJudge): Promise<Judgement> {
    if (this.fails) throw new Error("the worker is gone");
    this.judged = take;
    await this.waits.shift();
    return { hearing: this.hears, compared: null, hitCount: take.hits.length, click: take.click };
  }
}

function strike(time: number, live = true): LogEntry {
  return {
    source: "kit",
    live,
    event: { kind: "hit", hit: { time, voice: "snare", zone: "head", velocity: 0.6, pad: 38 } },
  };
}

class SilentDesk extends SoundDesk {
  clicks = 0;
  override async startClick(): Promise<void> {
    this.clicks += 1;
  }
  override stopClick(): void {
    this.clicks -= 1;
  }
}

function newRound(): {
  readonly round: StyleRound;
  readonly log: KitLog;
  readonly judge: RecordingJudge;
  readonly desk: SilentDesk;
} {
  const log = new KitLog();
  const judge = new RecordingJudge();
  const desk = new SilentDesk();
  return { round: new StyleRound(log, judge, desk), log, judge, desk };
}

beforeEach(() => vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "performance"] }));
afterEach(() => vi.useRealTimers());

test("a take is what was struck between start and stop", async () => {
  const { round, log, judge } = newRound();
  log.append([strike(1)]);
  round.start();
  log.append([strike(2), strike(3)]);
  await round.stop();
  log.append([strike(4)]);
  expect(judge.judged?.hits.map(({ time }) => time)).toEqual([2, 3]);
  expect(round.get().at).toMatchObject({ stage: "after", judgement: { hitCount: 2 } });
});

test("the judge gets every strike once, and is asked at most twice a second, only when there is more", async () => {
  const { round, log, judge } = newRound();
  round.start();
  log.append([strike(1), strike(2)]);
  await vi.advanceTimersByTimeAsync(500);
  expect(judge).toMatchObject({ begun: 1, added: 2, asked: 1 });
  await vi.advanceTimersByTimeAsync(5000);
  expect(judge.asked).toBe(1);
  log.append([strike(3)]);
  await vi.advanceTimersByTimeAsync(500);
  expect(judge).toMatchObject({ added: 3, asked: 2 });
  expect(round.get().at).toMatchObject({ stage: "playing", hearing });
});

test("the strikes stay the same array while none was added", () => {
  const { round, log } = newRound();
  round.start();
  log.append([strike(1)]);
  const before = round.hits();
  log.append([{ source: "kit", live: true, event: { kind: "hi-hat", time: 1.5, openness: 1 } }]);
  expect(round.hits()).toBe(before);
});

test("what is struck during the count-in is not of the take", async () => {
  const { round, log, judge, desk } = newRound();
  round.dispatch({ kind: "set", to: { click: true, countIn: true, tempoBpm: 120 } });
  round.start();
  expect(desk.clicks).toBe(1);
  const { at } = round.get();
  const from = at.stage === "playing" ? (at.click?.from ?? 0) : 0;
  log.append([strike(from - 1), strike(from - 0.02), strike(from + 0.5)]);
  await round.stop();
  expect(judge.judged?.hits.map(({ time }) => time)).toEqual([from - 0.02, from + 0.5]);
  expect(judge.judged?.click).toEqual({ way: plainClick(FOUR_FOUR), tempoBpm: 120, countInBars: 1, from });
  expect(round.get().takes[0]?.judgement.click).toEqual(judge.judged?.click);
  expect(desk.clicks).toBe(0);
});

test("a file that is read at once is not measured against the click", async () => {
  const { round, log, judge } = newRound();
  round.dispatch({ kind: "set", to: { click: true } });
  round.start();
  log.append([strike(-600, false), strike(-1, false)]);
  await round.stop();
  expect(judge.judged).toMatchObject({ click: null, hits: [{ time: -600 }, { time: -1 }] });
});

test("when the judge fails, the reason is shown and the next take can begin", async () => {
  const { round, judge } = newRound();
  judge.fails = true;
  round.start();
  await round.stop();
  expect(round.get().at).toEqual({ stage: "failed", reason: "the worker is gone" });
  round.start();
  expect(round.get().at.stage).toBe("playing");
});

test("again while a take is thought over begins the next as soon as it is, and the one before is kept", async () => {
  const { round, log } = newRound();
  round.again();
  log.append([strike(1)]);
  const thoughtOver = round.stop();
  round.again();
  expect(round.get().at).toMatchObject({ stage: "judging", isAgainAsked: true });
  await thoughtOver;
  expect(round.get().at.stage).toBe("playing");
  expect(round.get().takes).toHaveLength(1);
  expect(round.hits()).toEqual([]);
});

test("where it could not be thought over, the reason is shown though again was asked for", async () => {
  const { round, judge } = newRound();
  judge.fails = true;
  round.start();
  const thoughtOver = round.stop();
  round.again();
  await thoughtOver;
  expect(round.get().at).toEqual({ stage: "failed", reason: "the worker is gone" });
});

test("again is not asked of another player who sits down meanwhile", async () => {
  const { round } = newRound();
  round.start();
  const thoughtOver = round.stop();
  round.again();
  round.changePlayer();
  await thoughtOver;
  expect(round.get().at.stage).toBe("before");
});

test("what comes of a take is dropped where another player has sat down and ended one of their own", async () => {
  const { round, log, judge } = newRound();
  const ready: (() => void)[] = [];
  for (let take = 0; take < 2; take += 1) judge.waits.push(new Promise((done) => ready.push(done)));
  round.start();
  log.append([strike(1)]);
  const first = round.stop();
  round.changePlayer();
  round.start();
  log.append([strike(2), strike(3)]);
  const second = round.stop();
  ready[0]?.();
  await first;
  expect(round.get().at).toMatchObject({ stage: "judging", hits: [{ time: 2 }, { time: 3 }] });
  ready[1]?.();
  await second;
  expect(round.get().at).toMatchObject({ stage: "after", judgement: { hitCount: 2 } });
});

test("the next take begins with those before it that were heard as called", async () => {
  const { round, log, judge } = newRound();
  round.dispatch({ kind: "called", styleId: "samba" });
  const play = async (time: number): Promise<void> => {
    round.start();
    log.append([strike(time)]);
    await round.stop();
  };
  await play(1);
  expect(judge.own).toEqual([]);
  judge.hears = heardAs("samba");
  await play(2);
  await play(3);
  round.start();
  expect(judge.own.map(({ styleId }) => styleId)).toEqual(["samba"]);
  expect(judge.own[0]?.takes.map(([hit]) => hit?.time)).toEqual([2, 3]);
});

test("the student at the kit sets the level, and is known by takes of earlier lessons too", async () => {
  const log = new KitLog();
  const judge = new RecordingJudge();
  const own: readonly OwnTakes[] = [{ styleId: "samba", takes: [[]] }];
  const round = new StyleRound(
    log,
    judge,
    new SilentDesk(),
    (metre) => plainClick(metre ?? FOUR_FOUR),
    undefined,
    () => ({ studentId: "bram", level: "first-year", own }),
  );
  round.start();
  expect(judge.own).toEqual(own);
  log.append([strike(1)]);
  await round.stop();
  expect(judge.judged?.level).toBe("first-year");
});

test("when another player sits down in the middle of a take, it is dropped and never judged", async () => {
  const { round, log, judge, desk } = newRound();
  round.dispatch({ kind: "set", to: { click: true } });
  round.start();
  log.append([strike(1)]);
  round.changePlayer();
  expect(round.get().at.stage).toBe("before");
  expect(desk.clicks).toBe(0);
  await round.stop();
  expect(judge.judged).toBeUndefined();
});
