import { describe, expect, test } from "vitest";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { type AudioClock, clockOf, JoinedClock } from "../../../renderer/audio/clock.ts";

function audioTimeAt(context: AudioClock, sessionTime: number): number {
  const clock = clockOf(context);
  clock.look();
  return clock.audioTimeAt(sessionTime);
}

test("a moment of the session is found on the audio clock through the pair the device gives", () => {
  const context: AudioClock = {
    currentTime: 5,
    outputLatency: 0.02,
    getOutputTimestamp: () => ({ contextTime: 4.9, performanceTime: 100_000 }),
  };
  expect(audioTimeAt(context, 100.5)).toBeCloseTo(5.4, 9);
});

test("before the first sample has left, the declared latency stands in", () => {
  const context: AudioClock = {
    currentTime: 0,
    outputLatency: 0.02,
    getOutputTimestamp: () => ({ contextTime: 0, performanceTime: 0 }),
  };
  const inHalfASecond = performance.now() / 1000 + 0.5;
  expect(audioTimeAt(context, inHalfASecond)).toBeCloseTo(0.48, 1);
});

/** An audio device whose crystal runs fast or slow, with stamps as they come in practice. */
interface Device {
  readonly skewPpm: number;
  /** One standard deviation of the stamps, and how often one is far too late. */
  readonly jitterMs: number;
  readonly strays: number;
  readonly seed: number;
  /** Device frames come in blocks of this length: a stamp may be of the block's beginning. */
  readonly blockMs?: number;
}

class FakeDevice implements AudioClock {
  now = 20;
  readonly outputLatency = 0.012;
  #extra = 0;
  readonly #chance: () => number;
  readonly #how: Device;

  constructor(how: Device) {
    this.#how = how;
    this.#chance = seededChance(how.seed);
  }

