import { expect, test } from "vitest";
import { FOUR_FOUR, type PlayedClick, plainClick } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { AHEAD_HIDDEN_SECONDS, AHEAD_SECONDS, ClickPlayer } from "../../../renderer/audio/clickPlayer.ts";
import type { ClickSound } from "../../../renderer/audio/clickSound.ts";

const RISE_SECONDS = 0.002;

/** A page with an audio context of its own: the two clocks 100 s apart, every scheduled start kept. */
class FakePage {
  now = 50;
  hidden = false;
  readonly starts: number[] = [];
  look: () => void = () => {
    throw new Error("nobody is to be woken");
  };
  isAwake = false;
  isSilent = false;

  readonly context = this.#context();

  #context(): AudioContext {
    const context: Partial<AudioContext> = {
      outputLatency: 0,
      getOutputTimestamp: () => ({ contextTime: this.now - 100 + 200, performanceTime: this.now * 1000 }),
    };
    Object.defineProperty(context, "currentTime", { get: () => this.now + 100 });
    return context as AudioContext;
  }

  play(click: PlayedClick): ClickPlayer {
    const sound: ClickSound = {
      riseSeconds: RISE_SECONDS,
      sound: (_, at) => {
        // Begun in the past it would sound late.
        expect(at - RISE_SECONDS).toBeGreaterThanOrEqual(this.now + 100);
        this.starts.push(at - 100);
      },
      silence: () => {
        this.isSilent = true;
      },
    };
    return new ClickPlayer(this.context, sound, click, {
      now: () => this.now,
      isHidden: () => this.hidden,
      wake: (look) => {
        this.look = look;
        this.isAwake = true;
        return () => {
          this.isAwake = false;
        };
      },
    });
  }

  /** Lets time pass, waking the click as often as the page is woken. */
  pass(seconds: number, wakeEvery: number): void {
    const until = this.now + seconds;
    while (this.now < until) {
      this.now += wakeEvery;
      this.look();
    }
  }
}

const click = (from: number): PlayedClick => ({
  way: plainClick(FOUR_FOUR),
  tempoBpm: 120,
  from,
  countInBars: 0,
});

function missing(starts: readonly number[], from: number, until: number): number {
  let lost = 0;
  for (let beat = 0; from + beat * 0.5 < until; beat += 1)
    if (!starts.some((start) => Math.abs(start - from - beat * 0.5) < 1e-6)) lost += 1;
  return lost;
}

test("a busy page: stalls of 200 ms lose no click, and sound none twice", () => {
  const page = new FakePage();
  const chance = seededChance(2);
  page.play(click(50.8));
  for (let at = 0; at < 600; at += 1) page.pass(0.05, 0.05 + (chance() < 0.2 ? 0.2 : 0));
  expect(missing(page.starts, 50.8, page.now)).toBe(0);
  expect(new Set(page.starts.map((start) => start.toFixed(6))).size).toBe(page.starts.length);
});

test("a hidden page that is woken once a second, or once in two, loses none", () => {
  for (const every of [1, 2]) {
    const page = new FakePage();
    page.play(click(50.8));
    page.pass(0.5, 0.05);
    page.hidden = true;
    page.look();
    page.pass(60, every);
    expect(missing(page.starts, 50.8, page.now)).toBe(0);
  }
});

test("just after the sound was opened the clocks are not joined yet: only what is due soon is scheduled", () => {
  const page = new FakePage();
  page.play(click(50.5));
  page.look();
  expect(page.starts).toEqual([]);
  page.pass(0.3, 0.05);
  expect(page.starts.length).toBeGreaterThan(0);
});

test("no more is scheduled ahead than need be: a stop is a stop", () => {
  const page = new FakePage();
  const player = page.play(click(50.8));
  page.pass(10, 0.05);
  expect(Math.max(...page.starts)).toBeLessThanOrEqual(page.now + AHEAD_SECONDS + 1e-9);
  page.hidden = true;
  page.look();
  expect(Math.max(...page.starts)).toBeLessThanOrEqual(page.now + AHEAD_HIDDEN_SECONDS + 1e-9);
  player.stop();
  expect(page.isAwake).toBe(false);
  expect(page.isSilent).toBe(true);
});

test("after a stall that is longer than what was scheduled, late clicks are left out, not played late", () => {
  const page = new FakePage();
  page.play(click(50.8));
  page.pass(5, 0.05);
  const before = page.starts.length;
  page.now += 3;
  page.look();
  for (const start of page.starts.slice(before)) expect(start).toBeGreaterThanOrEqual(page.now);
});
