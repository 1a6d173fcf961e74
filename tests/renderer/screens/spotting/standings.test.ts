import { expect, test } from "vitest";
import { Standings } from "../../../../renderer/screens/spotting/standings.ts";

const SAMBA = { kind: "groove", id: "samba", name: "Samba" } as const;

test("what each has met is read once in a round, and anew in the next", async () => {
  const read: (string | null)[] = [];
  const standings = new Standings(
    async (student) => {
      read.push(student);
      return () => (student === "bram" ? null : 0.4);
    },
    () => {},
  );
  const [ottilie, bram] = await standings.of(["ottilie", "bram"]);
  expect([ottilie?.(SAMBA), bram?.(SAMBA)]).toEqual([0.4, null]);
  await standings.of(["bram", null]);
  expect(read).toEqual(["ottilie", "bram", null]);
  standings.forget();
  await standings.of(["bram"]);
  expect(read).toEqual(["ottilie", "bram", null, "bram"]);
});

test("what cannot be read is told, counts as never met, and is tried again", async () => {
  const troubles: (string | null)[] = [];
  let isFull = true;
  const standings = new Standings(
    async () => {
      if (isFull) throw new Error("The disk is full.");
      return () => 0.2;
    },
    (sentence) => troubles.push(sentence),
  );
  const [unread] = await standings.of(["bram"]);
  expect(unread?.(SAMBA)).toBeNull();
  isFull = false;
  const [now] = await standings.of(["bram"]);
  expect(now?.(SAMBA)).toBe(0.2);
  expect(troubles).toEqual([expect.stringContaining("The disk is full."), null]);
});
