import { describe, expect, test } from "vitest";
import { demonstrate, STYLES, suddenChange } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { catalogueStock, type Heard, hear, Listener, type Stock } from "../../../engine/listening/index.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import type { Bpm, Seconds } from "../../../engine/units/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { stockOf } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);
/** What was played longer ago than this has no say. */
const LIVE_SPAN: Seconds = 18;

/** A groove played from a moment on. */
function from(start: Seconds, id: string, tempoBpm: Bpm, bars: number, seed = 1): readonly Hit[] {
  const chance = seededChance(seed);
  const hits = played(writtenGrooveOf(id), {
    tempoBpm,
    bars,
    spreadMs: 8,
    leftOut: 0.02,
    added: 0.02,
    chance,
  });
  return hits.map((hit) => ({ ...hit, time: hit.time + start }));
}

function listenerTo(hits: readonly Hit[], among: Stock = stock): Listener {
  const listener = new Listener(among);
  for (const hit of hits) listener.add(hit);
  return listener;
}

/** What is heard at each of these moments while the hits go by; nothing heard is left out. */
function heardAt(hits: readonly Hit[], moments: readonly Seconds[], among: Stock): readonly Heard[] {
  const listener = new Listener(among);
  let next = 0;
  return moments.flatMap((moment) => {
    for (let hit = hits[next]; hit && hit.time <= moment; hit = hits[next]) {
      listener.add(hit);
      next += 1;
    }
    const hearing = listener.hearing();
    return hearing.kind === "heard" ? [hearing] : [];
  });
}

const everyBeat = (tempoBpm: Bpm, to: Seconds): readonly Seconds[] =>
  Array.from({ length: Math.floor((to * tempoBpm) / 60) }, (_, beat) => ((beat + 1) * 60) / tempoBpm);

/** The groove that is told; `null` for none. */
const toldIn = ({ known, candidates }: Heard): string | null => (known ? (candidates[0]?.id ?? null) : null);

const chanceOf = (answer: string | null, { candidates, noneConfidence }: Heard): number =>
  answer === null ? noneConfidence : (candidates.find(({ id }) => id === answer)?.confidence ?? 0);

/** What this hearing alone would tell. */
function newestIn(heard: Heard): string | null {
  if (heard.noneConfidence >= 0.5) return null;
  const byChance = [...heard.candidates].sort((a, b) => b.confidence - a.confidence);
  return byChance[0]?.id ?? null;
}

describe("listening while playing", () => {
  test.each([
    { id: "bossa-nova", tempoBpm: 130 },
    { id: "rock-eighths", tempoBpm: 110 },
    { id: "one-drop", tempoBpm: 76 },
    { id: "waltz", tempoBpm: 120 },
  ])("two bars of $id are enough for a first, right guess, with its tempo", ({ id, tempoBpm }) => {
    const hearing = listenerTo(from(0, id, tempoBpm, 2)).hearing();
    if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
    expect(hearing.candidates[0]?.id).toBe(id);
    expect(Math.abs(hearing.pulse.tempoBpm / tempoBpm - 1)).toBeLessThan(0.04);
  });

  test("two bars are enough for nearly every style", () => {
    const asked = STYLES.filter((_, index) => index % 3 === 1);
    const wrong = asked.flatMap(({ id, variants: [groove] }) => {
      const hearing = groove && listenerTo(from(0, groove.id, usualTempo(groove), 2)).hearing();
      const first = hearing?.kind === "heard" ? hearing.candidates[0]?.id : "nothing";
      return first === id ? [] : [`${id} as ${first}`];
    });
    expect(wrong.length, wrong.join(", ")).toBeLessThanOrEqual(1);
  });

  test("hears nothing in nothing, and does not hold it against what comes", () => {
    const listener = new Listener(stock);
    expect(listener.hearing()).toEqual({ kind: "nothing", reason: "no-hits" });
    const hits = from(0, "bossa-nova", 130, 4);
    for (const hit of hits.slice(0, 3)) listener.add(hit);
    expect(listener.hearing()).toEqual({ kind: "nothing", reason: "too-few-hits" });
    for (const hit of hits.slice(3)) listener.add(hit);
    const hearing = listener.hearing();
    expect(hearing.kind === "heard" && hearing.candidates[0]?.id).toBe("bossa-nova");
  });

  test("the first hearing is what the last seconds are heard as", () => {
    const hits = from(0, "samba", 104, 8);
    const live = listenerTo(hits).hearing();
    const newest = hits.at(-1)?.time ?? 0;
    const whole = hear(
      hits.filter(({ time }) => time >= newest - LIVE_SPAN),
      stock,
    );
    if (live.kind !== "heard" || whole.kind !== "heard") throw new Error("Nothing was heard.");
    expect(live.candidates).toEqual(whole.candidates);
    expect(live.pulse.downbeats).toEqual(whole.pulse.downbeats);
    expect(live.span).toEqual(whole.span);
  });
});