  /** What truly leaves the device at a moment. */
  trueAudioTime(sessionTime: number): number {
    return 3 + (sessionTime - 20) * (1 + this.#how.skewPpm * 1e-6) - this.#extra;
  }

  get currentTime(): number {
    return this.trueAudioTime(this.now) + this.outputLatency;
  }

  /** The audio clock stands still for a time, as a suspended context does, or jumps with another device. */
  hold(seconds: number): void {
    this.#extra += seconds;
  }

  getOutputTimestamp(): AudioTimestamp {
    const { jitterMs, strays, blockMs = 0 } = this.#how;
    const block = blockMs / 1000;
    const at = block > 0 ? Math.floor(this.now / block) * block : this.now;
    const late = this.#chance() < strays ? 0.03 * this.#chance() : 0;
    const stamp = at + (jitterMs / 1000) * normal(this.#chance) + late;
    return { contextTime: this.trueAudioTime(at), performanceTime: stamp * 1000 };
  }
}

/** Looks every 50 ms; the worst error 0.4 s ahead after `from` seconds, and the worst slip of a half-second click. */
function follow(device: FakeDevice, clock: JoinedClock, seconds: number, from: number, lookSeconds = 0.05) {
  const begin = device.now;
  let worstMs = 0;
  let worstSlipMs = 0;
  let lastClick: number | undefined;
  let nextClick = device.now + 0.4;
  while (device.now < begin + seconds) {
    clock.look();
    if (device.now - begin >= from) {
      const ahead = device.now + 0.4;
      worstMs = Math.max(worstMs, Math.abs(clock.audioTimeAt(ahead) - device.trueAudioTime(ahead)) * 1000);
    }
    if (nextClick < device.now + 0.4) {
      const click = clock.audioTimeAt(nextClick);
      if (lastClick !== undefined && device.now - begin >= from) {
        const ideal = device.trueAudioTime(nextClick) - device.trueAudioTime(nextClick - 0.5);
        worstSlipMs = Math.max(worstSlipMs, Math.abs(click - lastClick - ideal) * 1000);
      }
      lastClick = click;
      nextClick += 0.5;
    }
    device.now += lookSeconds;
  }
  return { worstMs, worstSlipMs };
}

/** The slope of a line through so many seconds is worth something. */
const SETTLED_SECONDS = 15;

describe("half an hour on two crystals", () => {
  test.each([
    [0, 1, 0],
    [80, 0.2, 0.01],
    [50, 1, 0.02],
    [-120, 1.5, 0.02],
    [200, 2, 0.05],
    [-200, 2, 0.05],
  ])(
    "%i in a million apart, stamps off by %f ms, %f of them strays: within 1 ms",
    (skewPpm, jitterMs, strays) => {
      const device = new FakeDevice({ skewPpm, jitterMs, strays, seed: 7 + skewPpm });
      const clock = new JoinedClock(device, () => device.now);
      const first = follow(device, clock, SETTLED_SECONDS, 0.5);
      const { worstMs, worstSlipMs } = follow(device, clock, 1800, 0);
      console.info(
        `clock: ${skewPpm} ppm, jitter ${jitterMs} ms, strays ${strays}: in the first ${SETTLED_SECONDS} s ${first.worstMs.toFixed(3)} ms, then in half an hour ${worstMs.toFixed(3)} ms; worst slip of a click ${first.worstSlipMs.toFixed(4)}, then ${worstSlipMs.toFixed(4)} ms`,
      );
      expect(first.worstMs).toBeLessThan(3);
      expect(worstMs).toBeLessThan(1);
      expect(worstSlipMs).toBeLessThan(0.1);
    },
  );

  test("stamps by blocks of 10 ms, looked at once a second only, as in a hidden page", () => {
    const device = new FakeDevice({ skewPpm: 90, jitterMs: 1, strays: 0.02, seed: 5, blockMs: 10 });
    const clock = new JoinedClock(device, () => device.now);
    const { worstMs } = follow(device, clock, 1800, 10, 1);
    console.info(`clock: looked at once a second: worst ${worstMs.toFixed(3)} ms`);
    expect(worstMs).toBeLessThan(1.5);
  });
});

describe("what happens to clocks", () => {
  const steady: Device = { skewPpm: 60, jitterMs: 1, strays: 0.02, seed: 3 };

  test.each([
    ["the context was suspended for 20 s", 20, 20],
    ["another device with 45 ms more", 0, 0.045],
    ["another device with 45 ms less", 0, -0.045],
  ])("%s: right again within half a second", (_, away, hold) => {
    const device = new FakeDevice(steady);
    const clock = new JoinedClock(device, () => device.now);
    follow(device, clock, 120, 5);
    device.now += away;
    device.hold(hold);
    const { worstMs } = follow(device, clock, 60, 0.5);
    console.info(`clock: after ${_}: worst ${worstMs.toFixed(2)} ms`);
    expect(worstMs).toBeLessThan(2.5);
  });

  test("a single stamp that jumps by a second moves nothing", () => {
    const device = new FakeDevice({ ...steady, jitterMs: 0, strays: 0 });
    const clock = new JoinedClock(device, () => device.now);
    follow(device, clock, 60, 5);
    const before = clock.audioTimeAt(device.now + 0.4);
    device.hold(1);
    clock.look();
    device.hold(-1);
    expect(clock.audioTimeAt(device.now + 0.4)).toBe(before);
  });

  test("a context that has stopped, and gives the same pair again and again, is not believed twice", () => {
    let asked = 0;
    const device = new FakeDevice({ ...steady, jitterMs: 0, strays: 0 });
    const stopped = { contextTime: device.trueAudioTime(device.now), performanceTime: device.now * 1000 };
    const clock = new JoinedClock(
      {
        currentTime: device.currentTime,
        outputLatency: 0,
        getOutputTimestamp: () => {
          asked += 1;
          return stopped;
        },
      },
      () => device.now,
    );
    for (let at = 0; at < 50; at += 1) clock.look();
    expect(asked).toBe(50);
    expect(clock.audioTimeAt(device.now)).toBeCloseTo(device.trueAudioTime(device.now), 9);
  });
});

test("there and back again is the same moment", () => {
  const device = new FakeDevice({ skewPpm: 150, jitterMs: 1, strays: 0.01, seed: 9 });
  const clock = new JoinedClock(device, () => device.now);
  follow(device, clock, 90, 5);
  for (const time of [0, 20, 109.7, 5000])
    expect(clock.sessionTimeAt(clock.audioTimeAt(time))).toBeCloseTo(time, 8);
});
