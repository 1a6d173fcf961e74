/**
 * Plays a piece into the session as if a kit were played: a timer hands the messages over when they are due,
 * each stamped with its exact intended moment, so that a late timer moves no stroke.
 */
import type { Seconds } from "../../engine/units/index.ts";
import type { TimedMessage } from "../midi/timedMessage.ts";
import { Store } from "../session/store.ts";
import type { Piece } from "./piece.ts";

export type PlayerState =
  | { readonly state: "silent" }
  | {
      readonly state: "playing";
      readonly title: string;
      readonly seconds: Seconds;
      /** What is played, and when its time 0 is, on the session clock. */
      readonly piece: Piece;
      readonly from: Seconds;
    }
  /** The piece ended by itself, or was handed over at once. */
  | { readonly state: "played"; readonly title: string; readonly strokes: number };

/** Air before the first stroke: a sound device that is only just being opened takes a quarter of a second, or more. Our choice. */
const LEAD_SECONDS: Seconds = 0.6;

const secondsNow = (): Seconds => performance.now() / 1000;

export class DemonstrationPlayer extends Store<PlayerState, PlayerState> {
  readonly #send: (messages: readonly TimedMessage[], live: boolean) => void;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(send: (messages: readonly TimedMessage[], live: boolean) => void) {
    super({ state: "silent" }, (_, next) => next);
    this.#send = send;
  }

  /** Plays at true speed. What was playing stops. */
  play(piece: Piece): void {
    clearTimeout(this.#timer);
    const from = secondsNow() + LEAD_SECONDS;
    this.dispatch({
      state: "playing",
      title: piece.title,
      seconds: piece.messages.at(-1)?.time ?? 0,
      piece,
      from,
    });
    this.#playFrom(piece, 0, from);
  }

  /** Hands over the whole piece now, stamped so that its end is now. */
  playAtOnce(piece: Piece): void {
    clearTimeout(this.#timer);
    const start = secondsNow() - (piece.messages.at(-1)?.time ?? 0);
    this.#send(
      piece.messages.map(({ time, message }) => ({ time: start + time, message })),
      false,
    );
    this.#ended(piece);
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.dispatch({ state: "silent" });
  }

  #playFrom(piece: Piece, first: number, start: Seconds): void {
    const now = secondsNow();
    let next = first;
    const due: TimedMessage[] = [];
    for (let timed = piece.messages[next]; timed && start + timed.time <= now; timed = piece.messages[next]) {
      due.push({ time: start + timed.time, message: timed.message });
      next += 1;
    }
    this.#send(due, true);
    const upcoming = piece.messages[next];
    if (!upcoming) {
      this.#ended(piece);
      return;
    }
    const waitMs = Math.max(0, (start + upcoming.time - secondsNow()) * 1000);
    this.#timer = setTimeout(() => this.#playFrom(piece, next, start), waitMs);
  }

  #ended(piece: Piece): void {
    const strokes = piece.messages.filter(({ message }) => message.kind === "note-on").length;
    this.dispatch({ state: "played", title: piece.title, strokes });
  }
}
