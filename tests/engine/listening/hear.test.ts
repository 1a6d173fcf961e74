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
import { beatsPerBar, type Groove, metreName, usualTempo } from "../../../engine/score/index.ts";
import { type Bpm, type Seconds, seededChance } from "../../../engine/units/index.ts";
import { apart } from "../catalogue/apart.ts";
import { heardAmong } from "./hypotheses.ts";
import { played, steadily, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);

const heard = (hits: readonly Hit[], among = stock, click?: Click): Heard => heardAmong(hits, among, click);

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

/** By how many seconds a moment misses a downbeat; the take begins with one at time 0. */
function besideDownbeat(moment: Seconds, groove: Groove, tempoBpm: Bpm): Seconds {
  // Where the second half of the bar is written as the first, nothing tells the one from the three.
  const bar = ((beatsPerBar(groove.metre) / (halvesAlike(groove) ? 2 : 1)) * 60) / tempoBpm;
  return Math.abs(moment / bar - Math.round(moment / bar)) * bar;
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
  const hearings = new Map<Groove, Heard>();
  const hearingOf = (groove: Groove): Heard => {
    const hearing = hearings.get(groove) ?? heard(steadily(groove));
    hearings.set(groove, hearing);
    return hearing;
  };

  test.each(variants)(
    "$id comes first; once it is named, so are its tempo, metre and downbeats",
    ({ style, groove }) => {
      const tempoBpm = usualTempo(groove);
      const { known, candidates, pulse } = hearingOf(groove);
      expect(candidates[0]?.id).toBe(style.id);
      if (!known) return;
      expect(pulse.metre).toEqual(groove.metre);
      expect(Math.abs(pulse.tempoBpm / tempoBpm - 1)).toBeLessThan(0.004);
      expect(pulse.downbeats.length).toBeGreaterThanOrEqual(7);
      for (const downbeat of pulse.downbeats) {
        expect(besideDownbeat(downbeat, groove, tempoBpm)).toBeLessThan(0.03);
      }
    },
  );

  test("nineteen of twenty are named", () => {
    const unnamed = variants.filter(({ groove }) => !hearingOf(groove).known).map(({ id }) => id);
    expect(unnamed.length / variants.length, unnamed.join(", ")).toBeLessThanOrEqual(0.05);
  });

  test("among those named is every metre", () => {
    const named = variants.filter(({ groove }) => hearingOf(groove).known);
    const metres = new Set(named.map(({ groove }) => metreName(groove.metre)));
    expect([...metres].sort()).toEqual(["12/8", "2/4", "3/4", "4/4", "5/4", "6/8", "7/8"]);
  });
});

describe("felt beats too fast to follow, or too short", () => {
  test.each([
    { id: "blast-beat", tempoBpm: 240 },
    { id: "double-time-punk", tempoBpm: 215 },
    { id: "mambo", tempoBpm: 235 },
    { id: "swing", tempoBpm: 238 },
    { id: "seven-eight", tempoBpm: 270 },
    { id: "seven-eight-2", tempoBpm: 205 },
  ])("$id at $tempoBpm is named; tempo and beats are the felt ones", ({ id, tempoBpm }) => {
    const groove = writtenGrooveOf(id);
    const { candidates, pulse } = heard(steadily(groove, { tempoBpm }));
    expect(candidates[0]?.id).toBe(STYLES.find(({ variants }) => variants.includes(groove))?.id);
    expect(Math.abs(pulse.tempoBpm / tempoBpm - 1)).toBeLessThan(0.005);
    expect(pulse.metre).toEqual(groove.metre);
    // Every felt beat from the first stroke to the last, so many of them in a bar.
    const apart = pulse.beats.slice(1).map((beat, index) => beat - (pulse.beats[index] ?? 0));
    for (const seconds of apart) expect(Math.abs((seconds * tempoBpm) / 60 - 1)).toBeLessThan(0.15);
    expect(Math.abs(pulse.beats.length - 8 * beatsPerBar(groove.metre))).toBeLessThanOrEqual(1);
    expect(Math.abs(pulse.downbeats.length - 8)).toBeLessThanOrEqual(1);
  });
});

describe("the time on the other cymbal", () => {
  const onHats = [
    "rock-eighths",
    "half-time",
    "bossa-nova",
    "disco",
    "funk-sixteenths",
    "one-drop",
    "shuffle",
  ];
  const onRide = ["swing", "jazz-waltz", "samba"].filter((id) => {
    const { voices } = writtenGrooveOf(id);
    return voices.includes("ride");
  });
  test.each([
    ...onHats.map((id) => ({ id, timeOn: "ride" as const })),
    ...onRide.map((id) => ({ id, timeOn: "hi-hat-closed" as const })),
  ])("$id on the $timeOn is still itself", ({ id, timeOn }) => {
    const { candidates } = heard(steadily(writtenGrooveOf(id), { orchestration: { timeOn } }));
    expect(candidates[0]?.id).toBe(id);
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
  const without = STYLES.map((style) => {
    const [groove] = style.variants;
    if (!groove) throw new Error(`${style.id} has no variant.`);
    const others = { ...stock, grooves: stock.grooves.filter(({ id }) => id !== style.id) };
    const hearing = heard(steadily(groove, { spreadMs: 12, leftOut: 0.03, added: 0.03 }), others);
    return { style, groove, hearing };
  });

  test("a style that is not in the stock is mostly none", () => {
    const called = without.flatMap(({ style, hearing }) =>
      hearing.known ? [`${style.id} as ${hearing.candidates[0]?.id}`] : [],
    );
    expect(called.length / STYLES.length, called.join(", ")).toBeLessThan(0.5);
  });

  test("and seldom called another with near certainty, unless that one differs by a few strokes a bar", () => {
    const FEW_STROKES = 4;
    const mistaken = without.flatMap(({ style, groove, hearing }) => {
      const [best] = hearing.candidates;
      if (!hearing.known || !best || best.confidence <= 0.9) return [];
      const other = STYLES.find(({ id }) => id === best.id)?.variants ?? [];
      const least = Math.min(...other.map((variant) => apart(groove, variant).strokesPerBar));
      return least <= FEW_STROKES ? [] : [`${style.id} as ${best.id} (${least.toFixed(1)} strokes a bar)`];
    });
    expect(mistaken.length, mistaken.join(", ")).toBeLessThanOrEqual(2);
  });

  test("with it in the stock again it is known", () => {
    const asked = without.filter((_, index) => index % 2 === 0);
    const unknown = asked.filter(({ groove }) => {
      return !heard(steadily(groove, { bars: 4, spreadMs: 12, leftOut: 0.03, added: 0.03 })).known;
    });
    const named = unknown.map(({ style }) => style.id).join(", ");
    expect(unknown.length / asked.length, named).toBeLessThan(0.1);
  });

  test("unless one of the stock was played for certain: then the pulse is its own, and no chance is changed", () => {
    const waltz = { ...stock, grooves: stock.grooves.filter(({ id }) => id === "jazz-waltz") };
    const hits = played(writtenGrooveOf("samba"), { tempoBpm: 100, bars: 8 });
    const [unsure, certain] = [heard(hits, waltz), heard(hits, { ...waltz, isCertain: true })];
    expect(unsure.known).toBe(false);
    expect(certain.known).toBe(true);
    expect(metreName(certain.pulse.metre)).toBe("3/4");
    expect(certain.noneConfidence).toBe(unsure.noneConfidence);
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
