import { expect, test } from "vitest";
import {
  type KitInput,
  type KitState,
  type KitStateEvent,
  kitInShort,
  kitSentence,
  kitStateAfter,
} from "../../../renderer/midi/kitState.ts";

const kit: KitInput = { id: "1", name: "Nine-piece module" };
const other: KitInput = { id: "2", name: "Practice pad" };
const loop: KitInput = { id: "3", name: "Midi Through Port-0" };

function after(...events: readonly KitStateEvent[]): KitState {
  return events.reduce<KitState>(kitStateAfter, { state: "not-asked" });
}

const asked: KitStateEvent = { kind: "asked" };
function inputs(...present: readonly KitInput[]): KitStateEvent {
  return { kind: "inputs", inputs: present };
}

test("a single input is taken without asking", () => {
  expect(after(asked, inputs(kit))).toEqual({ state: "connected", input: kit, inputs: [kit] });
});

test("the loop inside the computer is not taken for a kit", () => {
  expect(after(asked, inputs(loop, kit))).toMatchObject({ state: "connected", input: kit });
});

test("several inputs are asked about, and the one chosen is connected", () => {
  expect(after(asked, inputs(kit, other))).toMatchObject({ state: "several" });
  expect(after(asked, inputs(kit, other), { kind: "chosen", id: "2" })).toMatchObject({
    state: "connected",
    input: other,
  });
});

test("choosing an input that is not there changes nothing", () => {
  expect(after(asked, inputs(kit, other), { kind: "chosen", id: "9" })).toMatchObject({ state: "several" });
});

test("no input waits for one", () => {
  expect(after(asked, inputs())).toEqual({ state: "no-input" });
  expect(after(asked, inputs(), inputs(kit))).toMatchObject({ state: "connected", input: kit });
});

test("an unplugged kit is taken up again by itself, even under another id", () => {
  expect(after(asked, inputs(kit), inputs())).toMatchObject({ state: "unplugged", input: kit });
  expect(after(asked, inputs(kit), inputs(), inputs(kit))).toMatchObject({ state: "connected", input: kit });
  const renumbered = { ...kit, id: "17" };
  expect(after(asked, inputs(kit), inputs(), inputs(other, renumbered))).toMatchObject({
    state: "connected",
    input: renumbered,
  });
});

test("a second kit that comes while one plays changes nothing", () => {
  expect(after(asked, inputs(kit), inputs(kit, other))).toMatchObject({ state: "connected", input: kit });
});

test("another kit is not taken up in place of the unplugged one", () => {
  expect(after(asked, inputs(kit), inputs(other))).toMatchObject({ state: "unplugged", inputs: [other] });
});

const states: readonly KitState[] = [
  { state: "not-asked" },
  { state: "asking" },
  { state: "no-web-midi" },
  { state: "refused" },
  { state: "failed", reason: "the port is busy" },
  { state: "no-input" },
  { state: "several", inputs: [kit, other] },
  { state: "connected", input: kit, inputs: [kit] },
  { state: "unplugged", input: kit, inputs: [] },
];

test.each(states.map((state) => [state.state, state] as const))(
  "the state %s is said in whole sentences",
  (_, state) => {
    expect(kitSentence(state)).toMatch(/^[A-Z].*\.$/);
    expect(kitInShort(state)).toMatch(/^Kit: /);
  },
);
