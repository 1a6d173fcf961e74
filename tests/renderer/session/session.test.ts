/** Two kits, each with its own map, delay and commands; and which kit is which, the next time too. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { MidiMessage } from "../../../engine/kit/index.ts";
import type { KeepingPlace } from "../../../renderer/session/keepingPlace.ts";
import { Session } from "../../../renderer/session/session.ts";
import { struckGiveOrTakeMs } from "../../../renderer/session/struckSetUp.ts";

class Place implements KeepingPlace {
  readonly kept = new Map<string, string>();
  getItem(key: string): string | null {
    return this.kept.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.kept.set(key, value);
  }
}

const LEFT = { id: "l", name: "Left module" };
const RIGHT = { id: "r", name: "Right module" };
const stroke = (note: number): MidiMessage => ({ kind: "note-on", channel: 9, note, velocity: 90 });

beforeEach(() => void vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "performance"] }));
afterEach(() => void vi.useRealTimers());

function plugged(place: Place, ...inputs: readonly { readonly id: string; readonly name: string }[]) {
  const session = new Session(place);
  session.connection.dispatch({ kind: "asked" });
  session.connection.dispatch({ kind: "inputs", inputs });
  return session;
}

test("each input has its own map and delay, whichever kit it is", () => {
  const place = new Place();
  const session = plugged(place, LEFT, RIGHT);
  expect(session.connection.get().state).toBe("several");
  session.chooseFirst("l");
  session.chooseSecond("r");
  const [first, second] = session.kits;
  expect([first.input, second.input]).toEqual(["Left module", "Right module"]);
  second.kitMap.choose("wide-nine-piece");
  session.setUps.keep(
    { input: "Right module", output: "loudspeakers" },
    { lateMs: 20, giveOrTakeMs: 2, how: "by-hand" },
  );
  expect(first.kitMap.get().map.id).toBe("general-midi-1");
  first.receive([{ time: 1, message: stroke(38) }], "kit");
  second.receive([{ time: 1, message: stroke(38) }], "kit");
  expect(first.log.hitsSince(0)).toMatchObject([{ time: 1, voice: "snare" }]);
  expect(second.log.hitsSince(0)).toMatchObject([{ time: 0.98, voice: "snare", zone: "head" }]);
  // Changed places: the map and the delay go with the input.
  session.chooseFirst("r");
  expect([first.input, second.input]).toEqual(["Right module", "Left module"]);
  expect([first.kitMap.get().map.id, second.kitMap.get().map.id]).toEqual([
    "wide-nine-piece",
    "general-midi-1",
  ]);
  expect(first.lateSeconds("kit")).toBe(0.02);
});

test("the next time both are taken up by themselves, in whatever order they are plugged in", () => {
  const place = new Place();
  const before = plugged(place, LEFT, RIGHT);
  before.chooseFirst("r");
  before.chooseSecond("l");
  const [first, second] = plugged(place, { id: "x", name: LEFT.name }, { id: "y", name: RIGHT.name }).kits;
  expect([first.input, second.input]).toEqual(["Right module", "Left module"]);
  // The second kit is switched on first.
  const slow = plugged(place, LEFT);
  slow.connection.dispatch({ kind: "inputs", inputs: [LEFT, RIGHT] });
  expect(slow.kits.map(({ input }) => input)).toEqual(["Right module", "Left module"]);
  // Before any is there, the map is that of the kit that was there last.
  slow.kits[0].kitMap.choose("wide-nine-piece");
  expect(new Session(place).kits[0]).toMatchObject({ input: undefined });
  expect(new Session(place).kitMap.get().map.id).toBe("wide-nine-piece");
  before.chooseSecond(null);
  const again = plugged(place, LEFT, RIGHT);
  expect(again.secondKit.get()).toEqual({ state: "none" });
  expect(again.kits[0].input).toBe("Right module");
});

test("where the choice cannot be read or kept, it is asked again, and holds meanwhile", () => {
  const place = new Place();
  place.setItem("throneside.kits", '{"version":1,"first":3}');
  expect(plugged(place, LEFT, RIGHT).connection.get().state).toBe("several");
  const closed: KeepingPlace = {
    getItem: () => null,
    setItem: () => {
      throw new DOMException("full", "QuotaExceededError");
    },
  };
  const session = new Session(closed);
  session.connection.dispatch({ kind: "inputs", inputs: [LEFT, RIGHT] });
  session.chooseFirst("r");
  session.chooseSecond("l");
  expect(session.kits.map(({ input }) => input)).toEqual(["Right module", "Left module"]);
});

test("keys and demonstration play the kit whose turn it is", () => {
  const session = plugged(new Place(), LEFT, RIGHT);
  session.listenTo(1);
  session.receive([{ time: 1, message: stroke(38) }], "keyboard");
  session.receive([{ time: 2, message: stroke(38) }], "kit");
  expect(session.kits.map(({ log }) => log.hitsSince(0).map(({ time }) => time))).toEqual([[2], [1]]);
});

test("two kits of one name are two kits", () => {
  const place = new Place();
  const session = plugged(place, { id: "1", name: "Module" }, { id: "2", name: "Module" });
  session.chooseFirst("1");
  session.chooseSecond("2");
  session.kits[1].kitMap.choose("general-midi-2");
  expect(session.kits.map(({ kitMap }) => kitMap.get().map.id)).toEqual(["general-midi-1", "general-midi-2"]);
});

test("the uncertainty that is told is that of the kit whose turn it is", () => {
  const session = plugged(new Place(), LEFT, RIGHT);
  session.chooseFirst("l");
  session.chooseSecond("r");
  session.setUps.keep(
    { input: "Right module", output: "loudspeakers" },
    { lateMs: 20, giveOrTakeMs: 2, how: "by-hand" },
  );
  for (const kit of session.kits) kit.receive([{ time: 1, message: stroke(38) }], "kit");
  expect(struckGiveOrTakeMs(session)).toBeNull();
  session.listenTo(1);
  expect(struckGiveOrTakeMs(session)).toBe(2);
});

test("a command struck on either kit is called out once it is silent, and is no strike", () => {
  const session = plugged(new Place(), LEFT, RIGHT);
  session.chooseFirst("l");
  session.chooseSecond("r");
  const heard: string[] = [];
  session.onCommand((command) => heard.push(command));
  const [, second] = session.kits;
  second.kitMap.choose("wide-nine-piece");
  second.commands.set("stop", { kind: "two-rims", pads: [47, 58] });
  const now = performance.now() / 1000;
  second.receive([{ time: now, message: stroke(47) }], "kit");
  second.receive([{ time: now + 0.01, message: stroke(58) }], "kit");
  vi.advanceTimersByTime(300);
  expect(heard).toEqual([]);
  vi.advanceTimersByTime(300);
  expect(heard).toEqual(["stop"]);
  expect(second.log.get()).toBe(0);
  // One rim alone is a strike like any other, a moment later, at its own time.
  second.receive([{ time: now + 2, message: stroke(47) }], "kit");
  expect(second.log.get()).toBe(0);
  vi.advanceTimersByTime(2500);
  expect(second.log.hitsSince(0)).toMatchObject([{ time: now + 2, pad: 47 }]);
  // While pads are learnt, every strike is a strike at once.
  const hearAgain = second.withoutCommands();
  second.receive([{ time: now + 9, message: stroke(47) }], "kit");
  expect(second.log.get()).toBe(2);
  hearAgain();
});

test("commands are kept for their input; a strike means one command only; broken ones are told", () => {
  const place = new Place();
  const { kits } = plugged(place, LEFT);
  kits[0].commands.set("flag", { kind: "own-pad", pad: 90 });
  kits[0].commands.set("next", { kind: "own-pad", pad: 90 });
  expect(plugged(place, LEFT).kits[0].commands.strikes()).toEqual({ next: { kind: "own-pad", pad: 90 } });
  expect(plugged(place, RIGHT).kits[0].commands.get().chosen).toBeNull();
  place.setItem("throneside.commands/Left module", "{");
  expect(plugged(place, LEFT).kits[0].commands.get().trouble).toContain("its text is damaged");
});
