import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { demonstrate, grooveById, STYLES } from "../../../engine/catalogue/index.ts";
import { gradeTake, grooveTarget, leanWords, type Report } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { catalogueStock, type Heard, type Hearing, hear } from "../../../engine/listening/index.ts";
import type { Groove } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import {
  chanceWords,
  headingWords,
  isAnother,
  sublineWords,
} from "../../../renderer/screens/call-a-style/report/headingWords.ts";
import { ReportMargin, ReportSheet } from "../../../renderer/screens/call-a-style/report/index.ts";
import { leanFigure } from "../../../renderer/screens/call-a-style/report/leanFigure.ts";

const TEMPO_BPM = 104;
const BARS = 12;

function shuffle(): Groove {
  const groove = grooveById("shuffle");
  if (!groove) throw new Error("The catalogue has no shuffle.");
  return groove;
}

/** A shuffle 20 ms behind, as a kit would report it. */
function take(from = 0): readonly Hit[] {
  const how = {
    tempoBpm: TEMPO_BPM,
    bars: BARS,
    leanMs: 20,
    spreadMs: 8,
    leftOut: 0,
    added: 0,
    chance: seededChance(11),
  };
  return demonstrate(shuffle(), how).map(({ time, voice, velocity }) => ({
    time: time + from,
    voice,
    velocity,
    zone: "whole",
    pad: 38,
  }));
}

function graded(start: "shared" | "free", from = 0): Report {
  return gradeTake(take(from), grooveTarget(shuffle(), { tempoBpm: TEMPO_BPM, bars: BARS }), { start });
}

function heardTake(): Heard {
  const hearing = hear(take(), catalogueStock(STYLES));
  if (hearing.kind !== "heard") throw new Error("Nothing was heard in the take.");
  return hearing;
}

/** What a reader reads: the text without the marks. */
function textOf(markup: string): string {
  return markup
    .replace(/<[^>]*>/g, " ")
    .replace(/\s+/g, " ")
    .trim();
}

