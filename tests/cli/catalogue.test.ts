import { expect, test } from "vitest";
import { FILLS, grooveById, STYLES } from "../../engine/catalogue/index.ts";
import { metreName, startsOnBeat } from "../../engine/score/index.ts";
import { run, runJson } from "./program.ts";

test("every style of the stock, in its order, one line each", () => {
  const { code, stderr, objects } = runJson(["catalogue", "--kind", "style"]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(objects).toEqual(
    STYLES.map(({ id, name, itself, source, variants }) => ({
      id,
      kind: "style",
      name,
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

test("as text: the id, the name, and what makes it itself; of a fill, its length, place and level", () => {
  const { code, lines } = run(["catalogue"]);
  expect(code).toBe(0);
  expect(lines.length).toBe(STYLES.length + FILLS.length);
  STYLES.forEach(({ id, name, itself }, index) => {
    expect(lines[index]?.split(/\s{2,}/)).toEqual([id, `${name}. ${itself}`]);
  });
  expect(lines.map((line) => line.split(/\s{2,}/))).toContainEqual([
    "sixteenths-down-the-toms",
    "Two beats of sixteenths down the toms. 2 beats of 4/4, from beat 3; second year.",
  ]);
});
