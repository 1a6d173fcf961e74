import { describe, expect, test } from "vitest";
import { grooveById } from "../../../../engine/catalogue/index.ts";
import { judgeTake, type TakeToJudge } from "../../../../engine/rounds/index.ts";
import { printGrid } from "../../../../engine/score/index.ts";
import type { SessionEvent } from "../../../../engine/session/index.ts";
import { Moments } from "../../../../renderer/screens/replay/moments.ts";
import { differsIn } from "../../../../renderer/screens/replay/nearPicture.ts";
import { strikeWords } from "../../../../renderer/screens/replay/replayWords.ts";
import { type TakeAgain, TakesAgain } from "../../../../renderer/screens/replay/takeAgain.ts";
import {
  barAt,
  beatAt,
  marksUpTo,
  type PlacedTake,
  placedTake,
  reportUpTo,
  ringStrokes,
} from "../../../../renderer/screens/replay/takePlace.ts";
import { takesOf } from "../../../../renderer/screens/replay/takesOfLesson.ts";
import { LESSON } from "./playedLesson.ts";

/** The judge of the worker, in this thread. */
function judge() {
  const asked: TakeToJudge[] = [];
  return {
    asked,
    begin: () => {},
    judge: (take: TakeToJudge) => {
      asked.push(take);
      return Promise.resolve(judgeTake(take));
    },
  };
}

async function again(index: number, events: readonly SessionEvent[] = LESSON): Promise<TakeAgain> {
  const moments = new Moments(events);
  const take = takesOf(moments.whole)[index];
  if (!take) throw new Error(`The lesson has no take ${index}.`);
  return new TakesAgain(judge(), () => "steady").of(take, moments);
}

function placed(take: TakeAgain): PlacedTake {
  const found = placedTake(take);
  if (!found) throw new Error("The take was compared with nothing.");
  return found;
}

describe("a take of the log", () => {
  test.each([0, 1, 2])("judged again, is told as it was told then: take %i", async (index) => {
    const { judgement, take, hits } = await again(index);
    const summary = take.judgement?.summary;
    const report = judgement.compared?.report;
    expect(hits.length).toBe(take.hitCount);
    expect(report?.spreadMs).toBeCloseTo(summary?.spreadMs ?? Number.NaN, 9);
    expect(report?.perBeat.map(({ leanMs }) => leanMs)).toEqual(summary?.beats.map(({ leanMs }) => leanMs));
    expect(report?.voices.map(({ leftOut }) => leftOut)).toEqual(
      summary?.voices.map(({ leftOut }) => leftOut),
    );
  });

  test.each([0, 1, 2])("has every strike's judgement, on the lesson's clock: take %i", async (index) => {
    const take = await again(index);
    const { hits, judgedOf, judgement } = take;
    const found = hits.map(judgedOf);
    expect(found.every((judged) => judged !== undefined)).toBe(true);
    expect(new Set(found).size).toBe(judgement.compared?.report.hits.length);
    for (const hit of hits) expect(strikeWords(hit, take)).not.toContain("nothing written to compare");
  });

  test("what was left out lies where it is written, between the take's ends", async () => {
    const { leftOut, take, judgement } = await again(1);
    expect(leftOut.length).toBe(judgement.compared?.report.missed.filter(({ skipped }) => !skipped).length);
    expect(leftOut.length).toBeGreaterThan(3);
    const click = take.click;
    if (!click) throw new Error("It was played to a click.");
    for (const { time } of leftOut) {
      const eighths = ((time - click.from) * click.tempoBpm * 2) / 60;
      expect(Math.abs(eighths - Math.round(eighths))).toBeLessThan(0.02);
      expect(time).toBeLessThan(take.to ?? 0);
    }
  });

  test("strikes that differ are as many as the report says", async () => {
    const take = await again(1);
    const report = take.judgement.compared?.report;
    const outside = report?.hits.filter(
      (judged) =>
        (judged.state === "extra" && !judged.surplus) ||
        (judged.state === "matched" &&
          (Math.abs(judged.offsetMs - (report.leanMs ?? 0)) > report.band.halfBandMs ||
            judged.targetVoice !== judged.hit.voice)),
    );
    expect(take.hits.filter(differsIn([take])).length).toBe(outside?.length);
  });

  test("is compared with what it was compared with then, whatever the catalogue says now", async () => {
    const other = grooveById("four-on-the-floor") ?? grooveById("shuffle");
    if (!other) throw new Error("The catalogue has neither groove.");
    const events = LESSON.map((event) =>
      event.kind === "judgement" ? { ...event, comparedGrid: printGrid(other) } : event,
    );
    const { judgement } = await again(0, events);
    expect(judgement.compared && printGrid(judgement.compared.groove)).toBe(printGrid(other));
  });

  test.each([
    ["of then, whatever the student's is now", "working", "working"],
    ["the student has, where none was kept", null, "first-year"],
  ] as const)("takes its band from the level %s", async (_, kept, told) => {
    const events = LESSON.map((event) =>
      event.kind === "judgement" ? { ...event, summary: { ...event.summary, level: kept } } : event,
    );
    const moments = new Moments(events);
    const [take] = takesOf(moments.whole);
    if (!take) throw new Error("The lesson has no take.");
    const { judgement } = await new TakesAgain(judge(), () => "first-year").of(take, moments);
    expect(judgement.compared?.report.band.level).toBe(told);
  });

  test("is judged once, and again only where that failed", async () => {
    const moments = new Moments(LESSON);
    const [take] = takesOf(moments.whole);
    if (!take) throw new Error("The lesson has no take.");
    const real = judge();
    let fails = true;
    const takes = new TakesAgain(
      {
        begin: () => {},
        judge: (asked) => (fails ? Promise.reject(new Error("stopped")) : real.judge(asked)),
      },
      () => "steady",
    );
    await expect(takes.of(take, moments)).rejects.toThrow("stopped");
    fails = false;
    const [one, two] = await Promise.all([takes.of(take, moments), takes.of(take, moments)]);
    expect(one).toBe(two);
    expect(real.asked.length).toBe(1);
  });
});

