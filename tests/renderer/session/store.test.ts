import { expect, test, vi } from "vitest";
import { Store, watchAll } from "../../../renderer/session/store.ts";

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

test("of several, a change of any is told, until one stops", () => {
  const stores = [1, 2].map((initial) => new Store(initial, (state, event: number) => state + event));
  const listener = vi.fn();
  const stop = watchAll(stores, listener);
  for (const store of stores) store.dispatch(1);
  expect(listener).toHaveBeenCalledTimes(2);
  stop();
  for (const store of stores) store.dispatch(1);
  expect(listener).toHaveBeenCalledTimes(2);
});
