import type { PowerSaveBlocker } from "electron";

/** Keeps the screen on while a lesson runs: a drummer's hands are on the kit for minutes, not on the mouse. */
export class Awake {
  readonly #blocker: Pick<PowerSaveBlocker, "start" | "stop">;
  #id: number | undefined;

  constructor(blocker: Pick<PowerSaveBlocker, "start" | "stop">) {
    this.#blocker = blocker;
  }

  set(on: boolean): { readonly kind: "awake" | "may-sleep" } {
    if (on) this.#id ??= this.#blocker.start("prevent-display-sleep");
    else this.#release();
    return { kind: on ? "awake" : "may-sleep" };
  }

  #release(): void {
    if (this.#id === undefined) return;
    this.#blocker.stop(this.#id);
    this.#id = undefined;
  }
}
