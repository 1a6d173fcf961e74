import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { csv, hitsCsv, notesCsv, reportCsv } from "../../../engine/formats/index.ts";
import { gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { readCsv } from "../../reference/rfc4180.ts";
import { meantHits } from "../listening/writtenDown.ts";

describe("RFC 4180", () => {
  // The examples of its section 2, rules 1 to 7.
  test.each([
    { cells: ["aaa", "bbb", "ccc"], line: "aaa,bbb,ccc\r\n" },
    { cells: ["aaa", "b\r\nbb", "ccc"], line: 'aaa,"b\r\nbb",ccc\r\n' },
    { cells: ["aaa", 'b"bb', "ccc"], line: 'aaa,"b""bb",ccc\r\n' },
    { cells: ["a,a", "", " c "], line: '"a,a",, c \r\n' },
  ])("$line", ({ cells, line }) => {
    expect(csv(["x", "y", "z"], [cells])).toBe(`x,y,z\r\n${line}`);
  });

  test("any table is read back as it was", () => {
    const cell = fc.oneof(
      fc.string({ unit: "grapheme" }),
      fc.constantFrom('"', ",", "\r\n", "\n", "", '","'),
    );
    const table = fc
      .integer({ min: 1, max: 5 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
      );
    fc.assert(
      fc.property(table, ([head = [], ...lines]) => {
        expect(readCsv(csv(head, lines))).toEqual([head, ...lines]);
      }),
      { numRuns: 500 },
    );
  });

  test("numbers have a point and four decimals at most, no line has more fields than the head", () => {
    expect(csv(["a", "b", "c", "d"], [[1.23456, -0, 1e-9, null]])).toBe("a,b,c,d\r\n1.2346,0,0,\r\n");
    expect(() => csv(["a"], [[1, 2]])).toThrow(RangeError);
    expect(() => csv(["a"], [[Number.NaN]])).toThrow(RangeError);
  });
});

test("hits: one line each, as they were played", () => {
  const hits: readonly Hit[] = [
    { time: 0.123456, voice: "hi-hat-closed", zone: "bow", velocity: 0.5, openness: 0.25, pad: 42 },
    { time: 1, voice: "snare", zone: "rim", velocity: 1, pad: 40 },
  ];
  expect(readCsv(hitsCsv(hits, [{ bar: 1, beat: 1.5, dynamic: "ghost" }]))).toEqual([
    ["seconds", "voice", "zone", "velocity", "openness", "key", "bar", "beat", "touch"],
    ["0.1235", "hi-hat", "bow", "0.5", "0.25", "42", "1", "1.5", "ghost"],
    ["1", "snare", "rim", "1", "", "40", "", "", ""],
  ]);
});

test("written strokes: one line each, with their place", () => {
  const groove = parseGrid(
    "groove: g\nname: G\nmetre: 12/8\ntempo: 60-90\nsnare | ....... f.... | X..|\nhands | ....... R.... | ...|",
  );
  expect(readCsv(notesCsv(groove)).slice(1)).toEqual([
    ["12/8", "1", "3.3333", "7/3", "snare", "plain", "flam", "R"],
    ["12/8", "2", "1", "4", "snare", "accent", "", ""],
  ]);
});

test("a report: the take, its beats, its bars and its voices", () => {
  const groove = STYLES.find(({ id }) => id === "rock-eighths")?.variants[0];
  if (!groove) throw new Error("There is no such groove.");
  const target = grooveTarget(groove, { tempoBpm: 100, bars: 4 });
  const hits = meantHits(groove, { tempoBpm: 100, bars: 4, slip: () => 0.005 }).map((hit) => ({
    ...hit,
    time: hit.time - 1,
  }));
  const report = gradeTake(hits, target, { start: "shared", level: "steady" });
  const [head = [], ...lines] = readCsv(reportCsv(report));
  expect(head[0]).toBe("of");
  const of = (kind: string) => lines.filter(([what]) => what === kind);
  expect(of("take")[0]?.slice(0, 4)).toEqual(["take", groove.name, String(hits.length), "5"]);
  expect(of("beat").map(([, which]) => which)).toEqual(["1", "2", "3", "4"]);
  expect(of("bar").length).toBe(4);
  const kick = of("voice").find(([, which]) => which === "kick");
  const written = (groove.notes.filter(({ voice }) => voice === "kick").length * 4) / groove.bars;
  expect(kick?.slice(5)).toEqual([String(written), String(written), "0", "0", "0", "0", "0"]);
});
