/**
 * Measuring a set-up by striking with the click: the click plays, each strike is set against the click it is nearest to,
 * and after {@link STRIKES_ASKED} of them the middle is told. Nothing is kept until the player says so.
 */
import {
  CLICKS_TO_FALL_IN,
  type EvenClick,
  measuredByStrikes,
  offsetsFromClick,
  type SetUp,
  STRIKES_ASKED,
  type StrikesMeasured,
} from "../../../engine/kit/index.ts";
import { FOUR_FOUR, plainClick } from "../../../engine/score/index.ts";
import { beatSeconds, type Seconds } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { HeardKit } from "../../session/heardKit.ts";
import type { Source } from "../../session/kitLog.ts";
import { Store } from "../../session/store.ts";

/** Where people tap most at ease (Fraisse 1982: 500–600 ms), and far enough apart for headphones that are 300 ms late. */
export const MEASURING_BPM = 100;
/** Air before the first click: long enough to lift the sticks. */
const BREATH_SECONDS: Seconds = 0.8;

export type Striking =
  | { readonly stage: "before" }
  | { readonly stage: "striking"; readonly counted: number }
  | { readonly stage: "struck"; readonly setUp: SetUp; readonly measured: StrikesMeasured };

export class StrikingMeasure extends Store<Striking, Striking> {
  readonly #kit: HeardKit;
  readonly #sound: Pick<SoundDesk, "startClick" | "stopClick">;
  #stopListening: (() => void) | undefined;

  constructor(kit: HeardKit, sound: Pick<SoundDesk, "startClick" | "stopClick">) {
    super({ stage: "before" }, (_, next) => next);
    this.#kit = kit;
    this.#sound = sound;
  }

  /** Begins. Call it from the user's own action, because of the click's sound. */
  start(): void {
    this.stop();
    const from = performance.now() / 1000 + BREATH_SECONDS;
    const stepSeconds = beatSeconds(MEASURING_BPM);
    const way = plainClick(FOUR_FOUR);
    void this.#sound.startClick({ way, tempoBpm: MEASURING_BPM, from, countInBars: 0 });
    this.dispatch({ stage: "striking", counted: 0 });
    this.#listen({ from: from + CLICKS_TO_FALL_IN * stepSeconds, stepSeconds });
  }

  stop(): void {
    this.#stopListening?.();
    this.#stopListening = undefined;
    this.#sound.stopClick();
    this.dispatch({ stage: "before" });
  }

  #listen(click: EvenClick): void {
    const kit = this.#kit;
    const { log } = kit;
    const strikes: Seconds[] = [];
    /** The first that strikes is measured; another player's strikes would be of another set-up. */
    let measured: Source | undefined;
    let seen = log.get();
    this.#stopListening = log.subscribe(() => {
      const fresh = log.entries.slice(seen);
      seen = log.get();
      for (const { event, source, live } of fresh) {
        if (!live || event.kind !== "hit" || source === "demonstration" || source === "far") continue;
        measured ??= source;
        // What is known of the set-up so far was taken off: measured is the whole.
        if (source === measured) strikes.push(event.hit.time + kit.lateSeconds(source));
      }
      const offsets = offsetsFromClick(strikes, click);
      const setUp = measured && kit.setUpOf(measured);
      if (offsets.length < STRIKES_ASKED || !setUp) {
        this.dispatch({ stage: "striking", counted: offsets.length });
        return;
      }
      this.stop();
      this.dispatch({ stage: "struck", setUp, measured: measuredByStrikes(offsets) });
    });
  }
}
