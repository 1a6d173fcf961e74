/** Plays a lesson again: its strikes are handed to the audio clock ahead of time, and the cursor follows what is heard. */
import type { Seconds } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { PlannedStroke, Playing } from "../../audio/strokePlayer.ts";
import { Store } from "../../session/store.ts";
import { newPlayhead, type Playhead, type PlayheadEvent, playheadAfter, type Span } from "./playhead.ts";
import { type Strikes, strikesBetween } from "./strikes.ts";

/** What it needs of the page; a test brings its own. */
export interface PlayerPlace {
  /** The session clock. */
  readonly now: () => Seconds;
  /** Calls back before the next picture; returns the way to call it off. */
  readonly nextFrame: (draw: () => void) => () => void;
}

export const THIS_PAGE: PlayerPlace = {
  now: () => performance.now() / 1000,
  nextFrame: (draw) => {
    const frame = requestAnimationFrame(draw);
    return () => cancelAnimationFrame(frame);
  },
};

/** Where playing began: on the session clock, and in the lesson. */
interface Run {
  readonly playing: Playing;
  readonly cursor: Seconds;
  readonly rate: number;
  readonly loop: Span | null;
  /** How much of the lesson there was: what has come since is not yet planned. */
  readonly seconds: Seconds;
}

/** All kits are heard. */
export const ALL = "all";

/** After these, what is planned is no longer what should sound. */
const REPLANS: ReadonlySet<PlayheadEvent["kind"]> = new Set([
  "put",
  "rate",
  "faster",
  "slower",
  "loop-from",
  "loop-to",
  "loop",
]);

export class ReplayPlayer extends Store<Playhead, PlayheadEvent> {
  readonly #sound: Pick<SoundDesk, "playStrokes">;
  #strikes: Strikes;
  #of = ALL;
  readonly #place: PlayerPlace;
  #run: Run | undefined;
  #callOff: (() => void) | undefined;

  constructor(
    sound: Pick<SoundDesk, "playStrokes">,
    strikes: Strikes,
    {
      seconds,
      cursor,
      goesOn = false,
    }: { readonly seconds: Seconds; readonly cursor: Seconds; readonly goesOn?: boolean },
    place: PlayerPlace = THIS_PAGE,
  ) {
    super(newPlayhead(seconds, cursor, goesOn), playheadAfter);
    this.#sound = sound;
    this.#strikes = strikes;
    this.#place = place;
  }

  /** Plays, or stops. Call it from the user's own action, because of the sound. */
  toggle(): void {
    if (this.get().isPlaying) this.stop();
    else this.play();
  }

  play(): void {
    const { cursor, seconds, loop } = this.get();
    if (loop && (cursor < loop.from || cursor >= loop.to)) this.dispatch({ kind: "put", at: loop.from });
    else if (cursor >= seconds) this.dispatch({ kind: "put", at: 0 });
    this.dispatch({ kind: "played" });
    this.#begin();
  }

  stop(): void {
    this.#end();
    this.dispatch({ kind: "stopped" });
  }

  /**
   * The strikes of the lesson that are listened to from now on.
   *
   * @param of which they are: those of one kit, or of all. As long as that stays, the lesson has only grown, and what
   * sounds goes on undisturbed.
   */
  listenTo(strikes: Strikes, of: string = ALL): void {
    if (this.#strikes === strikes) return;
    this.#strikes = strikes;
    if (this.#of === of) return;
    this.#of = of;
    if (this.get().isPlaying) this.#begin();
  }

  /** Anything else that is done at the playhead; what sounds follows. */
  do(event: PlayheadEvent): void {
    this.dispatch(event);
    if (!REPLANS.has(event.kind) || !this.get().isPlaying) return;
    const { cursor, loop } = this.get();
    // One who goes out of the loop wants to be elsewhere: there it is played on from.
    if (loop && event.kind === "put" && (cursor < loop.from || cursor >= loop.to))
      this.dispatch({ kind: "loop", span: null });
    this.#begin();
  }

  #begin(): void {
    this.#end();
    const { cursor, rate, loop, seconds } = this.get();
    const strokes = plannedStrokes(this.#strikes, { cursor, rate, loop });
    const loopSeconds = loop ? { loopSeconds: (loop.to - loop.from) / rate } : {};
    this.#run = { playing: this.#sound.playStrokes(strokes, loopSeconds), cursor, rate, loop, seconds };
    this.#callOff = this.#place.nextFrame(() => this.#follow());
  }

  #end(): void {
    this.#callOff?.();
    this.#callOff = undefined;
    this.#run?.playing.stop();
    this.#run = undefined;
  }

  #follow(): void {
    const run = this.#run;
    if (!run) return;
    const played = Math.max(0, this.#place.now() - run.playing.from) * run.rate;
    const at = placeAfter(run, played);
    if (at >= this.get().seconds) {
      this.stop();
      this.dispatch({ kind: "reached", at: this.get().seconds });
      return;
    }
    this.dispatch({ kind: "reached", at });
    if (!run.loop && at >= run.seconds) {
      // It was played to the end there was, and more has come since.
      this.#begin();
      return;
    }
    this.#callOff = this.#place.nextFrame(() => this.#follow());
  }
}

/** Where one is after so much of the lesson was played from the cursor on. */
export function placeAfter({ cursor, loop }: Pick<Run, "cursor" | "loop">, played: Seconds): Seconds {
  if (!loop) return cursor + played;
  const length = loop.to - loop.from;
  return loop.from + ((cursor - loop.from + played) % length);
}

/**
 * The strikes from the cursor on as they are to be played, seconds from there; of a loop one round, from the cursor to the
 * cursor.
 */
export function plannedStrokes(
  strikes: Strikes,
  { cursor, rate, loop }: { readonly cursor: Seconds; readonly rate: number; readonly loop: Span | null },
): readonly PlannedStroke[] {
  const planned = (from: Seconds, to: Seconds, shift: Seconds): PlannedStroke[] => {
    const { first, end } = strikesBetween(strikes, from, to);
    return strikes.hits
      .slice(first, end)
      .flatMap(({ time, voice, zone, velocity }) =>
        time < to ? [{ time: (time + shift - cursor) / rate, voice, zone, velocity }] : [],
      );
  };
  if (!loop) return planned(cursor, Number.POSITIVE_INFINITY, 0);
  return [...planned(cursor, loop.to, 0), ...planned(loop.from, cursor, loop.to - loop.from)];
}
