import { expect, test, vi } from "vitest";
import { Store } from "../../../renderer/session/store.ts";

test("an event changes the state through the reducer and tells the listeners once", () => {
  const store = new Store(1, (state, event: number) => state + event);
  const listener = vi.fn();
  store.subscribe(listener);
  store.dispatch(4);
  expect(store.get()).toBe(5);
  expect(listener).toHaveBeenCalledTimes(1);
});

test("an event that changes nothing tells nobody", () => {
  const store = new Store(1, (state, _event: "nothing") => state);
  const listener = vi.fn();
  store.subscribe(listener);
  store.dispatch("nothing");
  expect(listener).not.toHaveBeenCalled();
});

test("a listener that stopped is told nothing more", () => {
  const store = new Store(1, (state, event: number) => state + event);
  const listener = vi.fn();
  store.subscribe(listener)();
  store.dispatch(1);
  expect(listener).not.toHaveBeenCalled();
});