describe("what was played before", () => {
  test("is forgotten when another groove has gone on for long enough", () => {
    const hits = [...from(0, "rock-eighths", 110, 16), ...from((16 * 4 * 60) / 110, "merengue", 140, 16)];
    const hearing = listenerTo(hits).hearing();
    expect(hearing.kind === "heard" && hearing.candidates[0]?.id).toBe("merengue");
  });

  test("has no say once it is longer ago than the last seconds", () => {
    const latest = from(200, "bossa-nova", 128, 12);
    const newest = latest.at(-1)?.time ?? 0;
    const counted = latest.filter(({ time }) => time >= newest - LIVE_SPAN);
    expect(counted.length).toBeLessThan(latest.length);
    const alone = listenerTo(counted).hearing();
    const others = [
      from(0, "samba", 104, 40),
      from(100, "half-time", 140, 20),
      [...from(0, "merengue", 150, 16), ...from(150, "shuffle", 110, 8)],
    ];
    for (const before of others) expect(listenerTo([...before, ...latest]).hearing()).toEqual(alone);
  });

  test("is let go: an hour of it makes no hearing another, nor later", () => {
    const hour = from(0, "rock-eighths", 120, 120).filter(({ time }) => time < 240);
    const listener = new Listener(stock);
    for (let quarter = 0; quarter < 15; quarter += 1) {
      for (const hit of hour) listener.add({ ...hit, time: hit.time + quarter * 240 });
    }
    const latest = from(4000, "bossa-nova", 128, 8);
    for (const hit of latest) listener.add(hit);
    expect(listener.hearing()).toEqual(listenerTo(latest).hearing());
  });
});

describe("the tempo now", () => {
  const among = stockOf("rock-eighths", "bossa-nova");
  /** The tempo told so many bars after the tempo has changed, over the tempo then played. */
  function toldAfterChange(ratio: number, bars: number, seed: number): number {
    const how = {
      ...{ tempoBpm: 110, bars: 8 + bars, leanMs: 0, spreadMs: 8, leftOut: 0, added: 0 },
      tempoCourse: suddenChange(32, ratio),
      chance: seededChance(seed),
    };
    const strokes = demonstrate(writtenGrooveOf("rock-eighths"), how);
    const hits = strokes.map((stroke): Hit => ({ ...stroke, zone: "whole", pad: 0 }));
    const hearing = listenerTo(hits, among).hearing();
    if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
    return hearing.pulse.tempoBpm / (110 * ratio);
  }
  const RATIOS = [0.8, 0.85, 0.9, 1.1, 1.15, 1.2, 1.25];

  test.each(RATIOS)("three bars after a sudden change to %f of it is the new one", (ratio) => {
    expect(Math.abs(toldAfterChange(ratio, 3, 3) - 1)).toBeLessThan(0.03);
  });

  test("is the new one in nineteen of twenty changes, however long ago", () => {
    const told = RATIOS.flatMap((ratio) =>
      [3, 4, 5].flatMap((bars) => [1, 2].map((seed) => toldAfterChange(ratio, bars, seed))),
    );
    const right = told.filter((ratio) => Math.abs(ratio - 1) < 0.04).length;
    expect(right / told.length).toBeGreaterThanOrEqual(0.95);
  });

  test("is that of the last two bars, not of the whole span", () => {
    const how = {
      ...{ tempoBpm: 100, bars: 8, leanMs: 0, spreadMs: 4, leftOut: 0, added: 0 },
      tempoCourse: (beat: number) => 1 + beat / 320,
      chance: seededChance(3),
    };
    const strokes = demonstrate(writtenGrooveOf("rock-eighths"), how);
    const hits = strokes.map((stroke): Hit => ({ ...stroke, zone: "whole", pad: 0 }));
    const hearing = listenerTo(hits, stockOf("rock-eighths")).hearing();
    if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
    // Eight beats from the end the tempo is 107.5, at the end 110; over all of it 105.
    expect(hearing.pulse.tempoBpm).toBeGreaterThan(107);
    expect(hearing.pulse.tempoBpm).toBeLessThan(110.5);
  });
});

