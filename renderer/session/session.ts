/**
 * The one path of a strike: a source hands over a MIDI message with its moment, the ear at the end of the
 * cable makes an event of it, the event is appended to the log, and the screens watch the log.
 */
import { KitConnection } from "../midi/kitConnection.ts";
import { SecondKit } from "../midi/secondKit.ts";
import type { TimedMessage } from "../midi/timedMessage.ts";
import { DemonstrationPlayer } from "../players/demonstrationPlayer.ts";
import { type ChosenKits, keepChosenKits, readChosenKits } from "./chosenKits.ts";
import { ClickSettings } from "./clickSettings.ts";
import type { Command } from "./commandStrike.ts";
import { HeardKit } from "./heardKit.ts";
import type { KeepingPlace } from "./keepingPlace.ts";
import type { KitLog, Source } from "./kitLog.ts";
import type { KitMapStore } from "./kitMapChoice.ts";
import { SetUpStore } from "./setUps.ts";
import { Store } from "./store.ts";

export class Session {
  readonly setUps: SetUpStore;
  readonly click: ClickSettings;
  readonly connection: KitConnection;
  readonly secondKit: SecondKit;
  readonly demonstration: DemonstrationPlayer;
  /** The first kit and the second. */
  readonly kits: readonly [HeardKit, HeardKit];
  /** The kit whose turn it is: rounds listen to it. */
  readonly listened: Store<HeardKit, HeardKit>;
  readonly #place: KeepingPlace;
  readonly #commandListeners = new Set<(command: Command) => void>();
  #chosen: ChosenKits;

  constructor(place: KeepingPlace) {
    this.#place = place;
    this.#chosen = readChosenKits(place);
    this.setUps = new SetUpStore(place);
    this.click = new ClickSettings(place);
    const heard = (command: Command): void => {
      for (const listener of this.#commandListeners) listener(command);
    };
    this.kits = [new HeardKit(place, this.setUps, heard), new HeardKit(place, this.setUps, heard)];
    this.listened = new Store<HeardKit, HeardKit>(this.kits[0], (_, kit) => kit);
    this.connection = new KitConnection((timed) => this.receive([timed], "kit"));
    this.secondKit = new SecondKit(this.connection, (timed) => this.kits[1].receive([timed], "kit"));
    this.#followCables();
    this.connection.subscribe(() => this.#followCables());
    this.secondKit.subscribe(() => this.#followCables());
    this.demonstration = new DemonstrationPlayer((timed, live) => this.receive(timed, "demonstration", live));
  }

  /** What the first kit has sent. */
  get log(): KitLog {
    return this.kits[0].log;
  }

  /** The first kit's map. */
  get kitMap(): KitMapStore {
    return this.kits[0].kitMap;
  }

  /**
   * Takes messages: the first kit's own at that kit, what the keys and the demonstration play at the one whose turn it is.
   * See {@link HeardKit.receive}.
   */
  receive(messages: readonly TimedMessage[], source: Source, live = true): void {
    const kit = source === "kit" ? this.kits[0] : this.listened.get();
    kit.receive(messages, source, live);
  }

  /** Rounds listen to this kit from now on: 0 the first, 1 the second. */
  listenTo(kit: number): void {
    this.listened.dispatch(this.kits[kit === 1 ? 1 : 0]);
  }

  /** Calls back for every command that is struck, at either kit. Returns the way to stop. */
  onCommand(listener: (command: Command) => void): () => void {
    this.#commandListeners.add(listener);
    return () => this.#commandListeners.delete(listener);
  }

  /** This input is the first kit, now and the next time. What was there changes places with it. */
  chooseFirst(id: string): void {
    const before = this.connection.get();
    const second = this.secondKit.get();
    this.#chosen = { ...this.#chosen, first: null };
    this.connection.choose(id);
    if (second.state !== "none" && second.input.id === id && "input" in before)
      this.secondKit.choose(before.input.id);
    this.#remember();
  }

  /** This input is the second kit, now and the next time; `null`: there is none. */
  chooseSecond(id: string | null): void {
    this.#chosen = { ...this.#chosen, second: null };
    if (id === null) this.secondKit.letGo();
    else this.secondKit.choose(id);
    this.#remember();
  }

  #remember(): void {
    const first = this.connection.get();
    const second = this.secondKit.get();
    this.#chosen = {
      first: "input" in first ? first.input.name : null,
      second: second.state === "none" ? null : second.input.name,
    };
    keepChosenKits(this.#place, this.#chosen);
  }

  /** Takes up the kits that were chosen the last time, and gives each what is kept of its input. */
  #followCables(): void {
    const cable = this.connection.get();
    const inputs = "inputs" in cable ? cable.inputs : [];
    const first = "input" in cable ? cable.input : undefined;
    const wanted = inputs.find(({ name }) => name === this.#chosen.first);
    if (wanted && cable.state !== "unplugged" && first?.name !== wanted.name) {
      this.connection.choose(wanted.id);
      return;
    }
    const second = this.secondKit.get();
    const other = this.secondKit.free().find(({ name }) => name === this.#chosen.second);
    if (first && other && second.state === "none") {
      this.secondKit.choose(other.id);
      return;
    }
    // A single kit is taken without asking. It is not the first for good where it is the second of two.
    if (
      cable.state === "connected" &&
      first &&
      ![this.#chosen.first, this.#chosen.second].includes(first.name)
    ) {
      this.#chosen = { ...this.#chosen, first: first.name };
      keepChosenKits(this.#place, this.#chosen);
    }
    this.kits[0].useInput(first?.name, first?.name ?? this.#chosen.first ?? undefined);
    const secondName = second.state === "none" ? undefined : second.input.name;
    // Two kits of one name are two kits.
    this.kits[1].useInput(
      secondName !== undefined && secondName === first?.name ? `${secondName} (second)` : secondName,
    );
  }
}
