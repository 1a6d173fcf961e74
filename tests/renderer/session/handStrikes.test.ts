import { expect, test } from "vitest";
import { onHandStrikes } from "../../../renderer/session/handStrikes.ts";
import { KitLog, type LogEntry } from "../../../renderer/session/kitLog.ts";
import { hit } from "./lessonsPlayed.ts";

const struck = (time: number, how: Partial<Omit<LogEntry, "event">> = {}): LogEntry => ({
  source: "kit",
  live: true,
  ...how,
  event: { kind: "hit", hit: hit(time) },
});

test("every kit is heard, each by its place; what no hand strikes, and what was before, is not", () => {
  const logs = [new KitLog(), new KitLog()];
  logs[0]?.append([struck(1)]);
  const heard: [kit: number, times: readonly number[]][] = [];
  const stop = onHandStrikes(logs, (hits, kit) => heard.push([kit, hits.map(({ time }) => time)]));
  logs[1]?.append([struck(2), struck(2.5, { source: "keyboard" })]);
  logs[0]?.append([struck(3), struck(3.5, { source: "demonstration" })]);
  logs[0]?.append([struck(4, { source: "demonstration" })]);
  logs[0]?.append([struck(5, { live: false })]);
  logs[0]?.append([{ source: "kit", live: true, event: { kind: "hi-hat", openness: 0.5, time: 6 } }]);
  expect(heard).toEqual([
    [1, [2, 2.5]],
    [0, [3]],
  ]);
  stop();
  logs[1]?.append([struck(7)]);
  expect(heard).toHaveLength(2);
});
