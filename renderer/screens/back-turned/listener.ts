/** One who listens: what they heard in earlier lessons and in this round, where they stand by it, and what they are asked next. */
import {
  askingWeight,
  type Belief,
  beliefAfter,
  beliefFrom,
  type DrawnOf,
  drawQuestion,
  type HeardAs,
  highestRung,
  nextRung,
  questionOf,
  RUNGS,
  rungAt,
  rungOf,
  SURFACES,
  type Surface,
} from "../../../engine/ear/index.ts";
import {
  type BackTurned,
  backTurnedRules,
  dealtNext,
  heardAsBy,
  type Play,
  type PlayerId,
  rungAnswersOf,
  type ShownItem,
} from "../../../engine/rounds/index.ts";
import type { Chance } from "../../../engine/units/index.ts";
import type { HeardBefore } from "../../app/heardEarlier.ts";

/** What is heard before the first question reaches so far beyond where the listener is thought to stand. Our choice. */
const REFRESHED_BEYOND = 2;

export class Listener {
  readonly #play: Pick<Play<BackTurned>, "own" | "dealt">;
  readonly #by: PlayerId | null;
  readonly #earlier: HeardBefore;

  /** @param earlier what was heard in earlier lessons. */
  constructor(play: Pick<Play<BackTurned>, "own" | "dealt">, by: PlayerId | null, earlier: HeardBefore) {
    this.#play = play;
    this.#by = by;
    this.#earlier = earlier;
  }

  /** Where they stand. */
  belief(): Belief {
    return beliefAfter(this.#answers(), beliefFrom(this.#earlier.answers));
  }

  /** What was taken for what. */
  heard(): readonly HeardAs[] {
    return [...this.#earlier.heard, ...heardAsBy(this.#play.own, this.#by)];
  }

  /** The rung to be asked next. */
  nextRung(): number {
    return nextRung(this.belief(), highestRung([...this.#earlier.answers, ...this.#answers()]));
  }

  /**
   * The surfaces of all rungs up to where the listener is thought to stand, or of those that ask what was dealt, in the order
   * of the kit.
   */
  refresher(): readonly Surface[] {
    const standing = this.nextRung();
    const ofDealt = (this.#play.dealt?.items ?? []).flatMap(
      (item) => rungOf(soundSubject(item), standing) ?? [],
    );
    const rungs = ofDealt.length > 0 ? ofDealt.map(rungAt) : RUNGS.slice(0, standing + REFRESHED_BEYOND);
    const reached = rungs.flatMap(({ pool }) => pool);
    return SURFACES.filter((surface) => reached.includes(surface));
  }

  /** The next question: what was dealt and comes next, or drawn from the rung to be asked. */
  question(chance: Chance): DrawnOf {
    return this.#dealtQuestion(chance) ?? this.questionAt(this.nextRung(), chance);
  }

  /** A question of this rung. */
  questionAt(rung: number, chance: Chance): DrawnOf {
    return { moments: drawQuestion(rungAt(rung), chance, askingWeight(this.heard())), rung };
  }

  #dealtQuestion(chance: Chance): DrawnOf | null {
    const { dealt, own } = this.#play;
    const standing = this.nextRung();
    const asked = backTurnedRules.shown(own).map(({ item }) => item);
    const item = dealtNext(dealt, asked, (each) => rungOf(soundSubject(each), standing) !== null);
    return item && questionOf(soundSubject(item), standing, chance, askingWeight(this.heard()));
  }

  #answers() {
    return rungAnswersOf(this.#play.own, this.#by);
  }
}

/** What an item of memory says of a sound: `floor-tom`, `sequence-3`. */
function soundSubject(item: ShownItem): string {
  return item.slice(item.indexOf(":") + 1);
}
