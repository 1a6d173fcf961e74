import { describe, expect, test } from "vitest";
import { SIGNS } from "../../../engine/catalogue/index.ts";
import { matchSign } from "../../../engine/recall/index.ts";

describe("a sign by its name", () => {
  test("every name of every sign, in either usage, is that sign's", () => {
    const wrong = SIGNS.flatMap(({ id, names, otherNames }) =>
      [names.us, names.uk, ...otherNames].flatMap((name) => {
        const match = matchSign(name);
        return match.kind === "named" && match.id === id
          ? []
          : [`${name}: ${JSON.stringify(match)}, not ${id}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  test.each([
    ["crotchet", "quarter-note"],
    ["Crochet", "quarter-note"],
    ["quarter", "quarter-note"],
    ["quater note", "quarter-note"],
    ["8th note", "eighth-note"],
    ["quavers rest", "eighth-rest"],
    ["semi quaver", "sixteenth-note"],
    ["demi semi quaver", "thirty-second-note"],
    ["hemidemisemiquaver rest", "sixty-fourth-rest"],
    ["dotted minim", "dotted-half-note"],
    ["doted half note", "dotted-half-note"],
    ["4/4", "metre-four-four"],
    ["six eight", "metre-six-eight"],
    ["pp", "pianissimo"],
    ["p", "piano"],
    ["ff", "fortissimo"],
    ["mezo forte", "mezzo-forte"],
    ["fermatta", "fermata"],
    ["d.s.", "dal-segno"],
    ["triplet", "eighth-triplet"],
    ["quintuplets", "quintuplet"],
    ["bass drum", "place-kick"],
    ["hi hat", "place-hi-hat-closed"],
  ])("%s is %s", (given, id) => {
    expect(matchSign(given)).toEqual({ kind: "named", id });
  });

  test.each(["", "q", "teapot", "quarter pounder", "semitone", "bagpipe", "eleventh note", "dotted dotted"])(
    "%j is none of them",
    (given) => {
      expect(matchSign(given).kind).not.toBe("named");
    },
  );

  test("a rest is not named by its value alone", () => {
    expect(matchSign("rest").kind).not.toBe("named");
  });
});
