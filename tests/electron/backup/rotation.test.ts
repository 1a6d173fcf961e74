import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  archiveName,
  dayNumber,
  type NamedArchive,
  readArchiveName,
} from "../../../electron/backup/archiveName.ts";
import { archivesToRemove, USUAL_KEEPING } from "../../../electron/backup/rotation.ts";

function archive(number: number, day: string): NamedArchive {
  return { name: archiveName(number, day, "zip"), number, day };
}

function dayAfter(first: string, days: number): string {
  return new Date(Date.parse(`${first}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/** The archives that are there after one was written on each of `days`, the old ones removed each time. */
function afterWriting(days: readonly string[]): readonly NamedArchive[] {
  let there: readonly NamedArchive[] = [];
  for (const [index, day] of days.entries()) {
    const next = there.concat(archive(index + 1, day));
    const removed = new Set(archivesToRemove(next));
    there = next.filter((each) => !removed.has(each));
  }
  return there;
}

describe("names", () => {
  test("are read as they are written", () => {
    const day = fc.integer({ min: 0, max: 20_000 }).map((days) => dayAfter("1990-01-01", days));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999_999 }), day, (number, on) => {
        expect(readArchiveName(archiveName(number, on, "zip"))).toEqual(archive(number, on));
      }),
    );
  });

  test.each([
    "throneside-000001-2026-02-30.zip",
    "throneside-000001-2026-13-01.zip",
    "throneside-1-2026-11-26.zip",
    "throneside-000001-2026-11-26",
    "throneside-000001-2026-11-26.jsonl.gz.part",
    "../throneside-000001-2026-11-26.zip",
    "throneside-000001-2026-11-26.zip/../../secret",
    "holiday.zip",
    "",
  ])("%j is no archive of ours", (name) => {
    expect(readArchiveName(name)).toBeUndefined();
  });

  test.each([
    ["1970-01-01", 0],
    ["2000-03-01", 11_017],
    ["2024-02-29", 19_782],
    ["2023-02-29", undefined],
  ])("%s is day %s", (day, number) => {
    expect(dayNumber(day)).toBe(number);
  });
});

describe("what is kept", () => {
  test("a year of a backup every day: the last week, and the last day of each of half a year of weeks", () => {
    const days = Array.from({ length: 365 }, (_, index) => dayAfter("2026-01-01", index));
    const kept = afterWriting(days).map(({ day }) => day);
    expect(kept.slice(-7)).toEqual(days.slice(-7));
    const sundays = kept.slice(0, -7);
    expect(sundays.every((day) => new Date(`${day}T00:00:00Z`).getUTCDay() === 0)).toBe(true);
    // 2026-12-31 is a Thursday: the week's seven hold two of the 26 weeks.
    expect(sundays).toHaveLength(24);
    expect(sundays[0]).toBe("2026-07-12");
  });

  test("ten backups in one day: the last three", () => {
    const kept = afterWriting(Array.from({ length: 10 }, () => "2026-11-26"));
    expect(kept.map(({ number }) => number)).toEqual([8, 9, 10]);
  });

  test.each(["1970-01-01", "2099-12-31"])(
    "a clock that says %s for a day costs no archive of before",
    (odd) => {
      const before = Array.from({ length: 5 }, (_, index) => dayAfter("2026-11-16", index));
      const there = afterWriting(before);
      const after = afterWriting([...before, odd, "2026-11-21"]);
      for (const each of there) expect(after).toContainEqual(each);
      expect(after.map(({ day }) => day)).toContain(odd);
    },
  );

  test("a clock that goes back and forth over New Year keeps both weeks", () => {
    const kept = afterWriting(["2026-12-31", "2027-01-01", "2026-12-31", "2027-01-04"]);
    expect(kept.map(({ number }) => number)).toEqual([2, 3, 4]);
  });
});

describe("whatever the clock said", () => {
  const archives = fc
    .array(fc.integer({ min: -5000, max: 40_000 }), { maxLength: 120 })
    .map((days) => days.map((each, index) => archive(index + 1, dayAfter("1999-12-31", each))));

  test("the newest three by number are kept, never more than can be, and again changes nothing", () => {
    fc.assert(
      fc.property(archives, (there) => {
        const removed = new Set(archivesToRemove(there));
        const kept = there.filter((each) => !removed.has(each));
        for (const each of there.slice(-USUAL_KEEPING.last)) expect(kept).toContain(each);
        expect(kept.length).toBeLessThanOrEqual(
          USUAL_KEEPING.last + USUAL_KEEPING.days + USUAL_KEEPING.weeks,
        );
        expect(archivesToRemove(kept)).toEqual([]);
      }),
    );
  });

  test("what is removed once would not be kept later", () => {
    fc.assert(
      fc.property(archives, (there) => {
        // Removing at each step leaves what removing once at the end leaves.
        const removed = new Set(archivesToRemove(there));
        const once = there.filter((each) => !removed.has(each));
        expect(afterWriting(there.map(({ day }) => day)).map(({ day }) => day)).toEqual(
          once.map(({ day }) => day),
        );
      }),
      { numRuns: 50 },
    );
  });
});
