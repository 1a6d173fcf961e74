/**
 * Looks after the far player of a form. Where their kit is gone that is said at once, the form goes on for them who may come
 * back, nothing is told of what could not be heard, and after a wait it ends.
 */
import type { GoneWhy, Presence } from "../../../engine/rooms/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";

/**
 * A far kit that is gone is waited for so long. Our choice: a connection that broke is tried again every half second, and a network
 * that changes its way is back in ten or fifteen; after twenty an exchange of two bars each is lost.
 */
export const WAIT_SECONDS: Seconds = 20;
/** With so little heard of them what they played may still be on its way: half of what is taken for silence. Our choice. */
const DOUBT_SECONDS: Seconds = 3;
/** What was struck while the connection was broken is asked for within a second, and here after another. Our choice. */
const CAUGHT_UP_SECONDS: Seconds = 2;
const LOOK_MS = 250;

/** A far kit that is gone, in words. */
export interface FarGone {
  /** For a wall: whose kit. */
  readonly short: string;
  readonly sentence: string;
}

export interface FarWatched {
  readonly presence: () => Presence;
  readonly name: () => string;
  readonly now: () => Seconds;
  /** Their kit is gone; `null`: it is back. */
  readonly changed: (gone: FarGone | null) => void;
  /** Takes a sentence once they are back. */
  readonly back: (sentence: string) => void;
  /** They will not come back into this form: takes a sentence that says why. */
  readonly ended: (sentence: string) => void;
  /** Called each time after it has looked. */
  readonly looked: () => void;
}

export class FarWatch {
  readonly #far: FarWatched;
  readonly #timer: ReturnType<typeof setInterval>;
  #gone: { readonly since: Seconds; readonly heardUntil: Seconds } | null = null;
  #back: { readonly at: Seconds; readonly heardUntil: Seconds } | null = null;

  constructor(far: FarWatched) {
    this.#far = far;
    this.#timer = setInterval(() => this.#look(), LOOK_MS);
  }

  /** What was played there up to this moment is here: for ever, where nothing is missing. */
  get heardUntil(): Seconds {
    const heldBack = this.#gone ?? this.#back;
    if (heldBack) return heldBack.heardUntil;
    const { quietSeconds } = this.#far.presence();
    return quietSeconds < DOUBT_SECONDS ? Number.POSITIVE_INFINITY : this.#far.now() - quietSeconds;
  }

  /** Nobody waits for them any longer. */
  giveUp(): void {
    this.#far.ended(`The form was ended while the kit of ${this.#far.name()} was gone.`);
  }

  stop(): void {
    clearInterval(this.#timer);
  }

  #look(): void {
    const presence = this.#far.presence();
    if (presence.kind === "gone") this.#isGone(presence.why, presence.quietSeconds);
    else this.#isThere();
    this.#far.looked();
  }

  #isGone(why: GoneWhy, quietSeconds: Seconds): void {
    const { name, now, changed, ended } = this.#far;
    if (why === "left" || why === "anew") ended(FOR_GOOD[why](name()));
    else if (this.#gone === null) {
      this.#gone = { since: now(), heardUntil: this.#back?.heardUntil ?? now() - quietSeconds };
      changed(goneWords(name(), why));
    } else if (now() - this.#gone.since >= WAIT_SECONDS)
      ended(`The kit of ${name()} did not come back within ${WAIT_SECONDS} seconds.`);
  }

  #isThere(): void {
    const { name, now, changed, back } = this.#far;
    if (this.#gone) {
      const { since, heardUntil } = this.#gone;
      this.#gone = null;
      this.#back = { at: now(), heardUntil };
      changed(null);
      back(`The kit of ${name()} was gone for ${Math.max(1, Math.round(now() - since))} s, and is back.`);
    } else if (this.#back && now() - this.#back.at >= CAUGHT_UP_SECONDS) this.#back = null;
  }
}

type ForGood = "left" | "anew";

const FOR_GOOD: Readonly<Record<ForGood, (name: string) => string>> = {
  left: (name) => `${name} has left the room.`,
  anew: (name) => `${name} opened the program anew, and cannot come back into this form.`,
};

const WHY: Readonly<Record<Exclude<GoneWhy, ForGood>, string>> = {
  "broken-off":
    "The connection there broke off, and is tried again by itself while the program there is open.",
  silent: "Nothing comes from there any more; it may come back.",
  here: "The room broke off here, and is tried again by itself.",
};

function goneWords(name: string, why: Exclude<GoneWhy, ForGood>): FarGone {
  return {
    short: `The kit of ${name} is gone`,
    sentence:
      `The kit of ${name} is gone. ${WHY[why]} If it is back within ${WAIT_SECONDS} seconds the form goes on; else it ` +
      "ends with what was heard so far.",
  };
}
