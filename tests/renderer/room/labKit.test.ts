import { describe, expect, test } from "vitest";
import { demonstrate, styleById } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import type { HeardSummary } from "../../../engine/rooms/index.ts";
import { judgeTake, type TakeToJudge } from "../../../engine/rounds/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { LabKit, summaryOf } from "../../../renderer/room/labKit.ts";

function played(styleId: string, bars: number) {
  const groove = styleById(styleId)?.variants[0];
  if (!groove) throw new Error(`There is no ${styleId}.`);
  const strokes = demonstrate(groove, {
    bars,
    tempoBpm: 100,
    chance: seededChance(5),
    leanMs: -12,
    spreadMs: 8,
    leftOut: 0,
    added: 0,
  });
  const hits: readonly Hit[] = strokes.map((stroke) => ({ ...stroke, zone: "whole", pad: 38 }));
  return { hits };
}

describe("a kit of a lab", () => {
  test("tells the desk what is played, its tempo, spread and voices; lean only against a click", async () => {
    const told: HeardSummary[] = [];
    const { hits } = played("rock-eighths", 8);
    const kit = new LabKit(
      async (take) => judgeTake(take),
      (summary) => told.push(summary),
      () => null,
    );
    for (const hit of hits) await kit.add([hit]);
    expect(told.length).toBeGreaterThan(2);
    const last = told.at(-1);
    expect(last).toMatchObject({ styleId: "rock-eighths", leanMs: null });
    expect(last?.tempoBpm).toBeCloseTo(100, 0);
    expect(last?.voiceAccuracy).toBeGreaterThan(0.9);
    expect(last?.spreadMs).toBeGreaterThan(3);
    const clicked = summaryOf(
      judgeTake({ hits, styleId: "rock-eighths", click: { tempoBpm: 100, from: 0 } }),
    );
    expect(clicked.leanMs).toBeCloseTo(-12, -1);
  });

  test("judges what the desk has called, from the call on, and begins anew after a silence", async () => {
    const asked: TakeToJudge[] = [];
    const { hits } = played("bossa-nova", 4);
    const kit = new LabKit(
      async (take) => {
        asked.push(take);
        return judgeTake(take);
      },
      () => {},
      () => null,
    );
    await kit.add(hits);
    kit.called("bossa-nova");
    const later = hits.map((hit) => ({ ...hit, time: hit.time + 60 }));
    await kit.add(later);
    expect(asked.map(({ styleId }) => styleId)).toEqual([null, "bossa-nova"]);
    expect(asked[1]?.hits.every(({ time }) => time >= 60)).toBe(true);
    const muchLater = later.map((hit) => ({ ...hit, time: hit.time + 60 }));
    await kit.add(muchLater);
    expect(asked[2]?.hits[0]?.time).toBeGreaterThanOrEqual(120);
  });

  test("tells nothing of a few strikes, and passes on that it could not listen", async () => {
    const told: HeardSummary[] = [];
    const kit = new LabKit(
      () => Promise.reject(new Error("Listening stopped.")),
      (summary) => told.push(summary),
      () => null,
    );
    const { hits } = played("rock-eighths", 8);
    await kit.add(hits.slice(0, 3));
    expect(told).toEqual([]);
    await expect(kit.add(hits.slice(3))).rejects.toThrow("Listening stopped.");
  });
});
