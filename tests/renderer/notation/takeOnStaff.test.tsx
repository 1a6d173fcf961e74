import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { demonstrate, grooveById, STYLES } from "../../../engine/catalogue/index.ts";
import { gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { catalogueStock, type Heard, hear } from "../../../engine/listening/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { HeardStaff, WrittenOverHeard } from "../../../renderer/notation/index.ts";

const groove = grooveById("bossa-nova");
if (!groove) throw new Error("The catalogue has no bossa nova.");
const how = { tempoBpm: 128, bars: 8, leanMs: 0, spreadMs: 6, leftOut: 0, added: 0, chance: seededChance(5) };
const hits: readonly Hit[] = demonstrate(groove, how).map(({ time, voice, velocity }) => ({
  time,
  voice,
  velocity,
  zone: "whole",
  pad: 38,
}));

function heard(): Heard {
  const hearing = hear(hits, catalogueStock(STYLES));
  if (hearing.kind !== "heard") throw new Error("The take was not heard.");
  return hearing;
}

describe("a take compared with its groove", () => {
  const report = gradeTake(hits, grooveTarget(groove, how), { start: "shared" });
  const markup = renderToStaticMarkup(<WrittenOverHeard report={report} groove={groove} />);

  test("shows one round of the groove, and the way to the next", () => {
    expect(markup).toContain("Bars 1 to 2 of 8");
    expect(markup).toMatch(
      /<button[^>]*disabled[^>]*aria-label="The bars before"|aria-label="The bars before"[^>]*disabled/,
    );
    expect(markup).toContain('aria-label="The bars after"');
  });

  test("says that nothing differs, where nothing does", () => {
    expect(markup).toContain("As written, every stroke.");
  });

  test("opens where most differs", () => {
    const without = hits.filter(({ voice, time }) => voice !== "cross-stick" || time < 8 || time > 10);
    expect(without.length).toBeLessThan(hits.length);
    const worse = gradeTake(without, grooveTarget(groove, how), { start: "shared" });
    const opened = renderToStaticMarkup(<WrittenOverHeard report={worse} groove={groove} />);
    expect(opened).toContain("where most differs");
    expect(opened).toContain("left out");
  });

  test("is not there when nothing met", () => {
    const none = gradeTake([], grooveTarget(groove, how), { start: "shared" });
    expect(renderToStaticMarkup(<WrittenOverHeard report={none} groove={groove} />)).toBe("");
  });
});

test("a take compared with nothing is written four bars at a time", () => {
  const markup = renderToStaticMarkup(<HeardStaff hits={hits} hearing={heard()} />);
  expect(markup).toMatch(/Bars 1 to 4 of [89]/);
});
