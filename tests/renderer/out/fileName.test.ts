import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayName, fileName } from "../../../renderer/out/fileName.ts";

const DAY = new Date(2026, 10, 26, 23, 59);

describe("a file's name", () => {
  test.each([
    [
      { of: "Shuffle", what: "take", tempoBpm: 104.2, ending: "mid" },
      "Shuffle, take, 2026-11-26, 104 a minute.mid",
    ],
    [{ of: "Shuffle", tempoBpm: 104, ending: "mid" }, "Shuffle, 2026-11-26, 104 a minute.mid"],
    [
      { of: "Free playing", what: "bar ring", tempoBpm: null, ending: "svg" },
      "Free playing, bar ring, 2026-11-26.svg",
    ],
    [{ of: "5/4: in two?", tempoBpm: null, ending: "csv" }, "5 4 in two, 2026-11-26.csv"],
    [{ of: "..\\..\\etc/passwd", tempoBpm: null, ending: "csv" }, "etc passwd, 2026-11-26.csv"],
    [{ of: "\u202Egnp.exe", tempoBpm: null, ending: "png" }, "gnp.exe, 2026-11-26.png"],
    [{ of: "   ", tempoBpm: null, ending: "png" }, "groove, 2026-11-26.png"],
    [{ of: "con", tempoBpm: null, ending: "png" }, "con_, 2026-11-26.png"],
    [{ of: "Ottilies Übung", tempoBpm: 60, ending: "mid" }, "Ottilies Übung, 2026-11-26, 60 a minute.mid"],
  ])("%o", (parts, name) => {
    expect(fileName({ ...parts, day: DAY })).toBe(name);
  });

  test("any text gives a name that every desktop system takes", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "binary", maxLength: 400 }),
        fc.string({ unit: "binary" }),
        (of, what) => {
          const name = fileName({ of, what, day: DAY, tempoBpm: 120, ending: "musicxml" });
          expect(name).not.toMatch(/[<>:"/\\|?*\p{Cc}]/u);
          expect(name).not.toMatch(/^[. ]/);
          expect(name).toMatch(/, 2026-11-26, 120 a minute\.musicxml$/);
          expect([...name].length).toBeLessThan(180);
        },
      ),
    );
  });

  test("a day is the wall's, whatever the hour", () => {
    expect(dayName(new Date(2026, 0, 2, 0, 1))).toBe("2026-01-02");
    expect(dayName(DAY)).toBe("2026-11-26");
  });
});
