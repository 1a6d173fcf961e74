import { expect, test } from "vitest";
import { type KitState, type KitStateEvent, kitStateAfter } from "../../../renderer/midi/kitState.ts";
import { SecondKit } from "../../../renderer/midi/secondKit.ts";
import { Store } from "../../../renderer/session/store.ts";

const A = { id: "a", name: "First" };
const B = { id: "b", name: "Second" };

function cables() {
  const first = new Store<KitState, KitStateEvent>({ state: "not-asked" }, kitStateAfter);
  const second = new SecondKit(first, () => {});
  first.dispatch({ kind: "inputs", inputs: [A, B] });
  first.dispatch({ kind: "chosen", id: "a" });
  return { first, second };
}

test("the second kit is one of the inputs that the first does not use", () => {
  const { second } = cables();
  expect(second.free()).toEqual([B]);
  second.choose("a");
  expect(second.get()).toEqual({ state: "none" });
  second.choose("b");
  expect(second.get()).toEqual({ state: "connected", input: B });
});

test("pulled out it is missed, and taken up again under a new id by its name", () => {
  const { first, second } = cables();
  second.choose("b");
  first.dispatch({ kind: "inputs", inputs: [A] });
  expect(second.get()).toEqual({ state: "unplugged", input: B });
  const again = { id: "c", name: "Second" };
  first.dispatch({ kind: "inputs", inputs: [A, again] });
  expect(second.get()).toEqual({ state: "connected", input: again });
  second.letGo();
  expect(second.get()).toEqual({ state: "none" });
});
