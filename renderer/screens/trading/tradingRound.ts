/** Runs a round of Trading: what is set, who plays, and one form after another. */

import type { Presence } from "../../../engine/rooms/index.ts";
import type { Dealt, TradingSet } from "../../../engine/rounds/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import type { FarForm } from "../../room/formsBetween.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store } from "../../session/store.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { RoundOfLesson } from "../round/roundOfLesson.ts";
import { PLAYER_NAMES } from "./absentPlayers.ts";
import { farFormFrom, wayOf } from "./farForm.ts";
import { type FarOver, FormOn } from "./formOn.ts";
import { KIT_NAMES } from "./kitNames.ts";
import { tradingOnWall } from "./onWall.ts";
import { NOTHING_ON, type TradingNow } from "./tradingNow.ts";
import type { FarPlace, TradingPlace } from "./tradingPlace.ts";

export class TradingRound extends RoundOfLesson<"trading"> implements FramedRound {
  readonly on = new Store<TradingNow, Partial<TradingNow>>(NOTHING_ON, (before, change) => ({
    ...before,
    ...change,
  }));
  /** How it goes the next time it begins. */
  readonly wanted: Store<TradingSet, Partial<TradingSet>>;
  /** What could not be done, or is not sure, in sentences; of the form that is on, or was the last. */
  readonly trouble = new Store<readonly string[], string | null>([], (said, next) =>
    next === null ? [] : [...said, next],
  );
  readonly #place: TradingPlace;
  #form: FormOn | undefined;
  #far: FarPlace | undefined;