describe("as far as the cursor has come", () => {
  test("bars and beats are those of the click", async () => {
    const place = placed(await again(0));
    const click = place.again.take.click;
    if (!click) throw new Error("It was played to a click.");
    expect(beatAt(place, click.from)).toBeCloseTo(0, 1);
    expect(beatAt(place, click.from + 60 / click.tempoBpm)).toBeCloseTo(1, 1);
    expect(barAt(place, click.from - 5)).toBe(0);
    expect(barAt(place, click.from + 4.5 * (60 / click.tempoBpm))).toBe(1);
    expect(barAt(place, click.from + 500)).toBe(place.report.perBar.length - 1);
  });

  test("the report of the last bar is the report; of an earlier one it is that of a take stopped there", async () => {
    const place = placed(await again(1));
    expect(reportUpTo(place, 7)).toBe(place.report);
    const early = reportUpTo(place, 2);
    expect(early.perBar.map(({ bar }) => bar)).toEqual([1, 2, 3]);
    const { click, take, hits } = { ...place.again, click: place.again.judgement.click };
    // A stroke up to a thirty-second of a bar before the line is of the next bar.
    const until = place.from + (3 - 1 / 32) * 4 * place.beatSeconds;
    const stopped = judgeTake({
      hits: hits.filter(({ time }) => time < until),
      styleId: take.called?.id ?? null,
      click,
    });
    expect(early.perBeat).toEqual(stopped.compared?.report.perBeat);
  });

  test("the ring shows no stroke that is still to come, and lets old ones go", async () => {
    const place = placed(await again(0));
    const strokes = ringStrokes(place);
    expect(strokes.marks.length).toBe(place.again.hits.length);
    expect(marksUpTo(place, strokes, 0)).toEqual([]);
    expect(marksUpTo(place, strokes, 1).length).toBe(1);
    const whole = strokes.times.length;
    const four = marksUpTo(place, strokes, whole / 2).length;
    const eight = marksUpTo(place, strokes, whole).length;
    expect(Math.abs(eight - four)).toBeLessThanOrEqual(2);
    expect(four).toBeGreaterThan(40);
  });
});
