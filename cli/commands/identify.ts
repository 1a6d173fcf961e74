import { STYLES } from "../../engine/catalogue/index.ts";
import { catalogueStock, certaintyWords, type Heard } from "../../engine/listening/index.ts";
import { metreName } from "../../engine/score/index.ts";
import { hearTake, rounded } from "../heard.ts";
import { readMap } from "../maps.ts";
import type { Outlet } from "../outlet.ts";
import { readShelf } from "../shelf.ts";
import { forEachTake } from "../takes.ts";
import { needTakes, readArguments, readTempo } from "../usage.ts";

/** `identify`: which groove each take is. */
export async function identifyCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    shelf: { type: "string" },
    click: { type: "string" },
    map: { type: "string" },
    json: { type: "boolean", default: false },
  });
  const takes = needTakes(positionals);
  const map = readMap(values.map);
  const clickBpm = readTempo("--click", values.click);
  const { stock, complete } =
    values.shelf === undefined
      ? { stock: catalogueStock(STYLES), complete: true }
      : await readShelf(values.shelf, map, outlet);
  const allDone = await forEachTake(takes, { map, json: values.json, outlet }, (take) => {
    const hearing = hearTake(take, stock, clickBpm);
    return { json: asJson(hearing), text: asText(hearing) };
  });
  return allDone && complete;
}

function asJson(hearing: Heard): object {
  return {
    known: hearing.known,
    candidates: hearing.candidates.map(({ id, name, confidence }) => ({
      id,
      name,
      confidence: rounded(confidence),
    })),
    tempo: rounded(hearing.pulse.tempoBpm),
    metre: metreName(hearing.pulse.metre),
    downbeat: rounded(hearing.pulse.downbeats[0] ?? hearing.span.from),
  };
}

function asText(hearing: Heard): string {
  const [best, ...others] = hearing.candidates;
  const name =
    hearing.known && best ? `${best.name}: I am ${certaintyWords(best.confidence)}.` : "None I know.";
  const nearest = (hearing.known ? others : hearing.candidates)
    .slice(0, 2)
    .map((candidate) => candidate.name);
  return [
    `  ${name}`,
    `  ${Math.round(hearing.pulse.tempoBpm)} a minute, ${metreName(hearing.pulse.metre)}, about ${hearing.span.bars} bars.`,
    ...(nearest.length > 0 ? [`  Nearest after that: ${nearest.join(", ")}.`] : []),
  ].join("\n");
}
