import { describe, expect, test } from "vitest";
import {
  instantAfter,
  instantOf,
  isZone,
  localDay,
  localTime,
  secondsBetween,
} from "../../../engine/session/index.ts";

/** Changes of the clocks as published in the IANA time zone database. */
describe("days and times there", () => {
  test.each([
    // Around midnight, on both sides of Greenwich.
    ["2026-03-02T22:59:59.999Z", "Europe/Vienna", "2026-03-02", "23:59"],
    ["2026-03-02T23:00:00.000Z", "Europe/Vienna", "2026-03-03", "00:00"],
    ["2026-03-03T04:59:59.999Z", "America/New_York", "2026-03-02", "23:59"],
    ["2026-03-03T05:00:00.000Z", "America/New_York", "2026-03-03", "00:00"],
    // Vienna, 29 March 2026: 02:00 becomes 03:00. 25 October 2026: 03:00 becomes 02:00.
    ["2026-03-29T00:59:59.999Z", "Europe/Vienna", "2026-03-29", "01:59"],
    ["2026-03-29T01:00:00.000Z", "Europe/Vienna", "2026-03-29", "03:00"],
    ["2026-10-25T00:30:00.000Z", "Europe/Vienna", "2026-10-25", "02:30"],
    ["2026-10-25T01:30:00.000Z", "Europe/Vienna", "2026-10-25", "02:30"],
    // Lord Howe Island: half an hour of daylight saving.
    ["2026-04-04T14:59:00.000Z", "Australia/Lord_Howe", "2026-04-05", "01:59"],
    ["2026-04-04T15:00:00.000Z", "Australia/Lord_Howe", "2026-04-05", "01:30"],
    // Kathmandu: three quarters of an hour. Kiritimati: a day ahead. Samoa left out 30 December 2011.
    ["2026-03-02T18:14:59.000Z", "Asia/Kathmandu", "2026-03-02", "23:59"],
    ["2026-03-02T18:15:00.000Z", "Asia/Kathmandu", "2026-03-03", "00:00"],
    ["2026-03-02T10:00:00.000Z", "Pacific/Kiritimati", "2026-03-03", "00:00"],
    ["2011-12-30T09:59:59.000Z", "Pacific/Apia", "2011-12-29", "23:59"],
    ["2011-12-30T10:00:00.000Z", "Pacific/Apia", "2011-12-31", "00:00"],
  ])("%s in %s is %s %s", (instant, zone, day, time) => {
    expect(localDay(instant, zone)).toBe(day);
    expect(localTime(instant, zone)).toBe(time);
  });

  test("a lesson past midnight begins on one day and ends on the next; its length is what it was", () => {
    const from = "2026-03-02T22:40:00.000Z";
    const to = instantAfter(from, 30 * 60);
    expect([localDay(from, "Europe/Vienna"), localDay(to, "Europe/Vienna")]).toEqual([
      "2026-03-02",
      "2026-03-03",
    ]);
    expect(secondsBetween(from, to)).toBe(1800);
  });

  test("half an hour over the change of the clocks is half an hour", () => {
    const from = instantOf("2026-03-29", "01:45", "Europe/Vienna");
    expect(localTime(instantAfter(from, 1800), "Europe/Vienna")).toBe("03:15");
  });
});

describe("instants of days and times there", () => {
  test.each([
    ["2026-03-02", "15:30", "Europe/Vienna", "2026-03-02T14:30:00.000Z"],
    ["2026-07-02", "15:30", "Europe/Vienna", "2026-07-02T13:30:00.000Z"],
    // Skipped: as much later. Twice: the first.
    ["2026-03-29", "02:30", "Europe/Vienna", "2026-03-29T01:30:00.000Z"],
    ["2026-10-25", "02:30", "Europe/Vienna", "2026-10-25T00:30:00.000Z"],
    ["2026-03-08", "02:30", "America/New_York", "2026-03-08T07:30:00.000Z"],
    ["2026-03-02", "15:30", "UTC", "2026-03-02T15:30:00.000Z"],
  ])("%s %s in %s is %s", (day, time, zone, instant) => {
    expect(instantOf(day, time, zone)).toBe(instant);
  });

  test.each([
    ["Europe/Vienna", true],
    ["UTC", true],
    ["Europe/Millrace", false],
    ["", false],
  ])("zone %j is known: %s", (zone, known) => {
    expect(isZone(zone)).toBe(known);
  });

  test("what is no instant is refused", () => {
    expect(() => localDay("yesterday", "UTC")).toThrow(RangeError);
    expect(() => localDay("2026-02-30T00:00:00.000Z", "UTC")).toThrow(RangeError);
  });
});
