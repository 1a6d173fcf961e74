import { expect, test } from "vitest";
import { gradeTake, grooveTarget, hiHatWords } from "../../../engine/grading/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { FUNK, played, strike } from "./takes.ts";

const target = grooveTarget(FUNK, { tempoBpm: 96, bars: 4 });
const shared = { start: "shared" } as const;

test("open where written open, by key and pedal: nothing to say", () => {
  const { hiHat } = gradeTake(played(target), target, shared);
  expect(hiHat).toMatchObject({ open: 2, openAsClosed: 0, closedAsOpen: 0, where: [], opennessOpen: null });
  expect(hiHat && hiHatWords(hiHat)).toBeNull();
});

test("open strokes on the closed key, and where", () => {
  const hits = played(target).map((hit) =>
    hit.voice === "hi-hat-open" ? strike(hit.time, "hi-hat-closed", hit.velocity) : hit,
  );
  const { hiHat } = gradeTake(hits, target, shared);
  expect(hiHat).toMatchObject({ openAsClosed: 2, closedAsOpen: 0 });
  expect(hiHat?.where.map(({ bar, beat, was }) => [bar, beat, was])).toEqual([
    [2, 4, "open-as-closed"],
    [4, 4, "open-as-closed"],
  ]);
  expect(hiHat && hiHatWords(hiHat)).toBe("Hi-hat: 2 of 2 open strokes sounded closed.");
});

test("one key for both: the pedal tells, and between its ends the key is believed", () => {
  const withPedal = (open: number, closed: number) =>
    played(target).map((hit) => ({
      ...hit,
      ...(hit.voice.startsWith("hi-hat") ? { openness: hit.voice === "hi-hat-open" ? open : closed } : {}),
    }));
  const shut = gradeTake(withPedal(0.05, 0), target, shared);
  expect(shut.hiHat).toMatchObject({ openAsClosed: 2, opennessOpen: 0.05, opennessClosed: 0 });
  expect(gradeTake(withPedal(0.4, 0.4), target, shared).hiHat).toMatchObject({
    openAsClosed: 0,
    closedAsOpen: 0,
  });
  const loose = gradeTake(withPedal(0.9, 0.9), target, shared);
  expect(loose.hiHat).toMatchObject({ openAsClosed: 0, closedAsOpen: loose.hiHat?.closed });
  expect(loose.workOn).toMatchObject({ kind: "hi-hat", was: "closed-as-open" });
});

test("the foot is counted by itself, and where no hi-hat is written there is nothing to tell", () => {
  const jazz = grooveTarget(
    parseGrid(
      "groove: j\nname: Jazz\nmetre: 4/4\nfeel: straight\ntempo: 60-300\n\nride | xxxx |\nhi-hat-pedal | .x.x |",
    ),
    { tempoBpm: 120, bars: 4 },
  );
  const footless = played(jazz, ({ time, voice, beat }) =>
    voice === "hi-hat-pedal" && beat < 8 ? undefined : time,
  );
  expect(gradeTake(footless, jazz, shared).hiHat).toMatchObject({
    pedal: 8,
    pedalMissing: 4,
    open: 0,
    closed: 0,
  });
  const ride = grooveTarget(
    parseGrid("groove: r\nname: Ride\nmetre: 4/4\nfeel: straight\ntempo: 60-300\n\nride | xxxx |"),
    { tempoBpm: 120, bars: 4 },
  );
  expect(gradeTake(played(ride), ride, shared).hiHat).toBeNull();
});
