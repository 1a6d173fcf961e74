/**
 * The exchange of four time stamps against the formulas of RFC 5905 (Network Time Protocol version 4), section 8, with
 * figures worked by hand, and its bound against Cristian, Probabilistic clock synchronization, Distributed Computing 3
 * (1989) 146–158.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ClockFilter, clockSample, cristianBound } from "../../engine/rooms/index.ts";

describe("RFC 5905, section 8", () => {
  test("T1 1000, T2 1130, T3 1140, T4 1050 ms: offset 110, delay 40 ms", () => {
    const { offset, roundTrip } = clockSample({ t1: 1, t2: 1.13, t3: 1.14, t4: 1.05 });
    expect(offset).toBeCloseTo(0.11, 9);
    expect(roundTrip).toBeCloseTo(0.04, 9);
  });

  test("30 ms out, 10 back, true offset 0: off by half the difference", () => {
    expect(clockSample({ t1: 0, t2: 0.03, t3: 0.03, t4: 0.04 }).offset).toBeCloseTo(0.01, 9);
  });

  test("the true offset lies within half the delay, however the two ways share it (law)", () => {
    const way = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        way,
        way,
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        way,
        (out, back, ahead, held) => {
          const t2 = out + ahead;
          const { offset, roundTrip } = clockSample({ t1: 0, t2, t3: t2 + held, t4: out + held + back });
          expect(Math.abs(offset - ahead)).toBeLessThanOrEqual(roundTrip / 2 + 1e-9);
        },
      ),
    );
  });
});

describe("Cristian 1989: D/2 − m", () => {
  test.each([
    [0.04, 0.005, 0.015],
    [0.012, 0.005, 0.001],
    [0.008, 0.005, 0],
  ])("round trip %d, least one way %d: %d", (roundTrip, least, bound) =>
    expect(cristianBound(roundTrip, least)).toBeCloseTo(bound, 9),
  );
});

describe("the clock filter (RFC 5905, section 10)", () => {
  const exchange = (at: number, out: number, back: number, ahead: number) => ({
    t1: at,
    t2: at + out + ahead,
    t3: at + out + ahead,
    t4: at + out + back,
  });

  test("the sample of the least delay is believed", () => {
    const filter = new ClockFilter();
    filter.take(exchange(0, 0.2, 0.05, 5));
    filter.take(exchange(1, 0.02, 0.02, 5));
    filter.take(exchange(2, 0.05, 0.3, 5));
    const reading = filter.reading(2);
    expect(reading?.offset).toBeCloseTo(5, 9);
    expect(reading?.uncertainty).toBeCloseTo(0.02 + 1e-4, 4);
    expect(reading?.worstOneWay).toBeCloseTo(0.175, 9);
  });

  test("a clock that jumped is followed at once", () => {
    const filter = new ClockFilter();
    for (let at = 0; at < 8; at += 1) filter.take(exchange(at, 0.01, 0.01, 5));
    filter.take(exchange(9, 0.05, 0.05, 3605));
    expect(filter.samples).toBe(1);
    expect(filter.reading(9)?.offset).toBeCloseTo(3605, 6);
  });

  test("nothing is known before the first exchange", () => expect(new ClockFilter().reading(0)).toBeNull());
});
