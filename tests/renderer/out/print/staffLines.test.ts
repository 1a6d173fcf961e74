import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { grooveById } from "../../../../engine/catalogue/index.ts";
import {
  heightOf,
  linesOfGroove,
  pagesOf,
  type StaffLine,
} from "../../../../renderer/out/print/staffLines.ts";

const line = (height: number, section?: string): StaffLine => ({
  paths: [],
  width: 665,
  top: 0,
  height,
  ...(section === undefined ? {} : { section }),
});

describe("lines of the staff over pages", () => {
  test("go on where the page is full", () => {
    const lines = [line(185), line(185), line(185), line(185, "Chorus")];
    expect(pagesOf(lines, { first: 400, later: 500 }).map((page) => page.length)).toEqual([2, 2]);
    expect(pagesOf(lines, { first: 600, later: 600 }).map((page) => page.length)).toEqual([3, 1]);
  });

  test("each stands on one page, in order, and no page is fuller than it can be", () => {
    const lines = fc.array(
      fc
        .record({ height: fc.integer({ min: 40, max: 300 }), begins: fc.boolean() })
        .map(({ height, begins }) => line(height, begins ? "Verse" : undefined)),
      { minLength: 1, maxLength: 80 },
    );
    fc.assert(
      fc.property(lines, (all) => {
        const pages = pagesOf(all, { first: 724, later: 850 });
        expect(pages.flat()).toEqual(all);
        pages.forEach((page, at) => {
          expect(page.length).toBeGreaterThan(0);
          const height = page.reduce((sum, each) => sum + heightOf(each), 0);
          expect(height).toBeLessThanOrEqual(at === 0 ? 724 : 850);
          // What follows would not have fitted.
          const next = pages[at + 1]?.[0];
          if (next) expect(height + heightOf(next)).toBeGreaterThan(at === 0 ? 724 : 850);
        });
      }),
    );
  });
});

test("the sign of what is to be worked on points at one note, in its own line", () => {
  const groove = grooveById("samba");
  if (!groove) throw new Error("The catalogue has no samba.");
  const lines = linesOfGroove(groove, { repeated: true, marked: 0 });
  const signs = lines.flatMap(({ sign, top, height }) => (sign ? [{ sign, top, height }] : []));
  expect(signs).toHaveLength(1);
  for (const { sign, top, height } of signs) {
    expect(sign.y).toBeGreaterThan(top);
    expect(sign.y).toBeLessThan(top + height);
  }
});
