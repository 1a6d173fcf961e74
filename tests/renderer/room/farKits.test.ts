import { expect, test } from "vitest";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { FarKits, lastVoice } from "../../../renderer/room/farKits.ts";

const hit = (voice: Voice, time: number): Hit => ({ time, voice, zone: "whole", velocity: 0.5, pad: 38 });

test("of each kit the latest strike of each voice is known, and which was the last", () => {
  const kits = new FarKits();
  let told = 0;
  const stop = kits.subscribe(() => {
    told += 1;
  });
  expect(lastVoice(kits.of("kit-1"))).toBeNull();
  kits.add("kit-1", [hit("kick", 1), hit("snare", 2), hit("kick", 3)]);
  kits.add("kit-2", [hit("ride", 1)]);
  expect(lastVoice(kits.of("kit-1"))).toBe("kick");
  expect(kits.of("kit-1").latest.get("snare")).toMatchObject({ index: 1, hit: { time: 2 } });
  expect(lastVoice(kits.of("kit-2"))).toBe("ride");
  expect(told).toBe(2);
  stop();
  kits.add("kit-1", [hit("snare", 4)]);
  expect({ told, last: lastVoice(kits.of("kit-1")) }).toEqual({ told: 2, last: "snare" });
  kits.clear();
  expect(kits.of("kit-1").now).toBeUndefined();
});
