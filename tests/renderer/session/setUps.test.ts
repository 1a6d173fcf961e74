import { describe, expect, test } from "vitest";
import { COMPUTER_KEYS, UNMEASURED } from "../../../engine/kit/index.ts";
import type { KeepingPlace } from "../../../renderer/session/kitMapChoice.ts";
import { Session } from "../../../renderer/session/session.ts";
import { SetUpStore } from "../../../renderer/session/setUps.ts";

class Place implements KeepingPlace {
  readonly kept = new Map<string, string>();
  isFull = false;
  getItem(key: string): string | null {
    return this.kept.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    if (this.isFull) throw new DOMException("full", "QuotaExceededError");
    this.kept.set(key, value);
  }
}

const KIT = "Nine-piece module";
const measured = { lateMs: 23.5, giveOrTakeMs: 4, how: "strikes" } as const;

describe("what is known of a set-up", () => {
  test("is kept for its input and output, and for no other", () => {
    const place = new Place();
    const store = new SetUpStore(place);
    store.hearThrough("headphones");
    store.keep({ input: KIT, output: "headphones" }, measured);
    const again = new SetUpStore(place);
    expect(again.calibrationOf(again.setUpOf("kit", KIT))).toEqual(measured);
    expect(again.lateSeconds("kit", KIT)).toBe(0.0235);
    expect(again.setUpOf("keyboard", KIT)).toEqual({ input: COMPUTER_KEYS, output: "headphones" });
    expect(again.lateSeconds("keyboard", KIT)).toBe(0);
    again.hearThrough("wireless");
    expect(again.lateSeconds("kit", KIT)).toBe(0);
    again.hearThrough("headphones");
    expect(again.lateSeconds("kit", KIT)).toBe(0.0235);
  });

  test("is replaced when measured again, and can be forgotten", () => {
    const place = new Place();
    const store = new SetUpStore(place);
    const setUp = { input: KIT, output: "loudspeakers" } as const;
    store.keep(setUp, measured);
    store.keep(setUp, { ...measured, lateMs: 5 });
    expect(store.get().measured).toHaveLength(1);
    expect(store.calibrationOf(setUp).lateMs).toBe(5);
    store.forget(setUp);
    expect(new SetUpStore(place).calibrationOf(setUp)).toEqual(UNMEASURED);
  });

  test("the sound settings tell loudspeakers from headphones, and do not undo wireless ones", () => {
    const store = new SetUpStore(new Place());
    store.hearBy("headphones");
    expect(store.get().output).toBe("headphones");
    store.hearThrough("wireless");
    store.hearBy("headphones");
    expect(store.get().output).toBe("wireless");
    store.hearBy("speakers");
    expect(store.get().output).toBe("loudspeakers");
  });

  test.each([
    ["{broken", "its text is damaged"],
    ['{"version":2}', "version"],
    ['{"version":1,"output":"loudspeakers","measured":[{"setUp":{"input":"","output":"x"}}]}', "measured"],
  ])("broken text %s is said, and nothing counts as measured", (text, reason) => {
    const place = new Place();
    place.kept.set("throneside.set-ups", text);
    const store = new SetUpStore(place);
    expect(store.get().trouble).toContain(reason);
    expect(store.lateSeconds("kit", KIT)).toBe(0);
  });

  test("where nothing can be kept it holds now, and that is said", () => {
    const place = new Place();
    const store = new SetUpStore(place);
    place.isFull = true;
    store.keep({ input: KIT, output: "loudspeakers" }, measured);
    expect(store.lateSeconds("kit", KIT)).toBe(0.0235);
    expect(store.get().trouble).toContain("could not keep it");
  });
});

test("it is taken from the moments of the strikes it belongs to, once, and from no others", () => {
  const place = new Place();
  const session = new Session(place);
  session.setUps.keep({ input: COMPUTER_KEYS, output: "loudspeakers" }, measured);
  const strike = { time: 10, message: { kind: "note-on", channel: 9, note: 38, velocity: 90 } } as const;
  session.receive([strike], "keyboard");
  session.receive([strike], "demonstration");
  const times = session.log.hitsSince(0).map(({ time }) => time);
  expect(times[0]).toBeCloseTo(10 - 0.0235, 12);
  expect(times[1]).toBe(10);
});
