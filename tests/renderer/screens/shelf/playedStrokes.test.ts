import { expect, test } from "vitest";
import { readBody } from "../../../../engine/catalogue/index.ts";
import { playedStrokes } from "../../../../renderer/screens/shelf/playedStrokes.ts";

const heads = { id: "a", name: "A" };
const groove = readBody("groove", "metre: 4/4\ntempo: 60-60\nkick | x... |\nsnare | ..X. |", heads);

test("a groove sounds once at its usual tempo, or slower, and comes round after its bars", () => {
  expect(playedStrokes(groove, 1)).toEqual({
    seconds: 4,
    strokes: [
      { time: 0, voice: "kick", velocity: 0.63 },
      { time: 2, voice: "snare", velocity: 0.9 },
    ],
  });
  expect(playedStrokes(groove, 0.5)).toMatchObject({ seconds: 8, strokes: [{ time: 0 }, { time: 4 }] });
});

test("a part sounds section after section, each at its own tempo", () => {
  const part = readBody(
    "part",
    "section: A\ntempo: 60\nplay: one, 1 bar\nsection: B\ntempo: 120\ntimes: 2\nplay: one, 1 bar\ngroove: one\nname: One\nmetre: 4/4\ntempo: 60-60\nkick | x.x. |",
    heads,
  );
  const { strokes, seconds } = playedStrokes(part, 1);
  expect(strokes.map(({ time }) => time)).toEqual([0, 2, 4, 5, 6, 7]);
  expect(seconds).toBe(8);
});
