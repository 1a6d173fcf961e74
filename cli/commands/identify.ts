import { STYLES } from "../../engine/catalogue/index.ts";
import type { KitMap } from "../../engine/kit/index.ts";
import { catalogueStock, certaintyWords, type Heard, whyWords } from "../../engine/listening/index.ts";
import { metreName } from "../../engine/score/index.ts";
import { hearAlong } from "../hearAlong.ts";
import { hearTake } from "../heard.ts";
import { heardJson } from "../hearingJson.ts";
import { standardLines } from "../inlet.ts";
import { readMap } from "../maps.ts";
import type { Outlet } from "../outlet.ts";
import { type ReadStock, readOwnTakes, readShelf } from "../shelf.ts";
import { forEachTake } from "../takes.ts";
import { needTakes, readArguments, readTempo } from "../usage.ts";
import { UsageError } from "../usageError.ts";

/** `identify`: which groove each take is, or with `--stream` what is being played while it is played. */
export async function identifyCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    shelf: { type: "string" },
    own: { type: "string" },
    click: { type: "string" },
    map: { type: "string" },
    json: { type: "boolean", default: false },
    stream: { type: "boolean", default: false },
  });
  if (values.stream && positionals.length > 0)
    throw new UsageError("--stream reads hits from standard input: name no takes with it.");
  if (values.stream && values.click !== undefined)
    throw new UsageError("--stream hears without a click: leave out --click.");
  const takes = values.stream ? [] : needTakes(positionals);
  const map = readMap(values.map);
  const clickBpm = readTempo("--click", values.click);
  const { stock, complete } = await readStock(values, { map, outlet });
  const allDone = values.stream
    ? await hearAlong(standardLines(), { stock, map, outlet })
    : await forEachTake(takes, { map, json: values.json, outlet }, (take) => {
        const heard = hearTake(take, stock, clickBpm);
        return { json: heardJson(heard), text: asText(heard) };
      });
  return allDone && complete;
}

/** The catalogue or a shelf, known also by the player's own takes where there are some. */
async function readStock(
  { shelf, own }: { readonly shelf?: string | undefined; readonly own?: string | undefined },
  how: { readonly map: KitMap; readonly outlet: Outlet },
): Promise<ReadStock> {
  const read =
    shelf === undefined ? { stock: catalogueStock(STYLES), complete: true } : await readShelf(shelf, how);
  return own === undefined ? read : await readOwnTakes(own, { ...how, ...read });
}

function asText(hearing: Heard): string {
  const [best] = hearing.candidates;
  const why = whyWords(hearing);
  const known = hearing.known && best ? `${best.name}: I am ${certaintyWords(best.confidence)}.` : undefined;
  const [name = "None I know.", ...more] = known === undefined ? why : [known, ...why];
  return [
    `  ${name}`,
    `  ${Math.round(hearing.pulse.tempoBpm)} a minute, ${metreName(hearing.pulse.metre)}, about ${hearing.span.bars} bars.`,
    ...more.map((said) => `  ${said}`),
  ].join("\n");
}