  constructor(round: SteppedRound<"trading">, place: TradingPlace) {
    super(round, place.book);
    this.#place = place;
    this.wanted = new Store<TradingSet, Partial<TradingSet>>(round.get().own.set, (before, change) => ({
      ...before,
      ...change,
    }));
    round.subscribe(() => this.#settle());
  }

  /** What the two are called. */
  names(): readonly [string, string] {
    const { set } = this.get().own;
    const [first, second] = this.get().players.map((id) => this.#place.nicknameOf(id));
    switch (set.kits) {
      case "two":
        return [first ?? "First kit", second ?? "Second kit"];
      case "shared":
        return [first ?? "First player", second ?? "Second player"];
      case "far":
        return [first ?? "You", this.#far?.partner?.shownName ?? "The far player"];
      case "with-player":
        return [first ?? "You", PLAYER_NAMES.sparse];
      case "demonstration":
        return [PLAYER_NAMES.early, PLAYER_NAMES.sparse];
    }
  }

  readonly begin = (dealt?: Dealt): void => {
    this.round.begin(this.players(), { dealt });
    this.round.add({ kind: "set-out", set: this.wanted.get() });
    // Far apart both have to be there before one of them begins a form.
    if (this.get().own.set.kits !== "far") this.next();
  };

  /** Two players who are not there show how it goes, in less than a minute. */
  show(): void {
    this.wanted.dispatch({
      form: "twos",
      time: "time-keeper",
      kits: "demonstration",
      groove: false,
      tempoBpm: 100,
    });
    if (this.get().stage === "over") this.anew();
    this.begin();
  }

  readonly pause = (): void => {
    this.#form?.end();
    this.round.pause();
  };

  readonly resume = (): void => this.round.resume();

  override anew(): void {
    super.anew();
    // Those who only showed it do not stay.
    if (this.wanted.get().kits === "demonstration") this.wanted.dispatch({ kits: "with-player" });
  }

  protected acts(): CommandActs {
    const { own } = this.get();
    const stop = (): void => this.stop();
    if (!this.isOn) {
      const next = (): void => this.next();
      return { next, "turn-round": () => this.turnRound(), stop };
    }
    if (own.set.form === "free") {
      const next = (): void => this.#form?.passOn(this.#place.now());
      return { ...(this.#form?.canPassOn ? { next } : {}), again: () => this.#form?.end(), stop };
    }
    if (this.on.get().gone) return { again: () => this.#form?.endWithoutFar(), stop };
    const again = (): void => {
      this.#form?.end();
      this.next();
    };
    return { again, stop };
  }

  readonly onWall = (): RoundOnWall => tradingOnWall(this.get(), this.on.get(), this.names());

  readonly onWallChanged = (listener: () => void): (() => void) => this.on.subscribe(listener);

  /** Whether a form is being played in this window. */
  get isOn(): boolean {
    return this.on.get().turns.length > 0;
  }

  /** Begins the form from its top. */
  next(): void {
    if (this.get().stage !== "running" || this.isOn) return;
    this.trouble.dispatch(null);
    const { set, calls } = this.get().own;
    if (set.kits !== "far") {
      this.#beginForm(null);
      return;
    }
    const told = farFormFrom(this.#far, { set, calls: calls === 0 }, this.#place.now());
    if (told.kind === "trouble") {
      this.trouble.dispatch(told.sentence);
      return;
    }
    this.#far?.sayForm(told.said);
    this.#beginFar({
      set,
      calls: calls === 0,
      delaySeconds: told.said.delaySeconds,
      line: told.said.beginsAt,
    });
  }

  /** Meets who is in a room; a form that is begun there begins here too. Returns the way to part. */
  meet(far: FarPlace): () => void {
    this.#far = far;
    const stops = [
      far.onForm((form) => this.#begunThere(form)),
      far.onFormLeft(() => this.#form?.leftThere()),
    ];
    return () => {
      for (const stop of stops) stop();
      far.holdDelay(null);
      this.#far = undefined;
    };
  }

  #begunThere(form: FarForm): void {
    const { stage, own } = this.get();
    if (stage !== "running" || own.set.kits !== "far" || this.isOn) {
      this.trouble.dispatch(null);
      this.trouble.dispatch(
        `A form was begun at the other place. To take part, begin the round here on ${KIT_NAMES.far}, then ask for it again.`,
      );
      return;
    }
    this.trouble.dispatch(null);
    this.round.add({ kind: "form-left" });
    this.round.add({ kind: "set-out", set: form.set });
    // Who calls there answers here.
    if ((own.calls === 0) === form.calls) this.round.add({ kind: "turned-round" });
    this.#beginFar({ ...form, calls: !form.calls });
  }

  /** @param form `calls`: whether who sits here calls. */
  #beginFar(form: FarForm): void {
    const far = this.#far;
    far?.holdDelay(form.delaySeconds);
    const uncertainty = (): Seconds => far?.partner?.clock?.uncertainty ?? 0;
    // The lines there are laid by the clocks as they are known now; what comes is put over as they are known then.
    const laidWithin = uncertainty();
    this.#beginForm({
      way: wayOf(form),
      line: form.line,
      ended: (isLeft) => {
        if (isLeft) far?.leaveForm();
        far?.holdDelay(null);
      },
      presence: () => far?.presence ?? NOBODY,
      clockSeconds: () => laidWithin + uncertainty(),
    });
  }

  #beginForm(over: FarOver | null): void {
    // A form that stands in the log as under way was broken off with the program.
    this.round.add({ kind: "form-left" });
    if (!this.round.add({ kind: "form-began" })) return;
    this.#form = new FormOn({
      round: this.round,
      on: this.on,
      place: this.#place,
      names: () => this.names(),
      over,
      trouble: this.trouble.dispatch,
    });
  }

  turnRound(): void {
    this.round.add({ kind: "turned-round" });
  }

  stop(): void {
    this.#form?.end();
    this.round.stop();
  }

  /** The page is left: nobody sees whose turn it is. */
  leavePage(): void {
    this.#form?.end();
  }

  /** It may be ended from elsewhere: the desk, another round, the end of the lesson. */
  #settle(): void {
    if (this.get().stage !== "running" && this.isOn) this.#form?.silence();
  }
}

/** No room any more. */
const NOBODY: Presence = { kind: "gone", why: "left", quietSeconds: Number.POSITIVE_INFINITY };
