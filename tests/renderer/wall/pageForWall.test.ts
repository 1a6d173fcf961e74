import { expect, test } from "vitest";
import { demonstrate, grooveById } from "../../../engine/catalogue/index.ts";
import { type Hit, VOICES } from "../../../engine/kit/index.ts";
import { judgeTake, NEW_ROUND, type Round } from "../../../engine/rounds/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { type BookNow, pageForWall } from "../../../renderer/wall/pageForWall.ts";
import { wallMessageSchema } from "../../../renderer/wall/wallPage.ts";

const groove = grooveById("shuffle");
if (!groove) throw new Error("There is no shuffle in the catalogue.");
const hits: readonly Hit[] = demonstrate(groove, {
  tempoBpm: 112,
  bars: 8,
  leanMs: 0,
  spreadMs: 6,
  leftOut: 0,
  added: 0,
  chance: seededChance(3),
}).map(({ time, voice, velocity }) => ({ time, voice, velocity, zone: "whole", pad: VOICES.indexOf(voice) }));
const judgement = { ...judgeTake({ hits, styleId: "shuffle", click: null }) };
const asked = { ...NEW_ROUND.asked, styleId: "shuffle" };

function book(at: Round["at"], now: Partial<BookNow> = {}): BookNow {
  return {
    screen: "call-a-style",
    kit: { state: "not-asked" },
    lastHit: undefined,
    round: { asked, at },
    hits: [],
    setUpGiveOrTakeMs: null,
    ...now,
  };
}

const playing = {
  stage: "playing",
  click: null,
  hearing: judgement.hearing,
  trouble: null,
} as const;

test.each<[string, BookNow]>([
  ["the kit", book({ stage: "before" }, { screen: "kit" })],
  ["before", book({ stage: "before" })],
  ["playing", book(playing, { hits })],
  ["judging", book({ stage: "judging", hits, isAgainAsked: false })],
  ["judging, again asked for", book({ stage: "judging", hits, isAgainAsked: true })],
  ["after", book({ stage: "after", hits, judgement })],
  ["failed", book({ stage: "failed", reason: "lost" })],
])("the page %s passes the check at the other window", (_, now) => {
  const message = { kind: "page", timeOriginMs: 1, ...pageForWall(now) };
  expect(wallMessageSchema.parse(structuredClone(message))).toEqual(message);
});

test("a groove of the Shelf is sent along as it is written, a style by its id", () => {
  const mill = { ...groove, id: "own/mill", name: "Mill wheel" };
  const called = { ...asked, styleId: mill.id, shelfGroove: mill };
  const { title, ring } = pageForWall({
    ...book({ stage: "before" }),
    round: { asked: called, at: { stage: "before" } },
  });
  expect(title).toBe("Mill wheel");
  expect(parseGrid(ring?.shelfGrid ?? "")).toEqual(mill);
  expect(pageForWall(book({ stage: "before" })).ring).toMatchObject({ grooveId: "shuffle" });
  expect(pageForWall(book({ stage: "before" })).ring).not.toHaveProperty("shelfGrid");
});

test("while playing the wall has a hand and the latest strokes, and judges none", () => {
  const { ring, says } = pageForWall(book(playing, { hits }));
  expect(ring?.turn?.beats).toBe(4);
  expect(ring?.played.length).toBeGreaterThan(20);
  expect(ring?.played.some(({ differs }) => differs)).toBe(false);
  expect(says[0]).toMatch(/^Shuffle\. I am /);
});

test("a bar that is counted in is counted on the wall, too", () => {
  const click = { tempoBpm: 120, from: 9 };
  const counted = { ...asked, click: true, countIn: true };
  const now = (round: Round) => pageForWall({ ...book(playing), round }).countIn;
  const at = { ...playing, click };
  expect(now({ asked: counted, at })).toEqual({ until: 9, beatSeconds: 0.5, beats: 4 });
  expect(now({ asked: { ...counted, countIn: false }, at })).toBeNull();
  expect(now({ asked: counted, at: { stage: "before" } })).toBeNull();
});

test("after the take the wall says what the sheet says", () => {
  const page = pageForWall(book({ stage: "after", hits, judgement }));
  expect(page.title).toBe("Shuffle, as called");
  expect(page.says).toHaveLength(2);
  expect(page.ring?.grooveId).toBe("shuffle");
});

test("a lean that the set-up's own delay may make is told so, as on the sheet", () => {
  const late = hits.map((hit) => ({ ...hit, time: hit.time + 0.018 }));
  const click = { tempoBpm: 112, from: 0 };
  const judged = judgeTake({ hits: late, styleId: "shuffle", click });
  const says = (setUpGiveOrTakeMs: number | null) =>
    pageForWall(book({ stage: "after", hits: late, judgement: judged }, { setUpGiveOrTakeMs })).says[0];
  expect(says(null)).toContain("behind");
  expect(says(30)).toBe("With the click as a whole, as far as this set-up can tell; steadily.");
});

test("what is none of the known grooves is shown as it was played, with the two nearest", () => {
  if (judgement.hearing.kind !== "heard") throw new Error("The shuffle was not heard.");
  const none = { ...judgement, compared: null, hearing: { ...judgement.hearing, known: false } };
  const { title, says, ring } = pageForWall(book({ stage: "after", hits, judgement: none }));
  expect(title).toBe("None I know");
  expect(says[0]).toMatch(/^Nearest: [^,]+, [^,]+\.$/);
  expect(ring?.played.length).toBeGreaterThan(50);
});

test("a take that met nothing of what was called is shown as it was played, and not measured", () => {
  const { compared } = judgement;
  if (!compared) throw new Error("The shuffle was not compared.");
  const report = { ...compared.report, workOn: { kind: "no-match" } as const };
  const none = { ...judgement, compared: { ...compared, report } };
  const { says, ring } = pageForWall(book({ stage: "after", hits, judgement: none }));
  expect(says[0]).toContain("This was something else than what is written.");
  expect(says.join(" ")).not.toContain("pulse");
  expect(ring?.grooveId).toBeNull();
});

test("where another style was played the wall tells what was called, and lays the strokes over it", () => {
  const swingCalled = { ...asked, styleId: "swing" };
  const judged = judgeTake({ hits, styleId: "swing", click: null });
  const at = { stage: "after", hits, judgement: judged } as const;
  const page = pageForWall({ ...book(at), round: { asked: swingCalled, at } });
  expect(page.title).toBe("Shuffle");
  expect(page.sub).toBe("Swing was called.");
  expect(page.says).toEqual([expect.stringMatching(/^Swing asks for this: /)]);
  expect(page.ring?.grooveId).toBe("swing");
  expect(page.ring?.played.some(({ differs }) => differs)).toBe(false);
});

test("the kit page shows the voice that was struck last", () => {
  const [lastHit] = hits;
  const page = pageForWall(book({ stage: "before" }, { screen: "kit", lastHit }));
  expect(page.struck?.voice).toBe(lastHit?.voice);
});

test("an unplugged kit is said on the wall, with what is kept", () => {
  const kit = { state: "unplugged", input: { id: "1", name: "kit" }, inputs: [] } as const;
  expect(pageForWall(book(playing, { kit, hits })).says.join(" ")).toContain(
    "What you played so far is kept.",
  );
});

test("a message that is none of ours is refused", () => {
  expect(wallMessageSchema.safeParse({ kind: "page", title: 3 }).success).toBe(false);
});
