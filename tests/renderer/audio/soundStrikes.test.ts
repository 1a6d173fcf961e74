import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { SoundDesk } from "../../../renderer/audio/soundDesk.ts";
import { plannedOf, soundStrikes } from "../../../renderer/audio/soundStrikes.ts";
import type { Planned, Playing } from "../../../renderer/audio/strokePlayer.ts";
import { DemonstrationPlayer } from "../../../renderer/players/demonstrationPlayer.ts";
import type { Piece } from "../../../renderer/players/piece.ts";
import { KitLog, type LogEntry, type Source } from "../../../renderer/session/kitLog.ts";
import { KitMapStore } from "../../../renderer/session/kitMapChoice.ts";

/** A desk that notes what it is asked to sound. */
class NotingDesk extends SoundDesk {
  readonly sounded: Voice[] = [];
  readonly choked: Voice[] = [];
  readonly played: { readonly strokes: readonly Planned[]; readonly from: number | undefined }[] = [];
  stops = 0;

  override async turnDrums(drumsOn: boolean): Promise<void> {
    this.dispatch({ drumsOn });
  }
  override sound(hit: Hit): void {
    this.sounded.push(hit.voice);
  }
  override choke(voice: Voice): void {
    this.choked.push(voice);
  }
  override playStrokes(strokes: readonly Planned[], { from }: { readonly from?: number } = {}): Playing {
    this.played.push({ strokes, from });
    const stop = (): void => {
      this.stops += 1;
    };
    return { from: from ?? 0, stop };
  }
}

const place = { getItem: () => null, setItem: () => undefined };
const noteOn = (note: number, time: number) =>
  ({ time, message: { kind: "note-on", channel: 9, note, velocity: 127 } }) as const;
const pressed = (note: number, time: number, pressure: number) =>
  ({ time, message: { kind: "key-pressure", channel: 9, note, pressure } }) as const;
const piece: Piece = {
  title: "Two strokes",
  messages: [noteOn(36, 0), noteOn(49, 0.5), pressed(49, 0.8, 127)],
};

let desk: NotingDesk;
let log: KitLog;
let demonstration: DemonstrationPlayer;
let kitMap: KitMapStore;

beforeEach(() => {
  vi.useFakeTimers();
  desk = new NotingDesk(place);
  log = new KitLog();
  kitMap = new KitMapStore(place);
  demonstration = new DemonstrationPlayer(() => undefined);
  soundStrikes({ log, demonstration, kitMap }, desk);
});
afterEach(() => void vi.useRealTimers());

function strike(voice: Voice, source: Source, live = true): LogEntry {
  const hit: Hit = { time: 1, voice, zone: "whole", velocity: 0.5, pad: 38 };
  return { source, live, event: { kind: "hit", hit } };
}

describe("strikes", () => {
  test("of the keys are sounded, all that come together", () => {
    log.append([strike("kick", "keyboard"), strike("ride", "keyboard")]);
    log.append([strike("snare", "keyboard")]);
    expect(desk.sounded).toEqual(["kick", "ride", "snare"]);
  });

  test("of a kit are sounded only where it is said to be silent", async () => {
    log.append([strike("kick", "kit")]);
    expect(desk.sounded).toEqual([]);
    await desk.setKitIsSilent(true);
    log.append([strike("snare", "kit")]);
    expect(desk.sounded).toEqual(["snare"]);
  });

  test("of a far kit were sounded ahead of time, and are not sounded again as they come in", async () => {
    await desk.setKitIsSilent(true);
    log.append([strike("kick", "far")]);
    expect(desk.sounded).toEqual([]);
  });

  test("of a file that is read at once are not sounded", () => {
    log.append([strike("kick", "keyboard", false)]);
    expect(desk.sounded).toEqual([]);
  });

  test("a hand on a cymbal stops it, letting go does not", () => {
    const choke = (held: boolean): LogEntry => ({
      source: "keyboard",
      live: true,
      event: { kind: "choke", time: 1, voice: "ride", pad: 51, held },
    });
    log.append([choke(false)]);
    expect(desk.choked).toEqual([]);
    log.append([choke(true)]);
    expect(desk.choked).toEqual(["ride"]);
  });
});

describe("a demonstration", () => {
  test("is planned through the kit map, with hands on cymbals", () => {
    expect(plannedOf(piece, kitMap.get().map)).toEqual([
      { time: 0, voice: "kick", zone: "whole", velocity: 1 },
      { time: 0.5, voice: "crash-left", zone: "whole", velocity: 1 },
      { time: 0.8, voice: "crash-left", isChoke: true },
    ]);
  });

  test("is played ahead from its own beginning, once, and not again as its strokes come in", async () => {
    await desk.turnDrums(true);
    demonstration.play(piece);
    const player = demonstration.get();
    if (player.state !== "playing") throw new Error("It plays.");
    expect(desk.played).toEqual([{ strokes: plannedOf(piece, kitMap.get().map), from: player.from }]);
    desk.setVolume(6);
    log.append([strike("kick", "demonstration")]);
    expect(desk.played).toHaveLength(1);
    expect(desk.sounded).toEqual([]);
  });

  test("is silent while drum sounds are off, and comes in where it is when they are turned on", async () => {
    demonstration.play(piece);
    expect(desk.played).toHaveLength(0);
    await desk.turnDrums(true);
    const player = demonstration.get();
    expect(desk.played[0]?.from).toBe(player.state === "playing" ? player.from : "it plays");
    await desk.turnDrums(false);
    expect(desk.stops).toBe(1);
  });

  test("is stopped with the player, but rings out when it ends by itself", async () => {
    await desk.turnDrums(true);
    demonstration.play(piece);
    demonstration.stop();
    expect(desk.stops).toBe(1);
    demonstration.play(piece);
    await vi.advanceTimersByTimeAsync(2000);
    expect(demonstration.get().state).toBe("played");
    expect(desk.stops).toBe(1);
    demonstration.play(piece);
    expect(desk.played).toHaveLength(3);
  });
});
