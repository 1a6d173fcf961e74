import { expect, test } from "vitest";
import { STYLES } from "../../../../engine/catalogue/index.ts";
import { isFound } from "../../../../renderer/screens/call-a-style/findStyles.ts";

const namesFound = (typed: string) => STYLES.map(({ name }) => name).filter((name) => isFound(name, typed));

test.each([
  ["baiao", ["Baião"]],
  ["BAIÃO", ["Baião"]],
  ["cascara", ["Mambo with cáscara"]],
  ["chacha", ["Cha-cha"]],
  ["cha cha", ["Cha-cha"]],
  ["cha", ["Chacarera", "Cha-cha"]],
  ["two-step", ["Drum-and-bass two-step"]],
  ["half time", ["Half-time", "Trap half-time", "Half-time shuffle"]],
  ["shuffle half", ["Half-time shuffle"]],
  ["  reggae ", ["Samba reggae", "Reggaeton"]],
  ["nothing", []],
])("%j finds %j", (typed, names) => {
  expect(namesFound(typed)).toEqual(names);
});

test("nothing typed finds every style, and every style is found by its own name", () => {
  expect(namesFound("").length).toBe(STYLES.length);
  for (const { name } of STYLES) expect(namesFound(name)).toContain(name);
});
