import { expect, test } from "vitest";
import {
  FAMILIES,
  FILLS,
  grooveById,
  RUDIMENTS,
  STYLES,
  stickingOf,
  stylesOf,
} from "../../engine/catalogue/index.ts";
import { metreName, startsOnBeat } from "../../engine/score/index.ts";
import { run, runJson } from "./program.ts";

test("every style of the stock, in its order, one line each", () => {
  const { code, stderr, objects } = runJson(["catalogue", "--kind", "style"]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(objects).toEqual(
    STYLES.map(({ id, name, family, itself, source, variants }) => ({
      id,
      kind: "style",
      name,
      family,
      metre: expect.stringMatching(/^\d+\/\d+$/),
      feel: expect.stringMatching(/^(straight|swung)$/),
      tempo: grooveById(id)?.tempoBpm,
      variants: variants.map((groove) => groove.id),
      itself,
      source,
    })),
  );
});

test("every fill of the stock, in its order, one line each", () => {
  const { code, stderr, objects } = runJson(["catalogue", "--kind", "fill"]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(objects).toEqual(
    FILLS.map((fill) => ({
      id: fill.id,
      kind: "fill",
      name: fill.name,
      level: fill.level,
      beats: fill.beats,
      startsOnBeat: startsOnBeat(fill),
      metre: metreName(fill.metre),
      feel: fill.feel.kind,
      tempo: fill.tempoBpm,
      voices: fill.voices,
    })),
  );
});

test("every rudiment, in the order of the sheet, one line each", () => {
  const { code, stderr, objects } = runJson(["catalogue", "--kind", "rudiment"]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(objects).toEqual(
    RUDIMENTS.map((rudiment) => ({
      id: rudiment.id,
      kind: "rudiment",
      number: rudiment.number,
      name: rudiment.name,
      otherNames: rudiment.otherNames,
      family: rudiment.family,
      sticking: stickingOf(rudiment),
      metre: metreName(rudiment.metre),
      tempo: rudiment.tempoBpm,
      strokes: rudiment.strokes.map(({ hand, graces, accent, bounced }) => ({
        beat: expect.any(Number),
        beats: expect.any(Number),
        hand,
        graces,
        accent,
        bounced,
      })),
    })),
  );
  expect(objects[6]).toMatchObject({
    number: 7,
    name: "Five Stroke Roll",
    sticking: "R R L L R / L L R R L",
  });
});

test("without a kind: the styles, then the fills, then the rudiments", () => {
  const { code, stderr, objects } = runJson(["catalogue"]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  const kinds = ["style", "fill", "rudiment"];
  expect(objects).toEqual(kinds.flatMap((kind) => runJson(["catalogue", "--kind", kind]).objects));
});

test("as text, under headings: the id, the name, and what makes it itself; of a fill, its length, place and level", () => {
  const { code, stdout } = run(["catalogue"]);
  expect(code).toBe(0);
  const entryOf = (line: string) => line.split(/\s{2,}/).slice(1);
  const styleLines = FAMILIES.flatMap((family) => [
    [family],
    ...stylesOf(family).map(({ id, name, itself }) => [id, `${name}. ${itself}`]),
    [""],
  ]);
  const written = stdout
    .trimEnd()
    .split("\n")
    .map((line) => (line.startsWith("  ") ? entryOf(line) : [line]));
  expect(written.slice(0, styleLines.length)).toEqual(styleLines);
  const fillLines = written.slice(styleLines.length, styleLines.length + 1 + FILLS.length);
  expect(fillLines[0]).toEqual(["Fills"]);
  expect(fillLines.slice(1).map(([id]) => id)).toEqual(FILLS.map(({ id }) => id));
  expect(fillLines).toContainEqual([
    "sixteenths-down-the-toms",
    "Two beats of sixteenths down the toms. 2 beats of 4/4, from beat 3; second year.",
  ]);
  const rudimentLines = written.slice(styleLines.length + fillLines.length + 1);
  expect(rudimentLines.filter(([name]) => !rudimentIds.has(name ?? ""))).toEqual([
    ["Rolls"],
    [""],
    ["Diddles"],
    [""],
    ["Flams"],
    [""],
    ["Drags"],
  ]);
  expect(rudimentLines).toContainEqual(["flam-tap", "22. Flam Tap. lR R rL L"]);
});

const rudimentIds = new Set(RUDIMENTS.map(({ id }) => id));
