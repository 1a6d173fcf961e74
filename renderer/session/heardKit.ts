/**
 * One kit of the room: what is heard of it, by a map of its own, less the delay of its own set-up, with commands of its own.
 */
import { type Hit, KitEar, type SetUp } from "../../engine/kit/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import type { TimedMessage } from "../midi/timedMessage.ts";
import { CommandChoice } from "./commandChoice.ts";
import { type Command, CommandEar, type Sorted } from "./commandStrike.ts";
import type { KeepingPlace } from "./keepingPlace.ts";
import { KitLog, type LogEntry, type Source } from "./kitLog.ts";
import { KitMapStore } from "./kitMapChoice.ts";
import type { SetUpStore } from "./setUps.ts";

/** Messages can be handed over late, when the page stands still for a moment: silence is believed only after this. */
const HANDED_OVER_SECONDS: Seconds = 0.05;

export class HeardKit {
  readonly log = new KitLog();
  readonly kitMap: KitMapStore;
  readonly commands: CommandChoice;
  readonly #setUps: SetUpStore;
  readonly #onCommand: (command: Command) => void;
  #input: string | undefined;
  #ear: KitEar;
  #commandEar: CommandEar;
  #areCommandsOff = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(place: KeepingPlace, setUps: SetUpStore, onCommand: (command: Command) => void) {
    this.#setUps = setUps;
    this.#onCommand = onCommand;
    this.kitMap = new KitMapStore(place);
    this.commands = new CommandChoice(place, () => this.kitMap.get().map);
    this.#ear = new KitEar(this.kitMap.get().map);
    this.#commandEar = new CommandEar(this.commands.strikes());
    this.kitMap.subscribe(() => {
      this.#ear = new KitEar(this.kitMap.get().map);
      this.#listenForCommands();
    });
    this.commands.subscribe(() => this.#listenForCommands());
  }

  /** Name of the MIDI input it is on; `undefined` where it is on none. */
  get input(): string | undefined {
    return this.#input;
  }

  /**
   * It is on this MIDI input from now on.
   *
   * @param like the input whose map and commands it has: its own, or, where it is on none yet, the one it was on last.
   */
  useInput(input: string | undefined, like = input): void {
    this.#input = input;
    this.kitMap.useInput(like);
    this.commands.useInput(like);
  }

  /** While pads are being learnt, every strike is a strike. Returns the way to hear commands again. */
  withoutCommands(): () => void {
    this.#areCommandsOff = true;
    this.#listenForCommands();
    return () => {
      this.#areCommandsOff = false;
      this.#listenForCommands();
    };
  }

  /** The set-up a source plays on; `undefined` for what no hand strikes. */
  setUpOf(source: Source): SetUp | undefined {
    return this.#setUps.setUpOf(source, this.#input);
  }

  /** What is taken from the time stamps of a source. */
  lateSeconds(source: Source): Seconds {
    return this.#setUps.lateSeconds(source, this.#input);
  }

  /**
   * Takes messages from a source, in order of time. Here, and nowhere else, what is known of the set-up's own delay is
   * taken from their moments.
   */
  receive(messages: readonly TimedMessage[], source: Source, live = true): void {
    const entries: LogEntry[] = [];
    const late = this.lateSeconds(source);
    const commands: Command[] = [];
    for (const { message, time } of messages) {
      const event = this.#ear.hear(message, time - late);
      if (!event) continue;
      if (event.kind !== "hit" || source !== "kit") {
        entries.push({ source, event, live });
        continue;
      }
      const sorted = this.#commandEar.hear(event.hit);
      entries.push(...sorted.strikes.map(asStruck));
      commands.push(...sorted.commands);
    }
    this.log.append(entries);
    for (const command of commands) this.#onCommand(command);
    this.#waitForSilence();
  }

  #listenForCommands(): void {
    // What was held is let go: it was heard by the commands as they were.
    this.#take(this.#commandEar.silentUntil(Number.POSITIVE_INFINITY));
    this.#commandEar = new CommandEar(this.#areCommandsOff ? {} : this.commands.strikes());
  }

  #waitForSilence(): void {
    clearTimeout(this.#timer);
    const decidesAt = this.#commandEar.decidesAt;
    if (decidesAt === undefined) return;
    const until = decidesAt + this.lateSeconds("kit") + HANDED_OVER_SECONDS;
    this.#timer = setTimeout(
      () => {
        this.#take(this.#commandEar.silentUntil(performance.now() / 1000 - this.lateSeconds("kit")));
        this.#waitForSilence();
      },
      Math.max(0, (until - performance.now() / 1000) * 1000),
    );
  }

  #take({ strikes, commands }: Sorted): void {
    this.log.append(strikes.map(asStruck));
    for (const command of commands) this.#onCommand(command);
  }
}

function asStruck(hit: Hit): LogEntry {
  return { source: "kit", live: true, event: { kind: "hit", hit } };
}
