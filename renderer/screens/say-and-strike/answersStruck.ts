/** The answers that are struck to one call, each at the kit it is struck on. */
import type { Call, PlayerId, SaidStroke } from "../../../engine/rounds/index.ts";
import type { KitLog } from "../../session/kitLog.ts";
import type { Seats } from "./seats.ts";
import { StruckPhrase, silenceMs } from "./struckPhrase.ts";

export class AnswersStruck {
  readonly #phrases = new Map<PlayerId | null, StruckPhrase>();
  readonly #tell: (strokesSoFar: ReadonlyMap<PlayerId | null, number>) => void;
  readonly #answer: (strokes: readonly SaidStroke[], by: PlayerId | null) => void;
  readonly #counts = new Map<PlayerId | null, number>();

  /**
   * @param tell is told of each who is listened to, and how many strokes there are.
   * @param answer takes an answer that is over; from then on its player is listened to no more.
   */
  constructor(
    tell: (strokesSoFar: ReadonlyMap<PlayerId | null, number>) => void,
    answer: (strokes: readonly SaidStroke[], by: PlayerId | null) => void,
  ) {
    this.#tell = tell;
    this.#answer = answer;
  }

  /** Listens to these, and to nobody else. Who is listened to at the same kit already is not begun anew. */
  hear(seats: Seats, call: Call): void {
    for (const [player, phrase] of this.#phrases) {
      if (seats.get(player) === phrase.log) continue;
      phrase.stop();
      this.#forget(player);
    }
    for (const [player, log] of seats)
      if (!this.#phrases.has(player)) this.#phrases.set(player, this.#listen(player, log, call));
    this.#tellCounts();
  }

  /** Listens to nobody; what was struck so far counts for nothing. */
  stop(): void {
    if (this.#phrases.size === 0) return;
    for (const phrase of this.#phrases.values()) phrase.stop();
    this.#phrases.clear();
    this.#counts.clear();
    this.#tellCounts();
  }

  #listen(player: PlayerId | null, log: KitLog, call: Call): StruckPhrase {
    return new StruckPhrase(
      log,
      silenceMs(call),
      (count) => {
        this.#counts.set(player, count);
        this.#tellCounts();
      },
      (strokes) => {
        this.#forget(player);
        this.#answer(strokes, player);
      },
    );
  }

  #forget(player: PlayerId | null): void {
    this.#phrases.delete(player);
    this.#counts.delete(player);
  }

  #tellCounts(): void {
    this.#tell(new Map([...this.#phrases.keys()].map((each) => [each, this.#counts.get(each) ?? 0])));
  }
}
