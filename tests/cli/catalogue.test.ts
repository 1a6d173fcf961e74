import { expect, test } from "vitest";
import { FAMILIES, FILLS, grooveById, STYLES, stylesOf } from "../../engine/catalogue/index.ts";
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

test("without a kind: the styles, then the fills", () => {
  const { code, stderr, objects } = runJson(["catalogue"]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  const styles = runJson(["catalogue", "--kind", "style"]).objects;
  const fills = runJson(["catalogue", "--kind", "fill"]).objects;
  expect(objects).toEqual([...styles, ...fills]);
});

test("of a kind that is not built yet nothing is listed, and it says so", () => {
  const { code, stdout, stderr } = run(["catalogue", "--kind", "rudiment"]);
  expect({ code, stdout, stderr }).toEqual({
    code: 0,
    stdout: "",
    stderr: "The catalogue holds no rudiment yet.\n",
  });
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
  const fillLines = written.slice(styleLines.length);
  expect(fillLines[0]).toEqual(["Fills"]);
  expect(fillLines.slice(1).map(([id]) => id)).toEqual(FILLS.map(({ id }) => id));
  expect(fillLines).toContainEqual([
    "sixteenths-down-the-toms",
    "Two beats of sixteenths down the toms. 2 beats of 4/4, from beat 3; second year.",
  ]);
});