describe("no flicker", () => {
  const among = stockOf("rock-eighths", "rock-sixteenths", "half-time", "merengue", "bossa-nova");
  const TURNS = [
    ["rock-eighths", "merengue", 120],
    ["rock-eighths", "rock-sixteenths", 88],
    ["bossa-nova", "half-time", 132],
  ] as const;
  const cases = TURNS.map(([first, then, tempoBpm]) => {
    const turn = (8 * 4 * 60) / tempoBpm;
    const hits = [...from(0, first, tempoBpm, 8, 5), ...from(turn, then, tempoBpm, 12, 6)];
    return { first, then, heard: heardAt(hits, everyBeat(tempoBpm, (20 * 4 * 60) / tempoBpm), among) };
  });

  test.each(cases)(
    "$first, then $then: what is told changes only when the evidence has turned",
    ({ heard }) => {
      expect(heard.length).toBeGreaterThan(40);
      heard.slice(1).forEach((now, index) => {
        const before = heard[index];
        if (!before) throw new Error("Hearings are missing.");
        const [was, is, newest] = [toldIn(before), toldIn(now), newestIn(now)];
        const likelier = chanceOf(newest, now) / Math.max(chanceOf(was, now), 1e-9);
        if (is !== was) {
          // Only to what this hearing tells: six times likelier, or half as likely again and told by the last one too.
          expect(is).toBe(newest);
          expect(likelier).toBeGreaterThanOrEqual(1.5 - 1e-9);
          if (likelier < 6) expect(newestIn(before)).toBe(is);
        } else if (newest !== was) {
          expect(likelier).toBeLessThan(6);
        }
      });
    },
  );

  test.each(cases)("$first, then $then: each is told in its time", ({ first, then, heard }) => {
    const told = heard.map(toldIn);
    // Two bars into the first, to its end; and from when it alone is heard, the second.
    expect(new Set(told.slice(10, 30))).toEqual(new Set([first]));
    expect(told.at(-1)).toBe(then);
    const changes = told.slice(10).filter((answer, index) => answer !== told[index + 9]);
    expect(changes.length).toBeLessThanOrEqual(3);
    // Once it is left it does not come back.
    const left = told.findIndex((answer, index) => index > 10 && answer !== first);
    expect(told.slice(left)).not.toContain(first);
  });

  test("the groove that is told stands first, and known says whether one is", () => {
    for (const { heard } of cases) {
      for (const { candidates, known, noneConfidence } of heard) {
        expect(candidates.map(({ id }) => id).sort()).toEqual(among.grooves.map(({ id }) => id).sort());
        const rest = candidates.slice(known ? 1 : 0).map(({ confidence }) => confidence);
        expect([...rest].sort((a, b) => b - a)).toEqual(rest);
        const sum = candidates.reduce((all, { confidence }) => all + confidence, noneConfidence);
        expect(sum).toBeCloseTo(1, 9);
      }
    }
  });

  test("a groove held for a minute is told all along", () => {
    const hits = from(0, "bossa-nova", 126, 32, 9);
    const told = heardAt(hits, everyBeat(63, 60), stockOf("bossa-nova", "samba", "rumba", "half-time")).map(
      toldIn,
    );
    expect(told.length).toBeGreaterThan(50);
    expect(new Set(told.slice(8))).toEqual(new Set(["bossa-nova"]));
  });
});
