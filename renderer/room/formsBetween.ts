/** Forms that are begun and left at either of two places: each is told to the other place, and heard of there once. */
import type { MessageOf } from "../../engine/rooms/index.ts";
import type { Seconds } from "../../engine/units/index.ts";

/** A form that was begun at the other place. */
export interface FarForm extends Pick<MessageOf<"form">, "set" | "calls" | "delaySeconds"> {
  /** Its first bar line here, on our clock. */
  readonly line: Seconds;
}

/** A form is said again so much later, well before its first line. */
const SAID_AGAIN_MS = [300, 700];

export class FormsBetween {
  readonly #formListeners = new Set<(form: FarForm) => void>();
  readonly #leftListeners = new Set<() => void>();
  /** The form that was begun last, here or there. */
  #last: MessageOf<"form-left">["form"] | undefined;
  /** What is to be said again. */
  #sayingAgain: ReturnType<typeof setTimeout>[] = [];

  /** A form begins here. */
  begun(form: MessageOf<"form-left">["form"], say: () => void): void {
    this.#last = form;
    this.#sayThrice(say);
  }

  /** The form that is on is left here. */
  left(say: (form: MessageOf<"form-left">["form"]) => void): void {
    const form = this.#last;
    if (form) this.#sayThrice(() => say(form));
  }

  /**
   * A form is told by the other place. It counts once.
   *
   * @param inOwnTime puts a moment of theirs on our clock; `undefined` before the clocks were compared.
   * @returns whether it can be begun here.
   */
  heard(
    { from, beginsAt, set, calls, delaySeconds }: MessageOf<"form">,
    inOwnTime: (time: Seconds) => Seconds | undefined,
  ): boolean {
    if (this.#last?.from === from && this.#last.beginsAt === beginsAt) return true;
    const begins = inOwnTime(beginsAt);
    if (begins === undefined) return false;
    this.#last = { from, beginsAt };
    for (const listener of this.#formListeners)
      listener({ set, calls, delaySeconds, line: begins + delaySeconds });
    return true;
  }

  /** The other place has left a form. */
  heardLeft({ from, beginsAt }: MessageOf<"form-left">["form"]): void {
    if (this.#last?.from !== from || this.#last.beginsAt !== beginsAt) return;
    for (const listener of this.#leftListeners) listener();
  }

  /** Hears of forms that are begun at the other place, each once. Returns the way to stop. */
  onForm(listener: (form: FarForm) => void): () => void {
    this.#formListeners.add(listener);
    return () => this.#formListeners.delete(listener);
  }

  /** Hears that the form that is on was left at the other place. Returns the way to stop. */
  onFormLeft(listener: () => void): () => void {
    this.#leftListeners.add(listener);
    return () => this.#leftListeners.delete(listener);
  }

  /** One message may be lost. What was said before is said no more. */
  #sayThrice(say: () => void): void {
    for (const timer of this.#sayingAgain) clearTimeout(timer);
    say();
    this.#sayingAgain = SAID_AGAIN_MS.map((later) => setTimeout(say, later));
  }
}
