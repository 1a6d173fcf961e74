import { describe, expect, test } from "vitest";
import { grooveById, STYLES } from "../../../../engine/catalogue/index.ts";
import type { WorkOn } from "../../../../engine/grading/index.ts";
import { beatsPerBar, type Groove } from "../../../../engine/score/index.ts";
import { fraction, toNumber } from "../../../../engine/units/index.ts";
import { workNote } from "../../../../renderer/out/print/workMark.ts";

function groove(id: string): Groove {
  const found = grooveById(id);
  if (!found) throw new Error(`The catalogue has no ${id}.`);
  return found;
}

function marked(id: string, workOn: WorkOn, place: Parameters<typeof workNote>[2]) {
  const of = groove(id);
  const at = workNote(of, workOn, place);
  return at === undefined ? undefined : of.notes[at];
}

describe("the note to work on", () => {
  test("of a voice and a beat is that note, in whatever bar it showed", () => {
    const snare = { kind: "beat-wanders", voice: "snare", beat: 4, spreadMs: 31 } as const;
    expect(marked("shuffle", snare, { bar: 7, beat: 4 })).toMatchObject({
      voice: "snare",
      position: fraction(3),
    });
  });

  test("of a voice alone is the one of the beat where it showed", () => {
    const missed = { kind: "left-out", voice: "kick", count: 2, written: 24 } as const;
    expect(marked("shuffle", missed, { bar: 3, beat: 3 })).toMatchObject({
      voice: "kick",
      position: fraction(2),
    });
    expect(marked("shuffle", missed, { bar: 3, beat: 2 })).toBeUndefined();
    expect(marked("shuffle", missed, null)).toBeUndefined();
  });

  test("of a groove of two bars lies in the bar that was played there", () => {
    const bossa = groove("bossa-nova");
    expect(bossa.bars).toBe(2);
    const of = { kind: "left-out", voice: "hi-hat-closed", count: 1, written: 64 } as const;
    expect(marked("bossa-nova", of, { bar: 4, beat: 1 })).toMatchObject({ position: { num: 4 } });
    expect(marked("bossa-nova", of, { bar: 3, beat: 1 })).toMatchObject({ position: { num: 0 } });
  });

  test.each([
    [{ kind: "drift", percent: 2 }],
    [{ kind: "added", voice: "kick", count: 3 }],
    [{ kind: "nothing" }],
  ] as const)("%o is written nowhere", (workOn) => {
    expect(marked("shuffle", workOn, workOn.kind === "nothing" ? null : { bar: 1, beat: 1 })).toBeUndefined();
  });

  test("is one of the groove's, for every style of the catalogue", () => {
    for (const { own } of STYLES) {
      const [first] = own.notes;
      if (!first) throw new Error(`${own.id} has no notes.`);
      const beat = (toNumber(first.position) % beatsPerBar(own.metre)) + 1;
      const at = workNote(own, { kind: "beat-leans", voice: first.voice, beat, leanMs: 40 }, null);
      expect(at).toBe(0);
    }
  });
});
