import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Hit } from "../../../engine/kit/index.ts";
import { FarStrikes } from "../../../renderer/room/farStrikes.ts";
import { strike } from "../../broker/joined.ts";

describe("strikes from far away", () => {
  let handed: { readonly at: number; readonly hits: readonly Hit[] }[] = [];
  let strikes: FarStrikes;
  const now = () => Date.now() / 1000;

  beforeEach(() => {
    vi.useFakeTimers({ now: 10_000 });
    handed = [];
    strikes = new FarStrikes((hits) => handed.push({ at: now(), hits }), now);
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  test("are handed on when their moment has come, with that moment", () => {
    strikes.add([strike(11), strike(11.5)]);
    expect(handed).toEqual([]);
    vi.advanceTimersByTime(1000);
    expect(handed).toEqual([{ at: 11, hits: [strike(11)] }]);
    vi.advanceTimersByTime(500);
    expect(handed.at(-1)).toEqual({ at: 11.5, hits: [strike(11.5)] });
  });

  test("that come too late are handed on at once, with their own moment", () => {
    strikes.add([strike(9), strike(9.5), strike(10.2)]);
    expect(handed).toEqual([{ at: 10, hits: [strike(9), strike(9.5)] }]);
    vi.advanceTimersByTime(200);
    expect(handed.at(-1)?.hits).toEqual([strike(10.2)]);
  });

  test("are sounded as soon as they are known, whenever the page hands them on", () => {
    const sounded: Hit[] = [];
    const stop = vi.fn();
    strikes.soundBy({ add: (hits) => sounded.push(...hits), stop });
    strikes.add([strike(11), strike(11.5)]);
    expect(sounded).toEqual([strike(11), strike(11.5)]);
    expect(handed).toEqual([]);
    strikes.soundBy(undefined);
    expect(stop).toHaveBeenCalledTimes(1);
    strikes.add([strike(12)]);
    expect(sounded.length).toBe(2);
  });

  test("are let go when the room is left", () => {
    strikes.add([strike(11)]);
    strikes.clear();
    vi.advanceTimersByTime(5000);
    expect(handed).toEqual([]);
  });
});
