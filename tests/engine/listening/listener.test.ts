import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { catalogueStock, Listener } from "../../../engine/listening/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);

describe("listening while playing", () => {
  test("two bars are enough for a first, right guess", () => {
    const listener = new Listener(stock);
    for (const hit of played(writtenGrooveOf("bossa-nova"), { tempoBpm: 130, bars: 4, spreadMs: 8 })) {
      listener.add(hit);
    }
    const hearing = listener.hearing();
    expect(hearing.kind === "heard" && hearing.candidates[0]?.id).toBe("bossa-nova");
  });

  test("what was played before is forgotten when another groove has gone on for long enough", () => {
    const listener = new Listener(stock);
    for (const hit of played(writtenGrooveOf("rock-eighths"), { tempoBpm: 110, bars: 16 })) listener.add(hit);
    const start = (16 * 4 * 60) / 110;
    for (const hit of played(writtenGrooveOf("merengue"), { tempoBpm: 140, bars: 16 })) {
      listener.add({ ...hit, time: hit.time + start });
    }
    const hearing = listener.hearing();
    expect(hearing.kind === "heard" && hearing.candidates[0]?.id).toBe("merengue");
  });

  test("hears nothing in nothing", () => {
    expect(new Listener(stock).hearing()).toEqual({ kind: "nothing", reason: "no-hits" });
  });
});
