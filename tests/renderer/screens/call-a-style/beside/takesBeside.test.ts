import { describe, expect, test } from "vitest";
import { NEW_ROUND, roundAfter } from "../../../../../engine/rounds/index.ts";
import {
  nextBeside,
  takeInShort,
  takesBeside,
} from "../../../../../renderer/screens/call-a-style/beside/takesBeside.ts";
import { type PlayedTake, sittingOf } from "./sitting.ts";

const shuffle: PlayedTake = { styleId: "shuffle", grooveId: "shuffle" };
const samba: PlayedTake = { styleId: "samba", grooveId: "samba", tempoBpm: 100 };
const freeShuffle: PlayedTake = { styleId: null, grooveId: "shuffle" };

describe("what can be laid beside a take", () => {
  const numbersBeside = (...takes: readonly PlayedTake[]): readonly number[] | undefined =>
    takesBeside(sittingOf(...takes))?.others.map(({ number }) => number);

  test("earlier takes of the same style, the latest first", () => {
    expect(numbersBeside(shuffle, samba, shuffle, shuffle)).toEqual([3, 1]);
  });

  test("the same groove in a free choice", () => {
    expect(numbersBeside(shuffle, freeShuffle)).toEqual([1]);
  });

  test("nothing after a first take, or after takes of other styles", () => {
    expect(numbersBeside(shuffle)).toBeUndefined();
    expect(numbersBeside(shuffle, samba)).toBeUndefined();
  });

  test("no take in which surely another style was played than the one called", () => {
    const another: PlayedTake = { styleId: "bossa-nova", grooveId: "samba", tempoBpm: 100 };
    expect(numbersBeside(another, another)).toBeUndefined();
    expect(numbersBeside(samba, another)).toBeUndefined();
  });

  test("nothing while a take is played, and nothing in a sitting without takes", () => {
    const playing = roundAfter(sittingOf(shuffle, shuffle), { kind: "started", click: null });
    expect(takesBeside(playing)).toBeUndefined();
    expect(takesBeside(NEW_ROUND)).toBeUndefined();
  });
});

describe("which take is chosen", () => {
  const sitting = sittingOf(shuffle, { ...shuffle, seed: 7 }, { ...shuffle, seed: 9, clicked: true });
  const chosenWith = (beside: "before" | "none" | number) =>
    takesBeside(roundAfter(sitting, { kind: "laid-beside", beside }));

  test("the one before, another by its number, or none", () => {
    expect(takesBeside(sitting)?.chosen?.number).toBe(2);
    expect(chosenWith(1)?.chosen?.number).toBe(1);
    expect(chosenWith("none")?.chosen).toBeUndefined();
    expect(chosenWith(17)?.chosen).toBeUndefined();
  });

  test("one key goes through all of them and round again", () => {
    const seen = ["before", 1, "none"].map((beside) => {
      const takes = chosenWith(beside as "before" | "none" | number);
      return takes && nextBeside(takes);
    });
    expect(seen).toEqual([1, "none", 2]);
  });

  test("a take in a list says its tempo, its length, and whether there was a click", () => {
    const takes = takesBeside(sitting);
    expect(takes?.now && takeInShort(takes.now)).toMatch(
      /^take 3: 104 a minute, eight bars, with the click$/,
    );
    expect(takes?.others.map(takeInShort)[0]).toMatch(/^take 2: 10[345] a minute, eight bars, no click$/);
  });
});
