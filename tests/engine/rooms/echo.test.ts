/**
 * An echo over a network says what the same echo says in one room: within a millisecond and what is said of the clocks. The
 * network is simulated: 0 to 300 ms of one way, 50 ms of jitter, one message in twenty lost, clocks a day apart and one
 * running 50 in a million faster.
 */
import { describe, expect, test } from "vitest";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { compareAnswer } from "../../../engine/trading/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { SimulatedRoom } from "./network.ts";

const NOOR = "noor-0001";
const BRAM = "bram-0002";
const TEMPO_BPM = 100;
const BEAT_SECONDS = 60 / TEMPO_BPM;
const TURN_SECONDS = 8 * BEAT_SECONDS;
const VOICES: readonly Voice[] = ["snare", "kick", "high-tom", "floor-tom"];
const PADS: Readonly<Partial<Record<Voice, number>>> = {
  snare: 38,
  kick: 36,
  "high-tom": 48,
  "floor-tom": 41,
};
const AHEAD_SECONDS = 86_400;

function hit(time: number, voice: Voice): Hit {
  return { time, voice, zone: "whole", velocity: 0.7, pad: PADS[voice] ?? 38 };
}

/** Two bars on eighths and sixteenths, the one always struck. */
function phrase(seed: number): readonly Hit[] {
  const chance = seededChance(seed);
  return Array.from({ length: 32 }, (_, at) => at)
    .filter((at) => at === 0 || chance() < (at % 2 === 0 ? 0.6 : 0.15))
    .map((at) => hit((at * BEAT_SECONDS) / 4, VOICES[Math.floor(chance() * VOICES.length)] ?? "snare"));
}

/** The answer: a few milliseconds behind, scattered, and in every third one sound moved and one stroke left out. */
function answerTo(call: readonly Hit[], seed: number): readonly Hit[] {
  const chance = seededChance(seed + 1000);
  const changed = seed % 3 === 0;
  return call.flatMap(({ time, voice }, index) => {
    if (changed && index === 3) return [];
    const moved = changed && index === 1;
    const other = VOICES[(VOICES.indexOf(voice) + 1) % VOICES.length] ?? voice;
    return [hit(TURN_SECONDS + time + 0.006 + 0.008 * normal(chance), moved ? other : voice)];
  });
}

const HOW = { level: "steady", tempoBpm: TEMPO_BPM, turnSeconds: TURN_SECONDS } as const;

function overNetwork(call: readonly Hit[], answer: readonly Hit[], latencySeconds: number, seed: number) {
  const room = new SimulatedRoom({ latencySeconds, jitterSeconds: 0.05, loss: 0.05, doubled: 0.02 }, seed);
  const noor = room.join({ id: NOOR });
  // Neither sees the other's hello where that is lost: they are then met again, as after a break.
  const bram = room.join({ id: BRAM, name: "Bram" }, AHEAD_SECONDS);
  for (let time = 0; time < 10; time += 1) {
    room.run(2);
    if ([noor, bram].every(({ member }) => member.people(room.now).length === 1)) break;
    noor.member.joined(room.now);
    bram.member.joined(room.now + AHEAD_SECONDS);
  }
  room.run(5);
  const begins = room.now;
  const placed = (hits: readonly Hit[]) => hits.map((each) => ({ ...each, time: each.time + begins }));
  // Bram's clock is fast: what he stamps is later by as much.
  const onBramsClock = (time: number) => time + AHEAD_SECONDS + 50e-6 * (time - begins);
  const [mine, his] = [placed(call), placed(answer)];
  // Put on our clock as they come, as the program does it.
  const here: Hit[] = [];
  let uncertainty = 0;
  let read = noor.news.length;
  const take = () => {
    for (const news of noor.news.slice(read)) {
      for (const each of news.kind === "hits" ? news.hits : []) {
        const moment = noor.member.inOwnTime(BRAM, each.time, room.now);
        uncertainty = Math.max(uncertainty, moment?.uncertainty ?? Number.POSITIVE_INFINITY);
        here.push({ ...each, time: moment?.time ?? Number.NaN });
      }
    }
    read = noor.news.length;
  };
  let next = 0;
  while (room.now < begins + 2 * TURN_SECONDS + 10) {
    room.run(0.01);
    for (let each = his[next]; each && each.time <= room.now; each = his[next]) {
      bram.member.play([{ ...each, time: onBramsClock(each.time) }], room.now + AHEAD_SECONDS);
      next += 1;
    }
    take();
  }
  return {
    report: compareAnswer(mine, here, HOW),
    local: compareAnswer(mine, his, HOW),
    uncertaintyMs: uncertainty * 1000,
  };
}

describe("an echo", () => {
  const cases = [0, 0.05, 0.15, 0.3].flatMap((latencySeconds) =>
    Array.from({ length: 12 }, (_, seed) => ({ latencySeconds, seed })),
  );
  test("says over every network what it says in one room", () => {
    let worstMs = 0;
    let worstLeanMs = 0;
    for (const { latencySeconds, seed } of cases) {
      const call = phrase(seed);
      const { report, local, uncertaintyMs } = overNetwork(call, answerTo(call, seed), latencySeconds, seed);
      const verdicts = ({ rhythm, sound, missed, added }: typeof report) => ({
        rhythm: rhythm.holds,
        sound,
        missed: missed.map(({ index }) => index),
        added: added.map(({ index }) => index),
        moved: rhythm.moved.map(({ index }) => index),
      });
      expect({ latencySeconds, seed, ...verdicts(report) }).toEqual({
        latencySeconds,
        seed,
        ...verdicts(local),
      });
      expect(report.rhythm.offsetsMs).toHaveLength(local.rhythm.offsetsMs.length);
      // Where each stroke lies within the answer owes nothing to how far the clocks are apart.
      for (const [index, offsetMs] of report.rhythm.offsetsMs.entries())
        worstMs = Math.max(worstMs, Math.abs(offsetMs - (local.rhythm.offsetsMs[index] ?? Number.NaN)));
      const leanApartMs = Math.abs((report.leanMs ?? Number.NaN) - (local.leanMs ?? Number.NaN));
      expect(leanApartMs).toBeLessThanOrEqual(1 + uncertaintyMs);
      worstLeanMs = Math.max(worstLeanMs, leanApartMs);
    }
    console.log(
      `${cases.length} echoes over networks of 0 to 300 ms: offsets apart by ${worstMs.toFixed(2)} ms at most, ` +
        `lean by ${worstLeanMs.toFixed(1)} ms (the clocks' own uncertainty counted in the bound)`,
    );
    expect(worstMs).toBeLessThanOrEqual(1);
  });
});
