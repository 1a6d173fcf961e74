import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { acrossFrom } from "../../../../engine/memory/index.ts";
import { NextTimePage } from "../../../../renderer/out/print/NextTimePage.tsx";
import { CrossedOff } from "../../../../renderer/screens/next-time/CrossedOff.tsx";
import { aheadWords, lessonDayWords } from "../../../../renderer/screens/next-time/listWords.ts";
import { NextTimeView } from "../../../../renderer/screens/next-time/NextTimeScreen.tsx";
import { NextTimeDesk } from "../../../../renderer/screens/next-time/nextTimeDesk.ts";
import { inStudio } from "../../../../renderer/screens/next-time/nextTimePlace.ts";
import { OverTheMonths } from "../../../../renderer/screens/next-time/OverTheMonths.tsx";
import { sheetOfList } from "../../../../renderer/screens/next-time/sheetOfList.ts";
import { StoreError } from "../../../../renderer/store/index.ts";
import { BRAM, BRAMS, emptyStudio, making, NOOR, studioOf } from "./studio.ts";

const noPlay = () => undefined;

function htmlOf(desk: NextTimeDesk): string {
  return renderToStaticMarkup(<NextTimeView desk={desk} state={desk.get()} onPlay={noPlay} />);
}

function textOf(html: string): string {
  return html
    .replace(/<[^>]*>/g, " ")
    .replaceAll("&quot;", '"')
    .replaceAll("&#x27;", "'")
    .replace(/\s+/g, " ");
}

async function opened(): Promise<NextTimeDesk> {
  const desk = new NextTimeDesk(inStudio(await studioOf([BRAM, NOOR], BRAMS)), making());
  await desk.read();
  return desk;
}

test("a list says what, how likely it is gone, and on what evidence", async () => {
  const html = htmlOf(await opened());
  const text = textOf(html);
  expect(text).toContain("Next Time: Bram");
  expect(text).toContain("For Monday, 9 March 2026, in 7 days: 2 to refresh, 1 new.");
  expect(text).toMatch(/Flam Tap , the hands one in three Held once, a week ago; missed once, today\./);
  expect(text).toMatch(/Bossa nova , played one in ten Held twice, last 6 weeks ago\./);
  expect(text).toMatch(/Dotted quarter rest , read new First met today, not held yet\./);
  expect(text.indexOf("Flam Tap")).toBeLessThan(text.indexOf("Bossa nova"));
  expect(html).toMatch(
    /role="option" aria-selected="true" aria-label="Flam Tap, the hands, chance it is gone: one in three/,
  );
});

test("what the teacher did is said in its row, and what was crossed off can be put back", async () => {
  const desk = await opened();
  await desk.move("style:bossa-nova", acrossFrom);
  await desk.crossOff("sticking:flam-tap");
  await desk.addWords("Bring the brushes", "refresh");
  const text = textOf(htmlOf(desk));
  expect(text).toMatch(/Bossa nova , played moved by you/);
  expect(text).toMatch(/Bring the brushes added by you not asked yet/);
  expect(text).toMatch(/Crossed off Flam Tap, the hands Put it back/);
});

test("no figure is a mark: no share of right answers, no rank, no other student beside this one", async () => {
  const text = textOf(htmlOf(await opened()));
  expect(text).not.toMatch(/\d+ ?%|score|points|rank|best|grade/i);
  expect(text).not.toMatch(/Noor(?! )/);
});

describe("where there is no list", () => {
  test("it is being read", () => {
    const desk = new NextTimeDesk(inStudio(emptyStudio()), making());
    expect(textOf(htmlOf(desk))).toContain("Reading what was kept.");
  });

  test("there are no students", async () => {
    const desk = new NextTimeDesk(inStudio(emptyStudio()), making());
    await desk.read();
    expect(textOf(htmlOf(desk))).toContain("There is nobody on the Roster yet.");
  });

  test("nothing has been heard of the student", async () => {
    const desk = new NextTimeDesk(inStudio(await studioOf([NOOR], [])), making());
    await desk.read();
    const text = textOf(htmlOf(desk));
    expect(text).toContain("Nothing has been heard of Noor yet.");
    expect(text).toContain("Nothing is fading by then.");
    expect(text).toContain("Nothing new has come up.");
  });

  test("it could not be read: said, with a way on", async () => {
    const students = () => Promise.reject(new StoreError("The storage of this computer cannot be used."));
    const desk = new NextTimeDesk({ ...inStudio(emptyStudio()), students }, making());
    await desk.read();
    const html = htmlOf(desk);
    expect(textOf(html)).toContain("The list could not be read.");
    expect(html).toMatch(/role="alert"[^>]*><p>The storage of this computer cannot be used\.<\/p>/);
    expect(textOf(html)).toContain("Read it again");
  });
});

test("on paper: what to do, with a box to tick, and no chance", async () => {
  const desk = await opened();
  await desk.addWords("Bring the brushes", "refresh");
  const { open, today } = desk.get();
  if (!open) throw new Error("No list lies open.");
  const sheet = sheetOfList(open, today);
  if (sheet.kind !== "next-time") throw new Error("It is another page.");
  expect(sheet.nickname).toBe("Bram");
  const text = textOf(renderToStaticMarkup(<NextTimePage {...sheet} head={{ name: "Bram", day: "" }} />));
  expect(text).toContain("For Monday, 9 March 2026");
  expect(text).toMatch(
    /Refresh Flam Tap, the hands .* Bossa nova, played .* Bring the brushes .*New Dotted quarter rest, read/,
  );
  expect(text).not.toMatch(/one in|chance/);
});

test("over the months: the item in focus and each skill, months without a lesson too", async () => {
  const { open } = (await opened()).get();
  if (!open) throw new Error("No list lies open.");
  const html = renderToStaticMarkup(
    <OverTheMonths
      results={open.evidence.results}
      item="sticking:flam-tap"
      listed={["style:bossa-nova", "sticking:flam-tap", "own:brushes"]}
      ownNames={open.evidence.ownNames}
    />,
  );
  const text = textOf(html);
  expect(text).toContain("what Jan 2026 Feb 2026 March 2026");
  expect(text).toContain("Flam Tap, the hands not asked 1 held 1 missed");
  expect(text).toContain("playing grooves 4 held not asked 1 held");
  // Small charts: the skills, then the items of the list that have been heard, the one in focus first.
  const figures = [...html.matchAll(/<figure[^>]*aria-label="([^"]*)"/g)].map(([, label]) => label);
  expect(figures).toEqual([
    "playing grooves, lesson after lesson",
    "rudiments, lesson after lesson",
    "reading, lesson after lesson",
    "Flam Tap, the hands, lesson after lesson",
    "Bossa nova, played, lesson after lesson",
  ]);
  expect(text).toContain("Figures of Flam Tap, the hands lesson held missed new");
  expect(
    renderToStaticMarkup(<OverTheMonths results={[]} item={null} listed={[]} ownNames={new Map()} />),
  ).toBe("");
});

test("nothing crossed off, nothing said of it", () => {
  expect(renderToStaticMarkup(<CrossedOff entries={[]} ownNames={new Map()} onPutBack={noPlay} />)).toBe("");
});

test.each([
  ["2026-03-02", "today"],
  ["2026-03-03", "tomorrow"],
  ["2026-03-09", "in 7 days"],
  ["2026-03-01", "yesterday"],
])("a lesson on %s is %s", (day, words) => {
  expect(aheadWords("2026-03-02", day)).toBe(words);
});

test("a day is said with its weekday", () => {
  expect(lessonDayWords("2026-03-08")).toBe("Sunday, 8 March 2026");
});