describe("a shuffle, called, with the click", () => {
  const hearing = heardTake();
  const report = graded("shared");
  const sheet = renderToStaticMarkup(
    <ReportSheet report={report} hearing={hearing} groove={shuffle()} calledName="Shuffle" click={true} />,
  );

  test("heading and line say what, how sure, how fast, how long, with what", () => {
    expect(sheet).toContain("<h1>Shuffle, as called</h1>");
    expect(textOf(sheet)).toMatch(/I am (nearly )?sure · 104 a minute · twelve bars · with the click/);
  });

  test("the sentence of lean, the ring and both tables are there", () => {
    expect(textOf(sheet)).toContain("A little behind as a whole, steadily: that is feel.");
    expect(sheet).toContain(
      'aria-label="Bar ring of Shuffle, twelve bars laid over one another; the ring is one bar"',
    );
    expect(textOf(sheet)).toContain("ride, 96 96 · none · none · none · none");
    expect(textOf(sheet)).toContain("Every stroke is where it is written, and nothing was added.");
    expect(textOf(sheet)).toMatch(/snare as written 24 of 24 stand out none written \d+ to \d+/);
    expect(textOf(sheet)).toMatch(/beat 4 \d+\.\d ms behind \d+\.\d ms 48 inside the band/);
    expect(textOf(sheet)).toMatch(/bar 12 \d+\.\d ms behind \d+\.\d ms/);
  });

  test("every written place has its played mean and an arc of one spread on the ring", () => {
    const ring = /<svg[^>]*role="img".*?<\/svg>/s.exec(sheet)?.[0] ?? "";
    const beatLines = 4;
    const places = shuffle().notes.length;
    expect(ring.match(/<line /g)).toHaveLength(beatLines + places);
    expect(ring.match(/<path class="[^"]*"/g)).toHaveLength(places);
  });

  test("the margin tells why, the figures, and what else it might be", () => {
    const margin = textOf(
      renderToStaticMarkup(<ReportMargin report={report} hearing={hearing} calledName="Shuffle" />),
    );
    const second = hearing.candidates[1]?.name.toLowerCase();
    expect(margin).toContain(`Why shuffle Shuffle rather than ${second}: `);
    expect(margin).toMatch(/Lean (19|20|21) ms behind Spread [789] ms Long to short (1\.9|2\.0|2\.1) : 1/);
    expect(margin).toContain("Else it might be");
    // Nothing of the kind is written in this groove.
    expect(margin).not.toContain("Flams");
  });
});

describe("a take that came in freely", () => {
  const report = graded("free", 5.3);

  test("is not praised for a lean that is nought by construction", () => {
    expect(Math.abs(report.leanMs ?? Number.NaN)).toBeLessThan(1);
    expect(leanWords(report, "steady")).toBe("Steady against its own pulse.");
    expect(leanFigure(report)).toBe("not told without a click");
  });

  test("is told when it is not steady", () => {
    expect(leanWords({ ...report, spreadMs: 24 }, "steady")).toBe("Not yet steady against its own pulse.");
    expect(leanWords({ ...report, spreadMs: 24 }, "second-year")).toBe("Steady against its own pulse.");
  });
});

test.each([
  [9, "9 ms behind, in the pocket"],
  [-25, "25 ms ahead"],
  [null, "too few strokes"],
])("with a shared clock a lean of %s at 104 a minute: %s", (leanMs, words) => {
  const start = { time: 0, stretch: 1 };
  expect(leanFigure({ leanMs, tempoBpm: TEMPO_BPM, start })).toBe(words);
});

describe("headings", () => {
  const hearing = heardTake();
  const surest = hearing.candidates[0];
  const sure = (confidence: number): Hearing => ({
    ...hearing,
    candidates: surest ? [{ ...surest, confidence }] : [],
  });
  const none: Hearing = { ...hearing, known: false, noneConfidence: 0.75 };

  test.each([
    [sure(0.95), undefined, "Shuffle"],
    [sure(0.6), undefined, "Shuffle, I think"],
    [sure(0.6), "Shuffle", "Shuffle, as called"],
    [sure(0.95), "Bossa nova", "Shuffle, where bossa nova was called"],
    [none, "Shuffle", "None I know"],
    [{ kind: "nothing", reason: "no-hits" } as const, "Shuffle", "Nothing heard"],
    [{ kind: "nothing", reason: "too-few-hits" } as const, undefined, "Too little to tell"],
  ])("%#", (heard, called, heading) => {
    expect(headingWords(heard, called)).toBe(heading);
  });

  test("none I know says how sure of that, and what was called", () => {
    expect(sublineWords(none, { click: false, calledName: "Shuffle" })).toBe(
      "I am fairly sure · shuffle was called · 104 a minute · twelve bars · no click",
    );
  });

  test("without anything to compare with, the strikes are shown and nothing is judged", () => {
    const hits = take();
    const sheet = renderToStaticMarkup(
      <ReportSheet
        report={undefined}
        hearing={none}
        groove={undefined}
        calledName={undefined}
        click={false}
        hits={hits}
      />,
    );
    expect(textOf(sheet)).toContain("It is none of the grooves I know");
    expect(sheet).not.toContain("<table");
    const ring = /<svg[^>]*role="img".*?<\/svg>/s.exec(sheet)?.[0] ?? "";
    expect(ring.match(/<line /g)).toHaveLength(4 + hits.length);
  });
});

test("a take that met nothing of what is written is not measured against it", () => {
  const report: Report = { ...graded("free", 5.3), workOn: { kind: "no-match" } };
  const hearing = { ...heardTake(), known: false };
  const sheet = renderToStaticMarkup(
    <ReportSheet
      report={report}
      hearing={hearing}
      groove={shuffle()}
      calledName="Merengue"
      click={false}
      hits={take()}
    />,
  );
  expect(textOf(sheet)).toContain("This was something else than what is written.");
  expect(sheet).not.toContain("<table");
  expect(textOf(sheet)).not.toContain("steady against its own pulse");
  const margin = <ReportMargin report={report} hearing={hearing} calledName="Shuffle" />;
  expect(textOf(renderToStaticMarkup(margin))).not.toContain("Spread");
});

describe("a shuffle where another style was called", () => {
  const hearing = heardTake();
  const report = graded("free", 5.3);
  const sheet = (calledName: string): string =>
    textOf(
      renderToStaticMarkup(
        <ReportSheet
          report={report}
          hearing={hearing}
          groove={grooveById("swing")}
          calledName={calledName}
          click={false}
          hits={take()}
        />,
      ),
    );

  test("is not measured by what it never meant to be: what was called is told instead", () => {
    expect(sheet("Swing")).toContain("Shuffle, where swing was called");
    expect(sheet("Swing")).toMatch(/Swing asks for this: [a-z]/);
    expect(sheet("Swing")).not.toContain("own pulse");
    expect(sheet("Swing")).not.toContain("left out");
  });

  test("is told apart from what was called", () => {
    const margin = (calledName: string): string =>
      textOf(
        renderToStaticMarkup(<ReportMargin report={report} hearing={hearing} calledName={calledName} />),
      );
    expect(margin("Bossa nova")).toContain("Why shuffle Shuffle rather than ");
    expect(margin("Bossa nova")).not.toContain("Spread");
  });

  test("is measured while it is only fairly sure that it was another", () => {
    const [best, ...others] = hearing.candidates;
    if (!best) throw new Error("The shuffle was not heard.");
    const unsure = { ...hearing, candidates: [{ ...best, confidence: 0.7 }, ...others] };
    expect(isAnother(hearing, "Swing")).toBe(true);
    expect(isAnother(unsure, "Swing")).toBe(false);
    expect(isAnother(hearing, "Shuffle")).toBe(false);
    expect(isAnother(hearing, undefined)).toBe(false);
  });
});

test.each([
  [0.45, "about one in two"],
  [0.11, "about one in ten"],
  [0.02, "about one in 50"],
  [0.004, "hardly"],
])("a chance of %s: %s", (chance, words) => {
  expect(chanceWords(chance)).toBe(words);
});
