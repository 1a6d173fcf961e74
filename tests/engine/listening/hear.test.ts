import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import {
  type Click,
  catalogueStock,
  type Heard,
  hear,
  pulseOfGroove,
  shelfStock,
} from "../../../engine/listening/index.ts";
import { beatsPerBar, type Groove, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);

function heard(hits: readonly Hit[], among = stock, click?: Click): Heard {
  const hearing = hear(hits, among, click ? { click } : {});
  if (hearing.kind !== "heard") throw new Error(`Nothing was heard: ${hearing.reason}.`);
  return hearing;
}

function halvesAlike(groove: Groove): boolean {
  const half = beatsPerBar(groove.metre) / 2;
  const strokes = new Set(
    groove.notes.map(({ voice, position }) => `${voice} ${position.num / position.den}`),
  );
  const end = groove.bars * beatsPerBar(groove.metre);
  return groove.notes.every(({ voice, position }) =>
    strokes.has(`${voice} ${(position.num / position.den + half) % end}`),
  );
}

describe("too little to hear", () => {
  test.each([
    { hits: [], reason: "no-hits" },
    { hits: [0, 0.5], reason: "too-few-hits" },
    { hits: [1, 1, 1, 1, 1, 1, 1, 1], reason: "too-few-hits" },
  ])("$hits.length strikes: $reason", ({ hits, reason }) => {
    const struck = hits.map((time): Hit => ({ time, voice: "snare", zone: "head", velocity: 0.7, pad: 38 }));
    expect(hear(struck, stock)).toEqual({ kind: "nothing", reason });
  });

  test("strikes on unknown pads alone are too little, not an error", () => {
    const struck = Array.from({ length: 40 }, (_, index): Hit => {
      return { time: index / 4, voice: "unknown", zone: "whole", velocity: 0.7, pad: 96 };
    });
    expect(hear(struck, stock)).toEqual({ kind: "nothing", reason: "too-few-hits" });
  });
});

describe("a catalogue groove, played plainly", () => {
  const variants = STYLES.flatMap((style) =>
    style.variants.map((groove) => ({ style, groove, id: groove.id })),
  );
  test.each(variants)("$id is named, with its tempo and metre", ({ style, groove }) => {
    const tempoBpm = usualTempo(groove);
    const hearing = heard(played(groove, { tempoBpm, bars: 8, spreadMs: 8, chance: seededChance(3) }));
    expect(hearing.known).toBe(true);
    expect(hearing.candidates[0]?.id).toBe(style.id);
    expect(hearing.pulse.metre).toEqual(groove.metre);
    expect(Math.abs(hearing.pulse.tempoBpm / tempoBpm - 1)).toBeLessThan(0.004);
    // Where the second half of the bar is written as the first, nothing tells the one from the three.
    const beats = beatsPerBar(groove.metre) / (halvesAlike(groove) ? 2 : 1);
    for (const downbeat of hearing.pulse.downbeats) {
      const inBars = (downbeat * tempoBpm) / 60 / beats;
      expect((Math.abs(inBars - Math.round(inBars)) * beats * 60) / tempoBpm).toBeLessThan(0.03);
    }
  });
});

describe("candidates", () => {
  const hearing = heard(played(writtenGrooveOf("shuffle"), { tempoBpm: 112, bars: 8, spreadMs: 10 }));

  test("are all there, best first, and their chances and that of none sum to one", () => {
    expect(hearing.candidates.map(({ id }) => id).sort()).toEqual(STYLES.map(({ id }) => id).sort());
    const chances = hearing.candidates.map(({ confidence }) => confidence);
    expect([...chances].sort((a, b) => b - a)).toEqual(chances);
    expect(chances.reduce((sum, chance) => sum + chance, hearing.noneConfidence)).toBeCloseTo(1, 9);
  });
});

describe("none I know", () => {
  /** The same strokes at another tempo, or one holding the other: each may fairly stand for its neighbour. */
  const neighbours: Readonly<Record<string, readonly string[]>> = {
    "half-time": ["rock-sixteenths", "rock-eighths"],
    "rock-sixteenths": ["half-time", "rock-eighths"],
    "rock-eighths": ["half-time", "rock-sixteenths", "bolero"],
    shuffle: ["swing", "half-time-shuffle"],
    swing: ["shuffle"],
    "half-time-shuffle": ["shuffle"],
    bolero: ["rock-eighths"],
  };

  test("a style that is not in the stock is seldom called another with near certainty", () => {
    const mistaken = STYLES.flatMap(({ id }) => {
      const left = stock.grooves.filter((groove) => groove.id !== id && !neighbours[id]?.includes(groove.id));
      return [1, 2, 3].flatMap((seed) => {
        const groove = writtenGrooveOf(id);
        const how = { tempoBpm: usualTempo(groove), bars: 8, spreadMs: 12, chance: seededChance(seed) };
        const hearing = heard(played(groove, how), { ...stock, grooves: left });
        const best = hearing.candidates[0];
        return hearing.known && best && best.confidence > 0.9 ? [`${id} as ${best.id}`] : [];
      });
    });
    expect(mistaken.length, mistaken.join(", ")).toBeLessThanOrEqual(3);
  });

  test("an empty stock still gives the pulse", () => {
    const hearing = heard(played(writtenGrooveOf("rock-eighths"), { tempoBpm: 96, bars: 8 }), {
      ...stock,
      grooves: [],
    });
    expect(hearing.known).toBe(false);
    expect(hearing.candidates).toEqual([]);
    expect(hearing.noneConfidence).toBe(1);
    expect(Math.abs(hearing.pulse.tempoBpm - 96)).toBeLessThan(1);
  });
});

