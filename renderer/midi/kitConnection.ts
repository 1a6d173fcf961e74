/**
 * The cable to the kit: Web MIDI through `webmidi`, without system exclusive. It turns what the browser hands
 * over into messages with their own time stamps, and says how the cable stands; nothing else.
 */
import { type Input, type MessageEvent as MidiMessageEvent, WebMidi } from "webmidi";
import { readMidiBytes } from "../../engine/kit/index.ts";
import { Store } from "../session/store.ts";
import { type KitState, type KitStateEvent, kitStateAfter } from "./kitState.ts";
import type { TimedMessage } from "./timedMessage.ts";

/** Names of the errors by which a browser says no. Source: Web MIDI API, W3C; older browsers say SecurityError. */
const REFUSALS: ReadonlySet<string> = new Set(["NotAllowedError", "SecurityError"]);

function named(error: unknown): { readonly name: string; readonly message: string } {
  if (typeof error === "object" && error !== null && "name" in error && "message" in error) {
    return { name: String(error.name), message: String(error.message) };
  }
  return { name: "Error", message: String(error) };
}

export class KitConnection extends Store<KitState, KitStateEvent> {
  readonly #onMessage: (message: TimedMessage) => void;
  #attached: Input | undefined;

  constructor(onMessage: (message: TimedMessage) => void) {
    super({ state: "not-asked" }, kitStateAfter);
    this.#onMessage = onMessage;
  }

  /** Connects without asking where the user has already allowed MIDI for this page; otherwise does nothing. */
  async connectIfAllowed(): Promise<void> {
    if (!navigator.permissions || !WebMidi.supported) return;
    let allowed: boolean;
    try {
      allowed = (await navigator.permissions.query({ name: "midi" })).state === "granted";
    } catch {
      // A browser that does not know this permission throws: the user will press Connect.
      return;
    }
    if (allowed && this.get().state === "not-asked") await this.connect();
  }

  /** Asks the browser for MIDI: call it from the user's own action. */
  async connect(): Promise<void> {
    if (!WebMidi.supported) {
      this.dispatch({ kind: "no-web-midi" });
      return;
    }
    this.dispatch({ kind: "asked" });
    try {
      await WebMidi.enable({ sysex: false });
    } catch (error) {
      const { name, message } = named(error);
      this.dispatch(REFUSALS.has(name) ? { kind: "refused" } : { kind: "failed", reason: message || name });
      // Half enabled (an input that would not open) must not stand in the way of the next attempt.
      if (WebMidi.enabled) await WebMidi.disable();
      return;
    }
    WebMidi.removeListener();
    WebMidi.addListener("portschanged", this.#look);
    this.#look();
  }

  choose(id: string): void {
    this.dispatch({ kind: "chosen", id });
    this.#attach();
  }

  readonly #look = (): void => {
    const inputs = new Map(WebMidi.inputs.map(({ id, name }) => [id, { id, name }]));
    this.dispatch({ kind: "inputs", inputs: [...inputs.values()] });
    this.#attach();
  };

  /** Listens to the input the state names, and to no other. */
  #attach(): void {
    const kit = this.get();
    // A port that opens while it is being listed is listed twice: the last one holds it.
    const wanted =
      kit.state === "connected" ? WebMidi.inputs.findLast(({ id }) => id === kit.input.id) : undefined;
    if (wanted === this.#attached) return;
    this.#attached?.removeListener("midimessage", this.#forward);
    wanted?.addListener("midimessage", this.#forward);
    this.#attached = wanted;
  }

  readonly #forward = (event: MidiMessageEvent): void => {
    for (const message of readMidiBytes(event.message.rawData)) {
      this.#onMessage({ message, time: event.timestamp / 1000 });
    }
  };
}
