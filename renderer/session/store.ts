import { useSyncExternalStore } from "react";

/** Something React can watch: a value and a way to be told when it has changed. */
export interface Watched<State> {
  readonly get: () => State;
  /** Returns the way to stop listening. */
  readonly subscribe: (listener: () => void) => () => void;
}

/**
 * State that lives outside React, because strikes, ports and timers change it: changed only by events, through
 * one pure reducer.
 */
export class Store<State, Event> implements Watched<State> {
  #state: State;
  readonly #reduce: (state: State, event: Event) => State;
  readonly #listeners = new Set<() => void>();

  constructor(initial: State, reduce: (state: State, event: Event) => State) {
    this.#state = initial;
    this.#reduce = reduce;
  }

  readonly get = (): State => this.#state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly dispatch = (event: Event): void => {
    const next = this.#reduce(this.#state, event);
    if (next === this.#state) return;
    this.#state = next;
    for (const listener of this.#listeners) listener();
  };
}

/** Tells when any of them has changed. Returns the way to stop. */
export function watchAll(all: readonly Watched<unknown>[], listener: () => void): () => void {
  const stops = all.map((each) => each.subscribe(listener));
  return () => {
    for (const stop of stops) stop();
  };
}

/** The value of a store, kept up to date in a component. */
export function useWatched<State>(watched: Watched<State>): State {
  return useSyncExternalStore(watched.subscribe, watched.get);
}