describe("a long take", () => {
  test("in which most bars are a solo is still named by the groove before and after", () => {
    const groove = writtenGrooveOf("bossa-nova");
    const chance = seededChance(5);
    const plays = played(groove, { tempoBpm: 130, bars: 44, spreadMs: 10, chance });
    // From bar 12 to bar 32 strokes fall on random sixteenths of random drums.
    const bar = (4 * 60) / 130;
    const drums = ["snare", "high-tom", "floor-tom", "crash-left", "kick"] as const;
    const solo = Array.from({ length: 200 }, (): Hit => {
      const time = (12 + Math.floor(chance() * 20 * 16) / 16) * bar;
      const voice = drums[Math.floor(chance() * drums.length)] ?? "snare";
      return { time, voice, zone: "whole", velocity: 0.7, pad: 0 };
    });
    const take = [...plays.filter(({ time }) => time < 12 * bar || time >= 32 * bar), ...solo];
    const hearing = heard(take.sort((a, b) => a.time - b.time));
    expect(hearing.known).toBe(true);
    expect(hearing.candidates[0]?.id).toBe("bossa-nova");
  });
});

describe("a click that sounded", () => {
  test("settles the pulse: its tempo, its beats", () => {
    const hits = played(writtenGrooveOf("bolero"), { tempoBpm: 84, bars: 8, spreadMs: 10 });
    const { pulse } = heard(hits, stock, { tempoBpm: 84, from: 0 });
    expect(pulse.tempoBpm).toBeCloseTo(84, 6);
    for (const beat of pulse.beats) {
      const inBeats = (beat * 84) / 60;
      expect(Math.abs(inBeats - Math.round(inBeats))).toBeLessThan(0.1);
    }
  });
});

describe("a shelf of reference takes", () => {
  const reference = (id: string, seeds: readonly number[]) => ({
    id,
    name: id,
    takes: seeds.map((seed) =>
      played(writtenGrooveOf(id), {
        tempoBpm: usualTempo(writtenGrooveOf(id)) * (0.9 + 0.05 * seed),
        bars: 8,
        spreadMs: 12,
        leftOut: 0.03,
        added: 0.03,
        chance: seededChance(seed),
      }),
    ),
  });
  const ids = ["rock-eighths", "bossa-nova", "merengue", "samba", "jazz-waltz", "bolero"];
  test.each([1, 3])("with %i takes of each groove names another player's take at another tempo", (takes) => {
    const shelf = shelfStock(
      ids.map((id) =>
        reference(
          id,
          Array.from({ length: takes }, (_, seed) => seed + 1),
        ),
      ),
    );
    for (const id of ids) {
      const groove = writtenGrooveOf(id);
      const how = {
        tempoBpm: usualTempo(groove) * 1.12,
        bars: 8,
        spreadMs: 15,
        leanMs: 12,
        chance: seededChance(77),
      };
      expect(heard(played(groove, how), shelf).candidates[0]?.id).toBe(id);
    }
  });

  test("leaves out a reference in which there is no pulse", () => {
    const shelf = shelfStock([reference("merengue", [1]), { id: "silence", name: "silence", takes: [[]] }]);
    expect(shelf.grooves.map(({ id }) => id)).toEqual(["merengue"]);
  });
});

describe("the pulse when the groove is known", () => {
  test("is found however much was left out", () => {
    const groove = writtenGrooveOf("half-time");
    const hits = played(groove, {
      tempoBpm: 138,
      bars: 8,
      spreadMs: 15,
      leftOut: 0.3,
      chance: seededChance(9),
    });
    expect(Math.abs((pulseOfGroove(hits, groove)?.tempoBpm ?? 0) - 138)).toBeLessThan(1);
  });

  test("is not made up from nothing", () => {
    expect(pulseOfGroove([], writtenGrooveOf("half-time"))).toBeUndefined();
  });
});
