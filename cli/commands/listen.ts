import { STYLES } from "../../engine/catalogue/index.ts";
import { catalogueStock, type Heard, type Stock } from "../../engine/listening/index.ts";
import { metreName } from "../../engine/score/index.ts";
import { hearTake, rounded } from "../heard.ts";
import { readMap } from "../maps.ts";
import type { Outlet } from "../outlet.ts";
import { forEachTake, type TakeFile } from "../takes.ts";
import { needTakes, readArguments, readTempo } from "../usage.ts";

/** `listen`: tempo, metre, beats and downbeats of each take. */
export async function listenCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    click: { type: "string" },
    map: { type: "string" },
    json: { type: "boolean", default: false },
  });
  const takes = needTakes(positionals);
  const map = readMap(values.map);
  const clickBpm = readTempo("--click", values.click);
  const stock = catalogueStock(STYLES);
  return forEachTake(takes, { map, json: values.json, outlet }, (take) => {
    const { pulse } = surePulse(take, stock, clickBpm);
    const metre = metreName(pulse.metre);
    return {
      json: {
        tempo: rounded(pulse.tempoBpm),
        metre,
        beats: pulse.beats.map(rounded),
        downbeats: pulse.downbeats.map(rounded),
        confidence: rounded(pulse.confidence),
      },
      text: [
        `  ${pulse.tempoBpm.toFixed(1)} a minute, ${metre}.`,
        `  ${pulse.beats.length} beats, ${pulse.downbeats.length} downbeats, the first at ${(pulse.downbeats[0] ?? 0).toFixed(3)} s.`,
      ].join("\n"),
    };
  });
}

/** From this chance on a named groove's own pulse is better than that of grooves in general. Tuned on the development data. */
const SURE = 0.9;

/** The pulse of the groove when there is hardly a doubt which it is; else the pulse that fits grooves in general. */
function surePulse(take: TakeFile, stock: Stock, clickBpm: number | undefined): Heard {
  const hearing = hearTake(take, stock, clickBpm);
  const isSure = hearing.known && (hearing.candidates[0]?.confidence ?? 0) >= SURE;
  return isSure ? hearing : hearTake(take, { ...stock, grooves: [] }, clickBpm);
}
