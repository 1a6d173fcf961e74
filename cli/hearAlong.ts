/**
 * What is being played, said while it is played: hits come in line by line, a hearing goes out a beat.
 */
import type { Hit, KitMap } from "../engine/kit/index.ts";
import { type Hearing, Listener, type Pulse, type Stock } from "../engine/listening/index.ts";
import { rounded } from "./heard.ts";
import { hearingJson } from "./hearingJson.ts";
import { HitLineError, readHitLine } from "./hitLine.ts";
import type { Outlet } from "./outlet.ts";
import { RepeatFilter } from "./takes.ts";

/** Before there is a pulse, a hearing is said so often at most. Seconds. */
const WITHOUT_PULSE = 0.5;
/** A hit so little before a beat, in beats, is played on it. Our choice. */
const EARLY = 0.1;

/**
 * Hears hits along. A line that is no hit gives a line on standard error and an object with `line` and `error`; the rest
 * are still heard.
 *
 * @returns whether every line was a hit.
 */
export async function hearAlong(
  lines: AsyncIterable<string>,
  how: { readonly stock: Stock; readonly map: KitMap; readonly outlet: Outlet },
): Promise<boolean> {
  const { outlet, map } = how;
  const listener = new Listener(how.stock);
  const repeats = new RepeatFilter();
  let allRead = true;
  let number = 0;
  let newest = 0;
  let due = 0;
  for await (const line of lines) {
    number += 1;
    if (line.trim() === "") continue;
    try {
      const hit: Hit = readHitLine(line, map, newest);
      newest = hit.time;
      if (repeats.isRepeat(hit)) continue;
      listener.add(hit);
      if (hit.time < due) continue;
      const hearing = listener.hearing();
      due = nextDue(hearing, hit.time);
      await outlet.line(JSON.stringify({ time: rounded(hit.time), ...hearingJson(hearing) }));
    } catch (error) {
      if (!(error instanceof HitLineError)) throw error;
      allRead = false;
      outlet.complain(`line ${number}: ${error.message}.`);
      await outlet.line(JSON.stringify({ line: number, error: error.message }));
    }
  }
  await outlet.line(
    JSON.stringify({ time: rounded(newest), ...hearingJson(listener.hearing()), final: true }),
  );
  return allRead;
}

/** The next beat after a hit, or a moment later where no pulse is heard. */
function nextDue(hearing: Hearing, time: number): number {
  if (hearing.kind !== "heard") return time + WITHOUT_PULSE;
  return nextBeat(hearing.pulse, time);
}

function nextBeat({ beats, tempoBpm }: Pulse, time: number): number {
  const last = beats.at(-1) ?? time;
  const beat = 60 / tempoBpm;
  const passed = Math.floor((time - last) / beat + EARLY + 1e-9);
  return last + (passed + 1 - EARLY) * beat;
}
