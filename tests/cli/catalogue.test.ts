import { expect, test } from "vitest";
import { grooveById, STYLES } from "../../engine/catalogue/index.ts";
import { run, runJson } from "./program.ts";

test("every style of the stock, in its order, one line each", () => {
  const { code, stderr, objects } = runJson(["catalogue"]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(objects).toEqual(
    STYLES.map(({ id, name, itself, source, variants }) => ({
      id,
      kind: "style",
      name,
      metre: expect.stringMatching(/^\d+\/\d+$/),
      feel: expect.stringMatching(/^(straight|swung)$/),
      tempoBpm: grooveById(id)?.tempoBpm,
      variants: variants.map((groove) => groove.id),
      itself,
      source,
    })),
  );
  expect(runJson(["catalogue", "--kind", "style"]).objects).toEqual(objects);
});

test.each(["fill", "rudiment"])(
  "of a kind that is not built yet nothing is listed, and it says so: %s",
  (kind) => {
    const listed = runJson(["catalogue", "--kind", kind]);
    expect(listed.code).toBe(0);
    expect(listed.objects.length > 0 || listed.stderr === `The catalogue holds no ${kind} yet.\n`).toBe(true);
  },
);

test("as text: the id, the name, and what makes it itself", () => {
  const { code, lines } = run(["catalogue"]);
  expect(code).toBe(0);
  expect(lines.length).toBe(STYLES.length);
  STYLES.forEach(({ id, name, itself }, index) => {
    expect(lines[index]?.split(/\s{2,}/)[0]?.split(" ")[0]).toBe(id);
    expect(lines[index]).toContain(`${name}. ${itself}`);
  });
});
