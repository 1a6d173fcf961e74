/** The states of the cable to the kit, and what each says. */

/** An input as the system names it. */
export interface KitInput {
  readonly id: string;
  readonly name: string;
}

export type KitState =
  | { readonly state: "not-asked" }
  | { readonly state: "asking" }
  /** This browser has no Web MIDI. */
  | { readonly state: "no-web-midi" }
  /** The user, or a rule of the browser, said no. */
  | { readonly state: "refused" }
  /** The system's MIDI did not start, or an input could not be opened. */
  | { readonly state: "failed"; readonly reason: string }
  | { readonly state: "no-input" }
  | { readonly state: "several"; readonly inputs: readonly KitInput[] }
  | { readonly state: "connected"; readonly input: KitInput; readonly inputs: readonly KitInput[] }
  | { readonly state: "unplugged"; readonly input: KitInput; readonly inputs: readonly KitInput[] };

export type KitStateEvent =
  | { readonly kind: "asked" }
  | { readonly kind: "no-web-midi" }
  | { readonly kind: "refused" }
  | { readonly kind: "failed"; readonly reason: string }
  /** The inputs there are now, after any change of them. */
  | { readonly kind: "inputs"; readonly inputs: readonly KitInput[] }
  | { readonly kind: "chosen"; readonly id: string };

/** A loop inside the computer that Linux lists beside real inputs: no kit is ever on it. */
const LOOP_NAME = /^midi through/i;

/**
 * What the state of the cable becomes. An unplugged kit is taken up again when its input, or one of the same
 * name, comes back; one single input is taken without asking.
 */
export function kitStateAfter(before: KitState, event: KitStateEvent): KitState {
  switch (event.kind) {
    case "asked":
      return { state: "asking" };
    case "no-web-midi":
    case "refused":
      return { state: event.kind };
    case "failed":
      return { state: "failed", reason: event.reason };
    case "chosen": {
      if (!("inputs" in before)) return before;
      const input = before.inputs.find(({ id }) => id === event.id);
      return input ? { state: "connected", input, inputs: before.inputs } : before;
    }
    case "inputs":
      return afterInputs(before, event.inputs);
  }
}

function afterInputs(before: KitState, inputs: readonly KitInput[]): KitState {
  if (before.state === "connected" || before.state === "unplugged") {
    const { input } = before;
    const back = inputs.find(({ id }) => id === input.id) ?? inputs.find(({ name }) => name === input.name);
    return back ? { state: "connected", input: back, inputs } : { state: "unplugged", input, inputs };
  }
  const kits = inputs.filter(({ name }) => !LOOP_NAME.test(name));
  const [only] = kits.length > 0 ? kits : inputs;
  if (!only) return { state: "no-input" };
  return kits.length === 1 || inputs.length === 1
    ? { state: "connected", input: only, inputs }
    : { state: "several", inputs };
}

/** What the page says of the cable: one or two sentences, with what to do. */
export function kitSentence(kit: KitState): string {
  switch (kit.state) {
    case "not-asked":
      return "No kit is connected yet. Plug it in, switch it on and connect.";
    case "asking":
      return "Waiting for the browser: it may be asking you to allow MIDI.";
    case "no-web-midi":
      return "This browser has no Web MIDI. Open Throneside in its own window, or in a browser built on Chromium. Until then, play on the keys of this computer.";
    case "refused":
      return "MIDI was refused for this page. Allow MIDI devices in the browser’s settings for this page, then connect again.";
    case "failed":
      return `The computer’s MIDI did not start: ${kit.reason}. Check the cable, close other programs that use the kit, then connect again.`;
    case "no-input":
      return "MIDI is allowed, but no kit is plugged in. Plug it in: it is taken up by itself.";
    case "several":
      return "More than one MIDI input is plugged in. Choose the kit.";
    case "connected":
      return `${kit.input.name} is connected.`;
    case "unplugged":
      return "The kit is unplugged. What you played so far is kept. Plug it in again: it is taken up by itself.";
  }
}

/** The same in the few words of the spine. */
export function kitInShort(kit: KitState): string {
  switch (kit.state) {
    case "connected":
      return "Kit: ready";
    case "unplugged":
      return "Kit: unplugged";
    case "several":
      return "Kit: choose one";
    case "asking":
      return "Kit: asking";
    case "not-asked":
    case "no-input":
      return "Kit: none yet";
    case "no-web-midi":
    case "refused":
    case "failed":
      return "Kit: not reached";
  }
}
