/**
 * Somebody else in the room, as one program knows them: what they last said of themselves, how their clock stands to ours, their
 * strikes in order, and what they are to be asked, and when.
 */
import type { Hit } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";
import { ClockFilter, type ClockReading, HeldOffset } from "./clockExchange.ts";
import { InOrder, type Span } from "./inOrder.ts";
import type { HeardSummary, MessageOf, PersonId, Role } from "./message.ts";

/** Somebody else in the room. */
export interface Person {
  readonly id: PersonId;
  /** As they call themselves. */
  readonly name: string;
  /** Told apart from others of that name. */
  readonly shownName: string;
  readonly program: string;
  readonly role: Role;
  readonly isHere: boolean;
  /** They went by their own word; else their connection broke, and may come back. */
  readonly hasLeft: boolean;
  /** Since anything came from them last. */
  readonly quietSeconds: Seconds;
  /** `null` before their clock has answered. */
  readonly clock: ClockReading | null;
  readonly strikes: number;
  /** Strikes that were sent and never came. */
  readonly lost: number;
  readonly heard: HeardSummary | null;
}

/** At first clocks are asked often, so that the delay can be chosen soon; then once in a while. Our choice. */
const FIRST_ASKING_SECONDS: Seconds = 0.25;
const ASKING_SECONDS: Seconds = 2;
const FIRST_ASKINGS = 8;
const ASKED_AS_USUAL = 8;
/** With fewer answers so little is known of a clock that it may step within a phrase as well. Our choice. */
const FEWEST_SAMPLES = 4;
/** Before strikes are asked for again: two that only overtook each other are in order by then. */
const OVERTAKING_SECONDS: Seconds = 0.05;
/** After a silence this long a phrase is over. Our choice: longer than a bar's rest at a walking pace. */
const SILENCE_SECONDS: Seconds = 3;
/** What was lost is here after so many ways there and back: asked for, lost once more, and asked again. Our choice. */
const ROUND_TRIPS_AGAIN = 2;

/** An answer that took longer tells nothing. */
const OLDEST_ANSWER_SECONDS: Seconds = 10;

/** A moment on our clock, and how sure that is. */
export interface OwnTime {
  readonly time: Seconds;
  readonly uncertainty: Seconds;
}

export class Other {
  readonly id: PersonId;
  hello: MessageOf<"hello">;
  isHere = true;
  hasLeft = false;
  /** When anything came from them last, on our clock. */
  heardAt: Seconds;
  heard: HeardSummary | null = null;
  readonly #clock = new ClockFilter();
  readonly #held = new HeldOffset();
  #askings = 0;
  #askAt: Seconds;
  readonly #stream: InOrder<Hit>;
  #strikes = 0;
  /** When strikes came last, on our clock. */
  #struckAt: Seconds = Number.NEGATIVE_INFINITY;
  #missingSince: Seconds | null = null;

  /** @param wasKept the broker kept their hello from before. */
  constructor(hello: MessageOf<"hello">, now: Seconds, wasKept: boolean) {
    this.id = hello.id;
    this.hello = hello;
    this.heardAt = now;
    this.#askAt = now;
    // Who came just now begins with what they say; of who was here before, what is played from now on counts.
    this.#stream = new InOrder<Hit>(wasKept ? null : hello.sequence);
  }

  /** They said hello again. */
  metAgain(hello: MessageOf<"hello">, now: Seconds): void {
    this.hello = hello;
    this.isHere = true;
    this.hasLeft = false;
    this.#askAt = now;
    this.#stream.standing(hello.sequence);
    this.#noteMissing(now);
  }

  /** @param shownName told apart from others of their name. */
  asPerson(shownName: string, now: Seconds): Person {
    return {
      id: this.id,
      name: this.hello.name,
      shownName,
      program: this.hello.program,
      role: this.hello.role,
      isHere: this.isHere,
      hasLeft: this.hasLeft,
      quietSeconds: Math.max(0, now - this.heardAt),
      clock: this.#clock.reading(now),
      strikes: this.#strikes,
      lost: this.#stream.lost,
      heard: this.heard,
    };
  }

  /** Of what came of their strikes, those that are in order now, each once. */
  struck(message: MessageOf<"hits" | "standing" | "forgotten">, now: Seconds): readonly Hit[] {
    const hits = this.#inOrder(message);
    if (hits.length > 0) {
      this.#struckAt = now;
      this.#strikes += hits.length;
    }
    this.#noteMissing(now);
    return hits;
  }

  #inOrder(message: MessageOf<"hits" | "standing" | "forgotten">): readonly Hit[] {
    switch (message.kind) {
      case "hits":
        return this.#stream.take(message.from, message.hits);
      case "standing":
        this.#stream.standing(message.upTo);
        return [];
      case "forgotten":
        return this.#stream.giveUp(message.upTo);
    }
  }

  #noteMissing(now: Seconds): void {
    this.#missingSince = this.#stream.isWhole ? null : (this.#missingSince ?? now);
  }

  /** Their clock is asked as soon as it can be. */
  askClockNow(now: Seconds): void {
    this.#askAt = now;
  }

  /**
   * Whether their clock is to be asked now; then it counts as asked.
   *
   * @param mine our role.
   * @param among so many others.
   */
  isClockDue(now: Seconds, mine: Role, among: number): boolean {
    if (now < this.#askAt || !needsClockOf(mine, this.hello.role)) return false;
    this.#askings += 1;
    const usual = this.#askings <= FIRST_ASKINGS ? FIRST_ASKING_SECONDS : ASKING_SECONDS;
    // Among many each is asked less often: all together they would ask in squares.
    this.#askAt = now + usual * Math.max(1, among / ASKED_AS_USUAL);
    return true;
  }

  /** Takes the answer of their clock; `false` where it tells nothing. */
  answered({ t1, t2, t3 }: MessageOf<"clock-answer">, now: Seconds): boolean {
    if (t1 > now || t1 < now - OLDEST_ANSWER_SECONDS) return false;
    this.#clock.take({ t1, t2, t3, t4: now });
    const reading = this.#clock.reading(now);
    // While strikes are missing, or may be on their way again, a phrase is on however silent it is here.
    const onTheWay = 2 * ROUND_TRIPS_AGAIN * (reading?.worstOneWay ?? 0);
    const isSilent = this.#stream.isWhole && now > this.#struckAt + SILENCE_SECONDS + onTheWay;
    if (reading) this.#held.follow(reading, now, isSilent || this.#clock.samples < FEWEST_SAMPLES);
    return true;
  }

  /** A moment of their clock on ours; `null` before their clock has answered. */
  inOwnTime(time: Seconds, now: Seconds): OwnTime | null {
    const reading = this.#clock.reading(now);
    const { offset } = this.#held;
    if (!reading || offset === undefined) return null;
    // What is held may lag behind what is known.
    return { time: time - offset, uncertainty: reading.uncertainty + Math.abs(reading.offset - offset) };
  }

  /** The strikes of theirs that are to be asked for again now; then they count as asked for. */
  gapsDue(now: Seconds): readonly Span[] {
    if (this.#missingSince === null || now < this.#missingSince + OVERTAKING_SECONDS) return [];
    // Not asked again before the answer can be here.
    this.#missingSince = now + 2 * (this.#clock.reading(now)?.worstOneWay ?? 0);
    return this.#stream.missing;
  }
}

/** A kit of a lab needs nobody's clock; a player that of players, the desk that of all who strike. */
function needsClockOf(mine: Role, theirs: Role): boolean {
  return mine !== "kit" && (theirs === "player" || (theirs === "kit" && mine === "desk"));
}
