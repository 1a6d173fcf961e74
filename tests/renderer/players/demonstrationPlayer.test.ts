import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { TimedMessage } from "../../../renderer/midi/timedMessage.ts";
import { DemonstrationPlayer } from "../../../renderer/players/demonstrationPlayer.ts";
import type { Piece } from "../../../renderer/players/piece.ts";

function stroke(time: number): TimedMessage {
  return { time, message: { kind: "note-on", channel: 9, note: 38, velocity: 80 } };
}

const piece: Piece = { title: "three strokes", messages: [stroke(0), stroke(0.5), stroke(1.25)] };

beforeEach(() => vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "performance"] }));
afterEach(() => vi.useRealTimers());

function recorded(): {
  readonly player: DemonstrationPlayer;
  readonly sent: TimedMessage[];
  readonly live: boolean[];
} {
  const sent: TimedMessage[] = [];
  const live: boolean[] = [];
  const player = new DemonstrationPlayer((messages, isLive) => {
    sent.push(...messages);
    if (messages.length > 0) live.push(isLive);
  });
  return { player, sent, live };
}

test("each stroke is handed over when it is due, stamped with its exact moment", () => {
  const { player, sent } = recorded();
  const begun = performance.now() / 1000;
  player.play(piece);
  expect(player.get()).toMatchObject({ state: "playing", title: "three strokes" });
  vi.advanceTimersByTime(1200);
  expect(sent).toHaveLength(2);
  vi.advanceTimersByTime(5000);
  const gaps = sent.map(({ time }) => time - (sent[0]?.time ?? 0));
  expect(gaps).toEqual([0, expect.closeTo(0.5, 9), expect.closeTo(1.25, 9)]);
  expect(sent[0]?.time).toBeCloseTo(begun + 0.6, 6);
  expect(player.get()).toEqual({ state: "played", title: "three strokes", strokes: 3 });
});

test("stop ends it, and nothing more is sent", () => {
  const { player, sent } = recorded();
  player.play(piece);
  vi.advanceTimersByTime(700);
  player.stop();
  vi.advanceTimersByTime(5000);
  expect(sent).toHaveLength(1);
  expect(player.get()).toEqual({ state: "silent" });
});

test("at once: everything is sent, its end is now, and it is marked as not live", () => {
  const { player, sent, live } = recorded();
  player.playAtOnce(piece);
  expect(sent).toHaveLength(3);
  expect(live).toEqual([false]);
  expect(sent[2]?.time).toBeCloseTo(performance.now() / 1000, 6);
});

test("a new piece takes the place of the one that plays", () => {
  const { player, sent } = recorded();
  player.play(piece);
  player.play({ title: "one stroke", messages: [stroke(0)] });
  vi.advanceTimersByTime(5000);
  expect(sent).toHaveLength(1);
});
