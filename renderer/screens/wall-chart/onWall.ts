/** The page of the Wall Chart for the wall: the chart while it is looked at, and never while it is being named. */
import { rudimentById, stickingOf } from "../../../engine/catalogue/index.ts";
import { chartName, type Play, type WallChart } from "../../../engine/rounds/index.ts";
import type { RoundOnWall } from "../round/framedRound.ts";
import type { BesideRound } from "./besideRound.ts";
import { pagesOf } from "./chartPages.ts";
import { gainWords, looksTold, lookWords } from "./chartWords.ts";
import { playedWords } from "./playedWords.ts";

const NAME = "Wall Chart";

export function wallChartOnWall({ stage, own }: Play<WallChart>, beside: BesideRound): RoundOnWall {
  const plain = (title: string, says: readonly string[] = []): RoundOnWall => ({
    title,
    sub: NAME,
    says: [...says],
  });
  if (stage === "ready") return plain("The forty rudiments.");
  if (stage === "paused") return plain("Paused.");
  if (stage === "over") return plain("The round is over.");
  switch (own.stage.at) {
    case "before":
      return plain("The forty rudiments.");
    case "looking": {
      const pages = pagesOf(own.stage.look);
      return {
        ...plain(`Look: ${lookWords(beside.leftSeconds)}`),
        sheet: { round: "wall-chart", entries: [...(pages[beside.page] ?? [])], named: [] },
      };
    }
    case "naming": {
      const { named, settings } = own.stage.look;
      const asked = plain(settings.task === "order" ? "Name them in order." : "Name as many as you can.");
      // Those who still have theirs to themselves must not read it off the wall.
      if (own.stage.of.length > 1) return asked;
      return { ...asked, sheet: { round: "wall-chart", entries: [], named: named.map(chartName) } };
    }
    case "told": {
      const told = looksTold(own);
      // Of several nobody's is read out beside the others'.
      return plain("Named.", told.length === 1 ? gainWords(told[0] ?? []) : []);
    }
    case "asked":
      return plain(
        chartName(own.stage.entry),
        own.settings.task === "played" ? ["Play it: slow, fast, slow."] : ["Which hands?"],
      );
    case "answered": {
      const last = own.past.at(-1);
      const rudiment = last?.kind === "sticking" ? rudimentById(last.asked.entry) : undefined;
      if (!rudiment) return plain(NAME);
      const [played, more] = beside.reports;
      const [hands] = played && !more ? playedWords(played.report) : [stickingOf(rudiment)];
      return {
        ...plain(rudiment.name, hands === undefined ? [] : [hands]),
        sheet: { round: "wall-chart", entries: [rudiment.id], named: [] },
      };
    }
  }
}
