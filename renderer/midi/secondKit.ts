/**
 * The cable to a second kit, for a lesson of two: one more input of those the first cable lists. It asks for nothing of
 * its own; where MIDI is not allowed there is no second kit either.
 */
import { type Input, type MessageEvent as MidiMessageEvent, WebMidi } from "webmidi";
import { readMidiBytes } from "../../engine/kit/index.ts";
import { Store, type Watched } from "../session/store.ts";
import type { KitInput, KitState } from "./kitState.ts";
import type { TimedMessage } from "./timedMessage.ts";

export type SecondKitState =
  | { readonly state: "none" }
  | { readonly state: "connected" | "unplugged"; readonly input: KitInput };

export class SecondKit extends Store<SecondKitState, SecondKitState> {
  readonly #onMessage: (message: TimedMessage) => void;
  readonly #first: Watched<KitState>;
  #attached: Input | undefined;

  constructor(first: Watched<KitState>, onMessage: (message: TimedMessage) => void) {
    super({ state: "none" }, (_, state) => state);
    this.#first = first;
    this.#onMessage = onMessage;
    // The first cable hears of every plug that goes in or out.
    first.subscribe(() => this.#look());
  }

  /** Inputs that the first kit does not use. */
  free(): readonly KitInput[] {
    const first = this.#first.get();
    if (!("inputs" in first)) return [];
    return first.inputs.filter(({ id }) => !("input" in first) || id !== first.input.id);
  }

  choose(id: string): void {
    const input = this.free().find((each) => each.id === id);
    if (!input) return;
    this.dispatch({ state: "connected", input });
    this.#look();
  }

  /** The lesson of two is over. */
  letGo(): void {
    this.dispatch({ state: "none" });
    this.#look();
  }

  #look(): void {
    const kit = this.get();
    const free = kit.state === "none" ? [] : this.free();
    const wanted =
      kit.state === "none"
        ? undefined
        : (free.find(({ id }) => id === kit.input.id) ?? free.find(({ name }) => name === kit.input.name));
    if (kit.state !== "none") {
      const state = wanted ? "connected" : "unplugged";
      const input = wanted ?? kit.input;
      if (state !== kit.state || input.id !== kit.input.id) this.dispatch({ state, input });
    }
    this.#attach(wanted && WebMidi.inputs.findLast(({ id }) => id === wanted.id));
  }

  #attach(wanted: Input | undefined): void {
    if (wanted === this.#attached) return;
    this.#attached?.removeListener("midimessage", this.#forward);
    wanted?.addListener("midimessage", this.#forward);
    this.#attached = wanted;
  }

  readonly #forward = (event: MidiMessageEvent): void => {
    for (const message of readMidiBytes(event.message.rawData))
      this.#onMessage({ message, time: event.timestamp / 1000 });
  };
}
